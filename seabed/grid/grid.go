package grid

import (
	"fmt"
	"math"
)

// Mark says what is known of a cell.
type Mark uint8

// The marks.
const (
	Known   Mark = iota // the file has a value
	Filled              // a hole, interpolated within the distance asked for
	Unknown             // further from any value: the nearest one stands in, to give a world a floor
)

// Grid is the floor under a world: heights in metres, up, over the world's still
// water, at nodes in local metres.
type Grid struct {
	X0, Y0 float64 // of the south-western node
	DX, DY float64
	NX, NY int
	Z      []float32
	Mark   []Mark
}

// margin is how many cells are kept around a world, so that cubics have neighbours.
const margin = 4

// Under lays a raster whose frame is the world's own, moved: the local origin has the
// coordinates (east, north) in the frame. The world reaches from the origin to (width,
// length), metres; water is how much higher its still water stands than the zero of
// the file.
func (r *Raster) Under(east, north, width, length, water float64) (*Grid, error) {
	i0 := max(int(math.Floor((east-r.X0)/r.DX))-margin, 0)
	j0 := max(int(math.Floor((north-r.Y0)/r.DY))-margin, 0)
	i1 := min(int(math.Ceil((east+width-r.X0)/r.DX))+margin, r.NX-1)
	j1 := min(int(math.Ceil((north+length-r.Y0)/r.DY))+margin, r.NY-1)
	if i1-i0 < 1 || j1-j0 < 1 {
		return nil, r.elsewhere()
	}
	g := newGrid(r.X0+float64(i0)*r.DX-east, r.Y0+float64(j0)*r.DY-north, r.DX, r.DY, i1-i0+1, j1-j0+1)
	for j := range g.NY {
		for i := range g.NX {
			g.Z[j*g.NX+i] = r.Z[r.at(i0+i, j0+j)] - float32(water)
		}
	}
	return g, g.markHoles()
}

// Through lays a raster of another frame: to carries a local place to it. Nodes are
// step metres apart, and their heights bicubic between the raster's cells.
func (r *Raster) Through(to func(x, y float64) (fx, fy float64), step, width, length, water float64) (*Grid, error) {
	nx, ny := int(math.Ceil(width/step))+2*margin+1, int(math.Ceil(length/step))+2*margin+1
	if float64(nx)*float64(ny) > most {
		return nil, fmt.Errorf("its cells of %.3g m are too many under the world", step)
	}
	g := newGrid(-margin*step, -margin*step, step, step, nx, ny)
	for j := range ny {
		for i := range nx {
			fx, fy := to(g.X0+float64(i)*step, g.Y0+float64(j)*step)
			u, v := (fx-r.X0)/r.DX, (fy-r.Y0)/r.DY
			z := math.NaN()
			if u > -0.5 && v > -0.5 && u < float64(r.NX)-0.5 && v < float64(r.NY)-0.5 {
				z = cubic(r.Z, r.NX, r.NY, u, v)
				if math.IsNaN(z) { // beside a hole: the nearest cell, which may be the hole
					z = float64(r.Z[r.at(int(math.Round(min(max(u, 0), float64(r.NX-1)))), int(math.Round(min(max(v, 0), float64(r.NY-1)))))])
				}
			}
			g.Z[j*nx+i] = float32(z - water)
		}
	}
	return g, g.markHoles()
}

func newGrid(x0, y0, dx, dy float64, nx, ny int) *Grid {
	return &Grid{X0: x0, Y0: y0, DX: dx, DY: dy, NX: nx, NY: ny, Z: make([]float32, nx*ny), Mark: make([]Mark, nx*ny)}
}

func (r *Raster) elsewhere() error {
	return fmt.Errorf("its depths (%.8g to %.8g east, %.8g to %.8g north, EPSG:%d) do not lie where the world does",
		r.X0, r.X0+float64(r.NX-1)*r.DX, r.Y0, r.Y0+float64(r.NY-1)*r.DY, r.EPSG)
}

func (g *Grid) markHoles() error {
	known := false
	for k, z := range g.Z {
		if z != z {
			g.Mark[k] = Unknown
		} else {
			known = true
		}
	}
	if !known {
		return fmt.Errorf("none of its depths lies where the world does")
	}
	return nil
}

// HeightAt is the height of the floor at a local place, metres: bicubic (Catmull-Rom)
// between nodes. Bilinear would cost a third, but its slope steps at every node line,
// and facets a cell wide show in a record taken at grazing angles; the tiles of a
// world join nodes by the same cubic. It goes through the nodes; beside cliffs it swings over by up to an eighth
// of the step. Beyond the edge the nearest node stands in. Fill comes first.
func (g *Grid) HeightAt(x, y float64) float64 {
	return cubic(g.Z, g.NX, g.NY, (x-g.X0)/g.DX, (y-g.Y0)/g.DY)
}

// cubic is the value at (u, v) in nodes.
func cubic(z []float32, nx, ny int, u, v float64) float64 {
	u, v = min(max(u, 0), float64(nx-1)), min(max(v, 0), float64(ny-1))
	i, j := min(int(u), max(nx-2, 0)), min(int(v), max(ny-2, 0))
	wu, wv := weights(u-float64(i)), weights(v-float64(j))
	sum := 0.0
	for b := range 4 {
		if wv[b] == 0 {
			continue // so that a place on a node asks no hole beside it
		}
		row := z[min(max(j+b-1, 0), ny-1)*nx:]
		part := 0.0
		for a := range 4 {
			if wu[a] != 0 {
				part += wu[a] * float64(row[min(max(i+a-1, 0), nx-1)])
			}
		}
		sum += wv[b] * part
	}
	return sum
}

// weights are those of the four nodes about t in 0..1 (Catmull and Rom 1974).
func weights(t float64) [4]float64 {
	t2, t3 := t*t, t*t*t
	return [4]float64{0.5 * (-t3 + 2*t2 - t), 0.5 * (3*t3 - 5*t2 + 2), 0.5 * (-3*t3 + 4*t2 + t), 0.5 * (t3 - t2)}
}

// MarkAt says what is known of the cell that a local place lies in; nothing is beyond the edge.
func (g *Grid) MarkAt(x, y float64) Mark {
	i, j := math.Round((x-g.X0)/g.DX), math.Round((y-g.Y0)/g.DY)
	if i < 0 || j < 0 || i >= float64(g.NX) || j >= float64(g.NY) || math.IsNaN(i+j) {
		return Unknown
	}
	return g.Mark[int(j)*g.NX+int(i)]
}

// Cell is the distance between nodes, the larger of the two, metres.
func (g *Grid) Cell() float64 { return max(g.DX, g.DY) }

// Memory returns how many bytes it takes.
func (g *Grid) Memory() float64 { return 5 * float64(len(g.Z)) }

// Span is the lowest and the highest of the heights in a rectangle, metres, of cells
// that are not unknown, and the mean.
func (g *Grid) Span(x0, y0, x1, y1 float64) (low, mean, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	n := 0
	for k, z := range g.Z {
		x, y := g.X0+float64(k%g.NX)*g.DX, g.Y0+float64(k/g.NX)*g.DY
		if g.Mark[k] == Unknown || x < x0-g.DX/2 || x > x1+g.DX/2 || y < y0-g.DY/2 || y > y1+g.DY/2 {
			continue
		}
		low, high = min(low, float64(z)), max(high, float64(z))
		mean += float64(z)
		n++
	}
	return low, mean / float64(max(n, 1)), high
}

// Rough is how the grid bends over two cells: the rms height of nodes over the middle of the
// nodes two to either side, metres. It is the shortest thing that a grid says of its relief without
// aliasing having all the say. Holes are left out.
func (g *Grid) Rough() float64 {
	square, n := 0.0, 0
	add := func(k, step int) {
		if g.Mark[k]|g.Mark[k-step]|g.Mark[k+step] != Known {
			return
		}
		d := float64(g.Z[k]) - (float64(g.Z[k-step])+float64(g.Z[k+step]))/2
		square += d * d
		n++
	}
	for j := range g.NY {
		for i := range g.NX {
			k := j*g.NX + i
			if i >= 2 && i < g.NX-2 {
				add(k, 2)
			}
			if j >= 2 && j < g.NY-2 {
				add(k, 2*g.NX)
			}
		}
	}
	if n == 0 {
		return 0
	}
	return math.Sqrt(square / float64(n))
}
