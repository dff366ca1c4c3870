package nav

import "math"

// history keeps the truth as far back as the slowest instrument speaks of.
type history struct {
	step float64 // seconds between entries
	ring []Truth
	last int // index of the newest
	held int
}

// add enters the truth a step after the last. Steps must all be the same.
func (h *history) add(step, deepest float64, t *Truth) {
	if h.ring == nil {
		if step <= 0 {
			panic("nav: a step must be more than nothing")
		}
		h.step = step
		h.ring = make([]Truth, int(math.Round(deepest/step))+1)
	}
	if h.last++; h.last >= len(h.ring) {
		h.last = 0
	}
	h.ring[h.last] = *t
	h.held = min(h.held+1, len(h.ring))
}

// ago is the truth of the tick nearest to so long ago, or the first there was.
func (h *history) ago(delay float64) *Truth {
	back := 0
	if delay > 0 {
		back = min(int(math.Round(delay/h.step)), h.held-1)
	}
	i := h.last - back
	if i < 0 {
		i += len(h.ring)
	}
	return &h.ring[i]
}
