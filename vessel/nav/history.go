package nav

import "math"

// history keeps the truth as far back as the slowest instrument speaks of.
type history struct {
	deepest float64 // how far back it is asked for, seconds
	step    float64 // seconds between entries
	ring    []Truth
	last    int // index of the newest
	held    int
}

// add enters the truth a step after the last. Steps must all be the same.
func (h *history) add(step float64, t *Truth) {
	if h.ring == nil {
		if step <= 0 {
			panic("nav: a step must be more than nothing")
		}
		h.step = step
		h.ring = make([]Truth, int(math.Round(h.deepest/step))+1)
	}
	if h.last++; h.last >= len(h.ring) {
		h.last = 0
	}
	h.ring[h.last] = *t
	h.held = min(h.held+1, len(h.ring))
}

// age is how old the truth is that [history.ago] finds, seconds.
func (h *history) age(delay float64) float64 { return float64(h.back(delay)) * h.step }

// back is how many entries lie between it and the newest.
func (h *history) back(delay float64) int {
	if delay <= 0 {
		return 0
	}
	return min(int(math.Round(delay/h.step)), h.held-1)
}

// ago is the truth of the tick nearest to so long ago, or the first there was.
func (h *history) ago(delay float64) *Truth {
	i := h.last - h.back(delay)
	if i < 0 {
		i += len(h.ring)
	}
	return &h.ring[i]
}
