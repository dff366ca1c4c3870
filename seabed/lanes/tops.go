package lanes

import "math"

// Nodes of a grid of tops hold a height in steps, and marks of the cell that they are a corner of.
const (
	TopBare   = 1 << 15 // nothing is in the cell
	TopBroken = 1 << 14 // it is not to be read: the top breaks off in it
	TopHeight = TopBroken - 1
)

// Nothing is lower than anything.
const Nothing = -math.MaxFloat32

// Course is how samples go over a grid of tops, on straight lines between its nodes.
type Course struct {
	U, V               int32   // where the first lies, columns and rows in 65536ths of a cell
	DU, DV             int32   // from one to the next
	Wide               int32   // nodes in a row
	Number             int32   // of what is raised
	Base, Scale, Climb float32 // metres: of height 0 at the first, of a 65536th of a step, and more from one to the next
}

// Found tells what there is in a block, a bit to a sample.
type Found struct {
	Higher uint16 // than what was there
	Broken uint16 // the cell is not to be read
}

// Raise raises z, and puts the number of the course into by, where the tops on its way are higher, fills in what
// it has found by block, and says how high the highest top is that it has put in; Nothing if
// none. Every sample has to lie in a cell. What lies in a broken cell is left as it was.
func Raise(z []float32, by []int32, found []Found, nodes []uint16, course *Course) (highest float32) {
	if len(z) == 0 {
		return Nothing
	}
	by, found = by[:len(z)], found[:Blocks(len(z))]
	return raise(z, by, found, nodes, course)
}

// Blocks is how many blocks samples take.
func Blocks(samples int) int { return (samples + Width - 1) / Width }

// raiseScalar raises the samples from one on.
func raiseScalar(z []float32, by []int32, found []Found, nodes []uint16, c *Course, from int) (highest float32) {
	const part = 1<<16 - 1
	highest = Nothing
	u, v := c.U+int32(from)*c.DU, c.V+int32(from)*c.DV
	for i := from; i < len(z); i++ {
		f, bit := &found[i/Width], uint16(1)<<(i%Width)
		if bit == 1 {
			*f = Found{}
		}
		at := int(v>>16)*int(c.Wide) + int(u>>16)
		low, high := (*[2]uint16)(nodes[at:]), (*[2]uint16)(nodes[at+int(c.Wide):])
		fu, fv := int64(u&part), int64(v&part)
		u, v = u+c.DU, v+c.DV
		if low[0] > TopHeight {
			if low[0]&TopBroken != 0 {
				f.Broken |= bit
			}
			continue
		}
		a, b := int64(low[0]), int64(high[0]&TopHeight)
		a = a<<16 + fu*(int64(low[1]&TopHeight)-a)
		b = b<<16 + fu*(int64(high[1]&TopHeight)-b)
		a += fv * (b - a) >> 16
		top := c.Base + float32(float32(a)*c.Scale) + float32(float32(i)*c.Climb)
		if top > z[i] {
			z[i], by[i], f.Higher = top, c.Number, f.Higher|bit
			highest = most(top, highest)
		}
	}
	return highest
}
