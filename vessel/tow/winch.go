package tow

// wind sets the cable out: the segment at the sheave takes up the difference,
// and is split when it is one and a half segments long and joined to the next
// below half a one. The whole cable is cut finer or coarser when there are too
// few nodes or too many.
func (l *line) wind(out float64) {
	l.top = out - float64(l.n-1)*l.spacing
	for l.top < 0.5*l.spacing && l.n > 1 {
		l.join()
	}
	for l.top > 1.5*l.spacing {
		if l.n == mostNodes {
			l.coarsen()
			continue
		}
		l.split()
	}
	if l.n < fewestNodes && l.spacing >= 2*finestSpacing {
		l.refine()
	}
}

// join drops the node below the sheave.
func (l *line) join() {
	l.at[l.n-1], l.vel[l.n-1] = l.at[l.n], l.vel[l.n]
	l.n--
	l.top += l.spacing
}

// split puts a node into the segment at the sheave, as stretched on either
// side of it.
func (l *line) split() {
	n, f := l.n, l.spacing/l.top
	l.at[n+1], l.vel[n+1] = l.at[n], l.vel[n]
	l.at[n] = l.at[n-1].mix(l.at[n+1], f)
	l.vel[n] = l.vel[n-1].mix(l.vel[n+1], f)
	l.n++
	l.top -= l.spacing
}

// coarsen drops every other node from the fish up.
func (l *line) coarsen() {
	sheave, still := l.at[l.n], l.vel[l.n]
	kept := (l.n + 1) / 2
	for i := range kept {
		l.at[i], l.vel[i] = l.at[2*i], l.vel[2*i]
	}
	out := l.top + float64(l.n-1)*l.spacing
	l.n = kept
	l.at[kept], l.vel[kept] = sheave, still
	l.spacing *= 2
	l.top = out - float64(kept-1)*l.spacing
	if l.top < 0.5*l.spacing && l.n > 1 {
		l.join()
	}
}

// refine halves every segment.
func (l *line) refine() {
	n := l.n
	half := l.spacing / 2
	out := l.top + float64(n-1)*l.spacing
	l.at[2*n-1], l.vel[2*n-1] = l.at[n], l.vel[n]
	for i := n - 1; i > 0; i-- {
		l.at[2*i], l.vel[2*i] = l.at[i], l.vel[i]
		l.at[2*i-1] = l.at[i-1].mix(l.at[i], 0.5)
		l.vel[2*i-1] = l.vel[i-1].mix(l.vel[i], 0.5)
	}
	l.n, l.spacing = 2*n-1, half
	l.top = out - float64(l.n-1)*half
	for l.top > 1.5*half {
		l.split()
	}
}
