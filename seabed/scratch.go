package seabed

// scratch is the memory that building a tile takes for the while: more than half a megabyte, which on a
// stack would be copied each time that grows. A world keeps one.
type scratch struct {
	outline             outline
	c, soft             coarse
	weight, rough, edge field
	crests              crests
	long                weave
	border              border
}

// borrow gives the world's scratch, or another to who builds a tile beside somebody else.
func (w *World) borrow() *scratch {
	if s := w.spare.Swap(nil); s != nil {
		return s
	}
	return new(scratch)
}

// weigh fills weight with how much of an area holds, 0..1, and reports whether any does.
func (s *scratch) weigh(a *Area, noise *areaNoise, x0, y0 float64) bool {
	if a.misses(x0, y0) {
		return false
	}
	const feather, mixed = 0.25, 0.08
	s.outline.lay(a, x0, y0)
	present, _ := s.outline.weigh(&s.c, &s.soft, x0, y0, feather, mixed, noise)
	if present {
		s.c.nodes(&s.weight, 0, tileSide)
	}
	return present
}

// weighed are the rows of nodes, from one to before another, outside which nothing weighs.
func (s *scratch) weighed() (from, to int) {
	none := func(row int) bool {
		for _, a := range s.weight[row*tileSide : (row+1)*tileSide] {
			if a > 0 {
				return false
			}
		}
		return true
	}
	from, to = 0, tileSide
	for from < to && none(from) {
		from++
	}
	for from < to && none(to-1) {
		to--
	}
	return from, to
}
