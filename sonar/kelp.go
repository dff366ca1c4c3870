package sonar

import (
	"fmt"
	"math"

	"dryline/seabed"
	"dryline/seabed/chance"
)

// forest is a Kelp ready to be sounded: plants that stand in some of the cells
// of a square grid, in thickets, somewhere in their cell, each an upright brush from the floor up to a
// height of its own. It answers as netting does over all its height and lets a
// share of the sound through. How strong kelp is, and how much it hides, is our
// own choice: side-scan records of it are published, levels are not. Left out:
// its bending in the current and its growing into a canopy at the surface.
type forest struct {
	spec  Kelp
	cell  float64 // side of a cell, metres; half of them hold a plant
	seed  uint64
	mid   seabed.Point // of the circle round its polygon
	reach float64      // its radius; 0 for everywhere
}

func newForest(spec *Kelp, seed uint64, index int) forest {
	f := forest{spec: *spec, cell: math.Sqrt(0.5 / max(spec.Density, 1e-4)), seed: chance.Seed(seed, fmt.Sprint("sonar/kelp", index))}
	f.spec.Radius = min(f.spec.Radius, f.cell/2) // wider leaves would be searched for in vain
	for _, p := range spec.Area.Polygon {
		f.mid.X += p.X / float64(len(spec.Area.Polygon))
		f.mid.Y += p.Y / float64(len(spec.Area.Polygon))
	}
	for _, p := range spec.Area.Polygon {
		f.reach = max(f.reach, math.Hypot(p.X-f.mid.X, p.Y-f.mid.Y))
	}
	return f
}

// bits returns what chance makes of a cell.
func (f *forest) bits(i, j float64) uint64 {
	return chance.Mix(f.seed ^ chance.Mix(uint64(int64(i))<<32^uint64(uint32(int64(j)))))
}

// thicket is the share of the cells about one that hold a plant, a half on the
// whole: chance on a coarser grid, run smooth.
func (f *forest) thicket(i, j float64) float64 {
	const size = 5 // cells
	i, j = i/size, j/size
	i0, j0 := math.Floor(i), math.Floor(j)
	u, v := i-i0, j-j0
	at := func(di, dj float64) float64 { return fraction(f.bits(i0+di+0.5e6, j0+dj)) }
	low := at(0, 0) + u*(at(1, 0)-at(0, 0))
	high := at(0, 1) + u*(at(1, 1)-at(0, 1))
	return min(max(2*(low+v*(high-low))-0.5, 0), 1)
}

// share of 2^32 as a fraction.
func fraction(bits uint64) float64 { return float64(uint32(bits)) / (1 << 32) }

// cut appends the plants on a ray. Along it, step by step, every plant is asked
// for whose cell lies about the step.
func (f *forest) cut(dst []piece, x, y, ux, uy, end float64) []piece {
	from, to := 0.5, end
	if f.reach > 0 {
		dx, dy := f.mid.X-x, f.mid.Y-y
		middle, off := dx*ux+dy*uy, dx*uy-dy*ux
		if math.Abs(off) > f.reach {
			return dst
		}
		half := math.Sqrt(f.reach*f.reach - off*off)
		from, to = max(from, middle-half), min(to, middle+half)
	}
	through := float32(f.spec.Through * f.spec.Through)
	for g := from; g < to; g += f.cell {
		at := g + f.cell/2
		ci, cj := math.Floor((x+ux*at)/f.cell), math.Floor((y+uy*at)/f.cell)
		for i := ci - 1; i <= ci+1; i++ {
			for j := cj - 1; j <= cj+1; j++ {
				bits := f.bits(i, j)
				if fraction(chance.Mix(bits^1)) > f.thicket(i, j) {
					continue
				}
				px, py := (i+fraction(bits))*f.cell, (j+fraction(bits>>32))*f.cell
				dx, dy := px-x, py-y
				along, off := dx*ux+dy*uy, dx*uy-dy*ux
				if along < g || along >= g+f.cell || math.Abs(off) > f.spec.Radius {
					continue
				}
				if !f.spec.Area.Contains(seabed.Point{X: px, Y: py}) {
					continue
				}
				tall := f.spec.Height * (0.5 + 0.5*fraction(chance.Mix(bits)))
				dst = append(dst, piece{g: along, through: through, plant: tall})
			}
		}
	}
	return dst
}

// plant adds the echo of a plant: its height as seen along the ray, spread over
// the slant ranges from its top to its foot, less what the plants before it have
// taken.
func (ws *Workspace) plant(b *piece, before, binLength float64, z float64) {
	const step = 3 * strengthSteps / 4 // as of a rod, see walkRaised
	drop := z - (b.z0+b.z1)/2
	r := math.Hypot(b.g, drop)
	dip := min(int((drop/r+1)*(dipSteps/2)), dipSteps-1)
	area := (b.z1 - b.z0) * b.g / r * r * (1 - float64(b.through)) * before
	foot, top := math.Hypot(b.g, z-b.z0)/binLength, math.Hypot(b.g, z-b.z1)/binLength
	if ws.labels != nil {
		ws.labels.spot = spotAt(seabed.Netting, 0, b.g, (b.z0+b.z1)/2, drop/r)
	}
	ws.deposit(seabed.Netting, step, dip, area, min(foot, top)-0.5, max(foot, top)+0.5)
}
