package panes

import "image"

// Labels keeps labels off each other: each is moved down, then up, until it is
// clear of those before it.
type Labels struct{ taken []image.Rectangle }

// Keep keeps labels off a mark.
func (l *Labels) Keep(r image.Rectangle) { l.taken = append(l.taken, r) }

// Place returns where a label goes that would like to be at r, within a pane.
func (l *Labels) Place(r, pane image.Rectangle) image.Rectangle {
	step := max(r.Dy()/3, 1)
	for n := range 80 {
		by := (n + 1) / 2 * step
		if n%2 == 0 {
			by = -by
		}
		at := r.Add(image.Pt(0, by))
		if at.Max.X > pane.Max.X {
			at = at.Add(image.Pt(pane.Max.X-at.Max.X, 0))
		}
		if at.In(pane) && l.free(at) {
			l.taken = append(l.taken, at)
			return at
		}
	}
	l.taken = append(l.taken, r)
	return r
}

func (l *Labels) free(r image.Rectangle) bool {
	for _, t := range l.taken {
		if r.Overlaps(t) {
			return false
		}
	}
	return true
}
