package tow

import "math"

// turnDrum pays out or hauls for h seconds, as fast as the winch can: a motor
// or an arm of some power hauls a heavy cable slowly and stalls at its pull. A
// brake that holds no more lets the cable go, at the speed of the winch (our own
// choice).
func (g *Gear) turnDrum(h float64) {
	w := &g.Spec.Winch
	target := min(max(g.Ordered, w.Min), g.Spec.Cable.Length)
	out, in := w.Rate*h, w.Rate*h
	if w.Power > 0 {
		in = min(in, w.Power/max(g.Tension, 1)*h)
	}
	g.Stalled = w.Pull > 0 && g.Tension > w.Pull && target < g.CableOut
	if g.Stalled {
		in = 0
	}
	change := min(max(target-g.CableOut, -in), out)
	if w.Brake > 0 && g.Tension > w.Brake && change >= 0 {
		change = min(out, g.Spec.Cable.Length-g.CableOut)
		g.Ordered = max(g.Ordered, g.CableOut+change)
		g.Slipped += max(change, 0)
	}
	if change != 0 {
		g.CableOut += change
		g.line.wind(max(g.CableOut, shortest))
	}
}

// markEvery is the distance between the marks painted on the cable, metres.
const markEvery = 5

// Mark is the mark on the cable nearest the sheave, metres from the fish, and
// how far it has gone out past it; negative while it is still inboard.
func (g *Gear) Mark() (mark, past float64) {
	mark = math.Round(g.CableOut/markEvery) * markEvery
	return mark, g.CableOut - mark
}

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
