package sonar

import (
	"math"

	"dryline/seabed"
)

// block marks the steps of the floor that lie in the shadow of parts clear of
// it: those beyond a part and between the elevations of its edges.
func (ws *Workspace) block(p *seabed.Profile, fishZ float64) {
	if cap(ws.blocked) < len(ws.ground) {
		ws.blocked = make([]bool, len(ws.ground)+len(ws.ground)/2)
	}
	ws.blocked = ws.blocked[:len(ws.ground)]
	clear(ws.blocked)
	for _, part := range p.Raised {
		low, high := (part.Z0-fishZ)/part.G, (part.Z1-fishZ)/part.G
		for i, g := range ws.ground {
			if g <= part.G {
				continue
			}
			tangent := (p.Z[i] - fishZ) * ws.inverse[i]
			if tangent >= low && tangent <= high {
				ws.blocked[i] = true
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
		e.deposit(ws, ray, part.Class, step, dip, across*r, at-0.5, at+0.5)
		if ws.inLobe[ray] {
			dst.note(part.Object)
		}
	}
}

// horizonBefore is the highest elevation of the floor nearer than g, as a
// tangent.
func (ws *Workspace) horizonBefore(g, fishZ float64) float64 {
	horizon := math.Inf(-1)
	for i, at := range ws.ground {
		if at >= g {
			break
		}
		horizon = max(horizon, (ws.profile.Z[i]-fishZ)*ws.inverse[i])
	}
	return horizon
}
