package panes

import "image"

// Labels keeps labels off each other: each is moved down and up, and then to the side, until it is
// clear of those before it.
type Labels struct{ taken []image.Rectangle }

// Keep keeps labels off a mark.
func (l *Labels) Keep(r image.Rectangle) { l.taken = append(l.taken, r) }

// Place returns where a label goes that would like to be at r, within a pane.
func (l *Labels) Place(r, pane image.Rectangle) image.Rectangle {
	step := max(r.Dy()/3, 1)
	for _, aside := range [3]int{0, -r.Dx(), r.Dx()} {
		for n := range 80 {
			by := (n + 1) / 2 * step
			if n%2 == 0 {
				by = -by
			}
			at := r.Add(image.Pt(aside, by))
			at = at.Add(image.Pt(within(at.Min.X, at.Max.X, pane.Min.X, pane.Max.X), 0))
			if at.In(pane) && l.free(at) {
				l.taken = append(l.taken, at)
				return at
			}
		}
	}
	r = r.Add(image.Pt(within(r.Min.X, r.Max.X, pane.Min.X, pane.Max.X), within(r.Min.Y, r.Max.Y, pane.Min.Y, pane.Max.Y)))
	l.taken = append(l.taken, r)
	return r
}

// within is how far a stretch has to move to lie within bounds.
func within(from, to, least, most int) int {
	switch {
	case from < least:
		return least - from
	case to > most:
		return max(most-to, least-from)
	}
	return 0
}

// Try keeps the place of a label if it is clear of those before it.
func (l *Labels) Try(r image.Rectangle) bool {
	if !l.free(r) {
		return false
	}
	l.Keep(r)
	return true
}

func (l *Labels) free(r image.Rectangle) bool {
	for _, t := range l.taken {
		if r.Overlaps(t) {
			return false
		}
	}
	return true
}
