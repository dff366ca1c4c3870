package sonar

import (
	"math"

	"dryline/seabed"
)

// hide works out what share of each facet lies in the shadow of parts clear of
// the floor: beyond a part and between the elevations of its edges. Shadows of
// several parts on one facet are taken not to overlap.
func (ws *Workspace) hide(p *seabed.Profile, fishZ float64) {
	if cap(ws.hidden) < len(p.G) {
		ws.hidden = make([]float64, 2*len(p.G))
	}
	ws.hidden = ws.hidden[:len(p.G)]
	clear(ws.hidden)
	for _, part := range p.Raised {
		low, high := (part.Z0-fishZ)/part.G, (part.Z1-fishZ)/part.G
		for i := 1; i < len(p.G); i++ {
			if p.G[i] <= part.G {
				continue
			}
			a, b := (p.Z[i-1]-fishZ)/p.G[i-1], (p.Z[i]-fishZ)/p.G[i]
			if over := min(max(a, b), high) - max(min(a, b), low); over > 0 {
				ws.hidden[i] = min(1, ws.hidden[i]+over/math.Abs(b-a))
			}
		}
	}
}

// walkRaised adds the echoes of the parts clear of the floor: a rod seen in
// the plane of the ray shows it its extent across the ray, at normal
// incidence averaged over its round. Left out: rods shadowing one another.
func (e *Engine) walkRaised(ws *Workspace, dst *Echo, ray int, fishZ float64) {
	p := &ws.profile
	const step = 3 * strengthSteps / 4 // sine averaged over a half round is 0.79
	for _, part := range p.Raised {
		drop := fishZ - (part.Z0+part.Z1)/2
		r := math.Hypot(part.G, drop)
		low, high := (part.Z0-fishZ)/part.G, (part.Z1-fishZ)/part.G
		floor := ws.horizonBefore(part.G, fishZ)
		if high <= floor {
			continue
		}
		seen := (high - max(low, floor)) / (high - low)
		across := (part.Z1 - part.Z0) * part.G / r * seen
		dip := min(int((drop/r+1)*(dipSteps/2)), dipSteps-1)
		at := r / e.bin
		ws.deposit(ray, part.Class, step, dip, across*r, at-0.5, at+0.5)
		if ws.inLobe[ray] {
			dst.note(part.Object)
		}
	}
}

// horizonBefore is the highest elevation of the floor nearer than g, as a
// tangent.
func (ws *Workspace) horizonBefore(g, fishZ float64) float64 {
	horizon := math.Inf(-1)
	for i, at := range ws.profile.G {
		if at >= g {
			break
		}
		horizon = max(horizon, (ws.profile.Z[i]-fishZ)/at)
	}
	return horizon
}
