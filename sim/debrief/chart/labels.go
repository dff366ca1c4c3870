package chart

import "math"

// Rect is a rectangle on the sheet, from X0 to X1 and Y0 to Y1 in pixels.
type Rect struct{ X0, Y0, X1, Y1 float64 }

// Empty reports whether r has no inside.
func (r Rect) Empty() bool { return r.X0 >= r.X1 || r.Y0 >= r.Y1 }

// Overlaps reports whether r and o share more than an edge.
func (r Rect) Overlaps(o Rect) bool {
	return r.X0 < o.X1 && o.X0 < r.X1 && r.Y0 < o.Y1 && o.Y0 < r.Y1
}

// Inside reports whether the whole of r lies in o.
func (r Rect) Inside(o Rect) bool {
	return o.X0 <= r.X0 && r.X1 <= o.X1 && o.Y0 <= r.Y0 && r.Y1 <= o.Y1
}

// Grow returns r with all sides moved outwards.
func (r Rect) Grow(by float64) Rect { return Rect{r.X0 - by, r.Y0 - by, r.X1 + by, r.Y1 + by} }

// Anchor is a place that wants a label, in pixels.
type Anchor struct {
	X, Y   float64
	Radius float64 // of the mark there, kept free
	W, H   float64 // size of the label
	// Angle tried first, radians clockwise on the sheet from pointing right.
	Angle float64
	// Reach is how far from the mark the label may go; 0: anywhere.
	Reach float64
}

// turns is the order of directions tried round a mark, in eighths of half a
// circle from the preferred angle: that side first, the opposite one last.
var turns = [...]float64{0, -2, 2, -4, 4, -1, 1, -3, 3, -6, 6, -5, 5, 8, -7, 7}

// PlaceLabels returns a box for the label of each anchor: inside within, clear
// of every mark and obstacle, and clear of one another by a pixel at least. It
// goes through the anchors in order and, for each, outwards from its mark. A
// label without room gets an empty Rect.
func PlaceLabels(within Rect, anchors []Anchor, obstacles []Rect) []Rect {
	taken := make([]Rect, 0, 2*len(anchors)+len(obstacles))
	taken = append(taken, obstacles...)
	for _, a := range anchors {
		taken = append(taken, Rect{a.X, a.Y, a.X, a.Y}.Grow(a.Radius))
	}
	boxes := make([]Rect, len(anchors))
	farthest := math.Hypot(within.X1-within.X0, within.Y1-within.Y0)
	for i, a := range anchors {
		reach := farthest
		if a.Reach > 0 {
			reach = a.Reach
		}
		boxes[i] = place(within, a, reach, taken)
		if !boxes[i].Empty() {
			taken = append(taken, boxes[i])
		}
	}
	return boxes
}

func place(within Rect, a Anchor, reach float64, taken []Rect) Rect {
	const gap = 2.0
	for away := gap; away <= reach; away += max(a.H/2, 2) {
		for _, turn := range turns {
			sin, cos := math.Sincos(a.Angle + turn*math.Pi/8)
			// The box is pushed out by its own half size in that direction.
			x := a.X + cos*(a.Radius+away) + push(cos)*a.W/2
			y := a.Y + sin*(a.Radius+away) + push(sin)*a.H/2
			box := Rect{x - a.W/2, y - a.H/2, x + a.W/2, y + a.H/2}
			if box.Inside(within) && free(box.Grow(1), taken) {
				return box
			}
		}
	}
	return Rect{}
}

// push turns a direction cosine into a share of the half size: all of it well
// before the direction is square on, so that corners clear the mark.
func push(c float64) float64 { return min(max(1.8*c, -1), 1) }

func free(box Rect, taken []Rect) bool {
	for _, t := range taken {
		if box.Overlaps(t) {
			return false
		}
	}
	return true
}
