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
	if g.Jammed {
		out, in = 0, 0
	}
	g.Stalled = w.Pull > 0 && g.Tension > w.Pull && target < g.CableOut
	if g.Stalled {
		in = 0
	}
	change := min(max(target-g.CableOut, -in), out)
	if w.Brake > 0 && g.Tension > w.Brake && change >= 0 {
		change = min(w.Rate*h, g.Spec.Cable.Length-g.CableOut)
		g.Ordered = max(g.Ordered, g.CableOut+change)
		g.Slipped += max(change, 0)
	}
	if change != 0 {
		g.CableOut += change
		g.cable.wind(max(g.CableOut, shortest))
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
func (c *cable) wind(out float64) {
	c.top = out - float64(c.n-1)*c.spacing
	for c.top < 0.5*c.spacing && c.n > 1 {
		c.join()
	}
	for c.top > 1.5*c.spacing {
		if c.n == mostNodes {
			c.coarsen()
			continue
		}
		c.split()
	}
	if c.n < fewestNodes && c.spacing >= 2*finestSpacing {
		c.refine()
	}
}

// join drops the node below the sheave.
func (c *cable) join() {
	c.at[c.n-1], c.vel[c.n-1] = c.at[c.n], c.vel[c.n]
	c.n--
	c.top += c.spacing
}

// split puts a node into the segment at the sheave, as stretched on either
// side of it.
func (c *cable) split() {
	n, f := c.n, c.spacing/c.top
	c.at[n+1], c.vel[n+1] = c.at[n], c.vel[n]
	c.at[n] = c.at[n-1].mix(c.at[n+1], f)
	c.vel[n] = c.vel[n-1].mix(c.vel[n+1], f)
	c.gain[n], c.pull[n] = c.gain[n-1], c.pull[n-1]
	c.n++
	c.top -= c.spacing
}

// coarsen drops every other node from the fish up.
func (c *cable) coarsen() {
	c.forget()
	sheave, still := c.at[c.n], c.vel[c.n]
	kept := (c.n + 1) / 2
	for i := range kept {
		c.at[i], c.vel[i] = c.at[2*i], c.vel[2*i]
	}
	out := c.top + float64(c.n-1)*c.spacing
	c.n = kept
	c.at[kept], c.vel[kept] = sheave, still
	c.spacing *= 2
	c.top = out - float64(kept-1)*c.spacing
	if c.top < 0.5*c.spacing && c.n > 1 {
		c.join()
	}
}

// refine halves every segment.
func (c *cable) refine() {
	c.forget()
	n := c.n
	half := c.spacing / 2
	out := c.top + float64(n-1)*c.spacing
	c.at[2*n-1], c.vel[2*n-1] = c.at[n], c.vel[n]
	for i := n - 1; i > 0; i-- {
		c.at[2*i], c.vel[2*i] = c.at[i], c.vel[i]
		c.at[2*i-1] = c.at[i-1].mix(c.at[i], 0.5)
		c.vel[2*i-1] = c.vel[i-1].mix(c.vel[i], 0.5)
	}
	c.n, c.spacing = 2*n-1, half
	c.top = out - float64(c.n-1)*half
	for c.top > 1.5*half {
		c.split()
	}
}

// forget has the next step begun without what the last one was like: the nodes
// are others.
func (c *cable) forget() { c.gain, c.pull = [mostNodes + 1]vec{}, [mostNodes]float64{} }
