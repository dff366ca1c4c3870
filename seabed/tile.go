package seabed

import (
	"math"
	"slices"
)

// Tiles are square, tileSize metres on a side, with a node every nodeStep
// metres and a margin so that a cubic never needs a neighbour.
const (
	tileSize   = 32.0
	nodeStep   = 0.25
	nodesPerM  = 1 / nodeStep
	tileNodes  = int(tileSize * nodesPerM)
	tileMargin = 1 // nodes before the first; two follow the last
	tileSide   = tileNodes + 3
)

// TileLimit is how many tiles are kept; see [Spec.Memory] for what they take.
const TileLimit = 1024

// tile is one built square of the floor.
type tile struct {
	z       field
	surface [tileSide * tileSide]surface
}

// surface is what the floor is made of at a node, with the ripples on it that are too
// short for the nodes: which field of them (0 none, else index + 1), its height as a share
// of 255, and its phase wander in 1/256 turns. A ray reads it whole.
type surface struct {
	class        Class
	field, share uint8
	phase        int8
}

// The noises are sampled on a 1 m grid around the tile and interpolated: none
// of them holds waves shorter than 4 m.
const (
	coarseStep   = 1.0
	coarseMargin = 2
	coarseSide   = int(tileSize/coarseStep) + 2*coarseMargin + 1
)

// coarse is a field on the 1 m grid around a tile.
type coarse [coarseSide * coarseSide]float64

// sample fills the grid from f; (x0, y0) is the tile's south-west corner.
func (c *coarse) sample(x0, y0 float64, f func(x, y float64) float64) {
	for j := range coarseSide {
		y := y0 + float64(j-coarseMargin)*coarseStep
		for i := range coarseSide {
			c[j*coarseSide+i] = f(x0+float64(i-coarseMargin)*coarseStep, y)
		}
	}
}

// nodes interpolates the grid to the tile's nodes by separable cubics.
func (c *coarse) nodes(dst *field) {
	var rows [coarseSide * tileSide]float64
	for i := range tileSide {
		k, w := cubicAt(i)
		for j := range coarseSide {
			g := c[j*coarseSide+k-1 : j*coarseSide+k+3]
			rows[j*tileSide+i] = w[0]*g[0] + w[1]*g[1] + w[2]*g[2] + w[3]*g[3]
		}
	}
	for j := range tileSide {
		k, w := cubicAt(j)
		for i := range tileSide {
			dst[j*tileSide+i] = float32(w[0]*rows[(k-1)*tileSide+i] + w[1]*rows[k*tileSide+i] +
				w[2]*rows[(k+1)*tileSide+i] + w[3]*rows[(k+2)*tileSide+i])
		}
	}
}

// cubicAt gives the coarse index and Catmull-Rom weights for a node index.
func cubicAt(node int) (k int, w [4]float64) {
	s := float64(node-tileMargin)*nodeStep/coarseStep + coarseMargin
	k = int(s)
	return k, catmullRom(s - float64(k))
}

// catmullRom returns the weights of the four neighbours at t in 0..1 between
// the second and third: the C1 cubic through its nodes (Catmull and Rom 1974).
func catmullRom(t float64) [4]float64 {
	t2, t3 := t*t, t*t*t
	return [4]float64{
		0.5 * (-t3 + 2*t2 - t),
		0.5 * (3*t3 - 5*t2 + 2),
		0.5 * (-3*t3 + 4*t2 + t),
		0.5 * (t3 - t2),
	}
}

// build makes the tile whose south-west corner is (x0, y0).
func (w *World) build(x0, y0 float64) *tile {
	t := new(tile)
	var c coarse
	c.sample(x0, y0, w.relief.height)
	c.nodes(&t.z)
	w.layBedforms(t, &c, x0, y0)
	w.laySediments(t, &c, x0, y0)
	w.layWaves(t, &c, x0, y0)
	for i := range w.objects {
		w.objects[i].scourInto(t, x0, y0)
	}
	for i, z := range t.z {
		t.z[i] = min(z, shallowest)
	}
	return t
}

// shallowest keeps the floor under water whatever an exercise asks, metres.
const shallowest = -0.5

// eachNode calls f with every node's index and position.
func eachNode(x0, y0 float64, f func(n int, x, y float64)) {
	for j := range tileSide {
		y := y0 + float64(j-tileMargin)*nodeStep
		for i := range tileSide {
			f(j*tileSide+i, x0+float64(i-tileMargin)*nodeStep, y)
		}
	}
}

// eachNodeIn is eachNode for the nodes inside a rectangle.
func eachNodeIn(x0, y0, left, bottom, right, top float64, f func(n int, x, y float64)) {
	at := func(v, origin float64) int { return int(math.Ceil((v-origin)*nodesPerM)) + tileMargin }
	i0, i1 := max(at(left, x0), 0), min(at(right, x0), tileSide)
	j0, j1 := max(at(bottom, y0), 0), min(at(top, y0), tileSide)
	for j := j0; j < j1; j++ {
		y := y0 + float64(j-tileMargin)*nodeStep
		for i := i0; i < i1; i++ {
			f(j*tileSide+i, x0+float64(i-tileMargin)*nodeStep, y)
		}
	}
}

func (w *World) layBedforms(t *tile, c *coarse, x0, y0 float64) {
	var weight field
	for k := range w.spec.Bedforms {
		b, st := &w.spec.Bedforms[k], &w.bedforms[k]
		switch b.Kind {
		case Waves, Ripples, SandWaves:
			continue // laid on the sediments
		case Outcrop:
			if c.weigh(&weight, &b.Area, st.cover, x0, y0) {
				w.layOutcrop(t, c, k, x0, y0, &weight)
			}
		default:
			st.stampInto(t, x0, y0)
		}
	}
}

// weigh fills dst with how much of an area holds and reports whether any does.
func (c *coarse) weigh(dst *field, a *Area, noise func(x, y float64, a *Area) float64, x0, y0 float64) bool {
	if a.misses(x0, y0) {
		return false
	}
	present := false
	c.sample(x0, y0, func(x, y float64) float64 {
		v := a.weight(x, y, noise)
		present = present || v > 0
		return v
	})
	if present {
		c.nodes(dst)
	}
	return present
}

// layOutcrop raises rock ridges and marks as rock what stands above three
// tenths of the outcrop's height.
func (w *World) layOutcrop(t *tile, c *coarse, k int, x0, y0 float64, weight *field) {
	b, st := &w.spec.Bedforms[k], &w.bedforms[k]
	eachNode(x0, y0, func(n int, x, y float64) {
		if weight[n] <= 0 {
			return
		}
		s := 1 / b.Wavelength
		// Ridges at the asked wavelength, warped and broken up by rougher stone:
		// rock has no shortest wave that a 0.25 m node could not carry.
		wx := x + 0.35*b.Wavelength*st.noise.Eval2(0.7*x*s+60, 0.7*y*s)
		wy := y + 0.35*b.Wavelength*st.noise.Eval2(0.7*x*s, 0.7*y*s+80)
		r := 0.40*ridge(st.noise.Eval2(wx*s, wy*s)) +
			0.25*(0.5+0.5*st.noise.Eval2(2.1*x*s+31, 2.1*y*s)) +
			0.18*math.Abs(st.noise.Eval2(4.7*x*s, 4.7*y*s+17)) +
			0.10*(0.5+0.5*st.noise.Eval2(9.7*x*s+5, 9.7*y*s)) +
			0.07*math.Abs(st.noise.Eval2(19*x*s, 19*y*s))
		r *= float64(weight[n])
		t.z[n] += float32(b.Height * r)
		if r > 0.3 {
			t.surface[n].class = Rock | outcropMark
		}
	})
}

// outcropMark keeps laySediments from covering bare rock; it is cleared there.
const outcropMark Class = 0x80

// laySediments says what every node is made of and gives the ground the longer waves
// of its roughness: those of the sediment, going over softly at borders.
func (w *World) laySediments(t *tile, c *coarse, x0, y0 float64) {
	var weight, rough, edge field
	var soft coarse
	for n := range t.surface {
		if t.surface[n].class&outcropMark == 0 {
			t.surface[n].class = w.spec.Base
		}
	}
	w.roughen(&rough, w.spec.Base, nil, x0, y0)
	for k := range w.spec.Patches {
		p := &w.spec.Patches[k]
		if p.Class == Unset {
			continue
		}
		if p.Marks.Kind != "" {
			w.layMarks(t, k, &edge, x0, y0)
			continue
		}
		if p.Area.misses(x0, y0) {
			continue
		}
		present, near, node := false, false, 0
		c.sample(x0, y0, func(x, y float64) (a float64) {
			a, soft[node] = p.Area.weights(x, y, edgeWidth, edgeMix, w.patches[k].cover)
			present, near = present || a > 0, near || soft[node] > 0
			node++
			return a
		})
		if near {
			soft.nodes(&weight)
			w.roughen(&rough, p.Class, &weight, x0, y0)
		}
		if !present {
			continue
		}
		c.nodes(&weight)
		if slices.ContainsFunc(weight[:], func(a float32) bool { return a > 0 && a < 1 }) {
			w.fabric.edge(&edge, k, x0, y0)
		}
		eachNode(x0, y0, func(n int, x, y float64) {
			if t.surface[n].class&outcropMark != 0 || weight[n] <= 0 {
				return
			}
			// The edge of a patch is no line: lobes and islands at every scale, and at
			// the least grains that mix.
			if weight[n] >= 1 || float64(weight[n]) > 0.5+0.22*float64(edge[n])+0.1*(dither(x, y)-0.5) {
				t.surface[n].class = p.Class
			}
		})
	}
	for n := range t.surface {
		t.surface[n].class &^= outcropMark
		t.z[n] += rough[n]
	}
}

// roughen lays a sediment's longer waves over those there are, by weight (everywhere
// if there is none), so that the variance goes from one to the other.
func (w *World) roughen(rough *field, class Class, weight *field, x0, y0 float64) {
	if w.spec.Featureless {
		return
	}
	var own field
	w.fabric.long.spread(&own, class, x0, y0)
	rms := float32(w.rms[class.ground()])
	for n, z := range own {
		s := float32(1)
		if weight != nil {
			s = min(max(weight[n], 0), 1)
		}
		rough[n] += s * (rms*z - rough[n])
		if s > 0 && s < 1 {
			rough[n] /= float32(math.Sqrt(float64(1 - 2*s*(1-s))))
		}
	}
}

// The edges of sediments are at least this soft, in metres and in the noise that
// thins them out: structure needs some room.
const (
	edgeWidth = 2.0
	edgeMix   = 0.25
)

// dither is a fixed noise in 0..1, the same for a node whichever tile holds it.
func dither(x, y float64) float64 {
	i := uint32(int32(math.Round(x * nodesPerM)))
	j := uint32(int32(math.Round(y * nodesPerM)))
	h := i*0x9e3779b1 ^ j*0x85ebca77
	h = (h ^ h>>15) * 0x2c1b3c6d
	h = (h ^ h>>12) * 0x297a2d39
	return float64(h^h>>15) / (1 << 32)
}

func (st *bedformState) stampInto(t *tile, x0, y0 float64) {
	x1, y1 := x0+tileSize+1, y0+tileSize+1
	st.burrows.stampInto(t, x0, y0)
	for k := range st.furrows {
		st.furrows[k].stampInto(t, x0, y0)
	}
	for k := range st.pits {
		p := &st.pits[k]
		reach := 2 * p.radius
		if p.at.X+reach < x0-1 || p.at.X-reach > x1 || p.at.Y+reach < y0-1 || p.at.Y-reach > y1 {
			continue
		}
		eachNodeIn(x0, y0, p.at.X-reach, p.at.Y-reach, p.at.X+reach, p.at.Y+reach, func(n int, x, y float64) {
			t.z[n] += float32(p.heightAt(x, y))
		})
	}
}
