package sonar

import (
	"math"

	"dryline/seabed"
)

// walk adds the echo of one ray to the energy of every channel.
//
// The floor between two steps is a straight facet. It is lit as far as it
// rises above the highest elevation seen so far; its echo is spread over the
// slant ranges it spans. Each channel's share is
//
//	weight x vertical pattern x strength(sin gamma, class) x area
//
// with sin gamma from the facet's extent across the ray. The beam of a line
// array is a cone about the track: at slant range R a width Theta covers
// R Theta of track, not ground range times Theta. Left out: slope along track
// (second order in the area), refraction.
func (e *Engine) walk(ws *Workspace, dst *Echo, ray int, fishZ float64) {
	p := &ws.profile
	raised := len(p.Raised) > 0
	if raised {
		ws.block(p, fishZ)
		e.walkRaised(ws, dst, ray, fishZ)
	}
	var (
		gs, zs   = ws.ground, p.Z[:len(ws.ground)]
		inverse  = ws.inverse[:len(gs)]
		classes  = p.Class[:len(gs)]
		invBin   = 1 / e.bin
		last     = float64(e.spec.Samples)
		horizon  = math.Inf(-1)
		inLobe   = ws.inLobe[ray]
		g0, z0   = 0.0, zs[0]
		drop0    = fishZ - z0
		range0   = math.Abs(drop0) * invBin
		tangent0 = math.Inf(-1)
	)
	for i, g := range gs {
		drop := fishZ - zs[i]
		tangent := -drop * inverse[i]
		r := math.Sqrt(g*g + drop*drop)
		at := r * invBin
		if tangent > horizon {
			lit := 1.0
			if tangent0 < horizon { // the facet rises out of a shadow
				lit = (tangent - horizon) / (tangent - tangent0)
			}
			horizon = tangent
			if raised && ws.blocked[i] {
				lit = 0
			}
			dg, rise := g-g0, zs[i]-z0
			// Extent of the facet across the ray at its middle, and along its surface.
			rm := (range0 + at) / 2 * e.bin
			dm := (drop0 + drop) / 2
			across := (rise*(g0+g)/2 + dg*dm) / rm
			if across > 0 && lit > 0 {
				length := math.Sqrt(dg*dg + rise*rise)
				step := min(int(across/length*strengthSteps), strengthSteps-1)
				dip := int((dm/rm + 1) * (dipSteps / 2))
				dip = min(max(dip, 0), dipSteps-1)
				e.deposit(ws, ray, classes[i], step, dip, length*rm*lit, range0, at)
				if inLobe && p.Object[i] != 0 {
					dst.note(p.Object[i])
				}
			}
		}
		g0, z0, drop0, range0, tangent0 = g, zs[i], drop, at, tangent
		if at > last && drop > 0 && g*invBin > last {
			break
		}
	}
}

// deposit spreads the echo of a facet over the bins from slant range a to b,
// both in bins. area is per radian of beam.
func (e *Engine) deposit(ws *Workspace, ray int, class seabed.Class, step, dip int, area, a, b float64) {
	if a > b {
		a, b = b, a
	}
	samples := float64(e.spec.Samples)
	if a >= samples {
		return
	}
	if b-a <= 1.25 {
		// Split between the two bins whose centres lie either side.
		centre := (a+b)/2 - 0.5
		if centre < 0 {
			centre = 0
		}
		k := int(centre)
		if k >= e.spec.Samples {
			return
		}
		f := float32(centre - float64(k))
		for c, t := range e.channels {
			x := float32(area*ws.weights[c][ray]) * ws.vertical[c][dip] * t.strength[class][step]
			energy := ws.energy[c]
			energy[k] += x * (1 - f)
			energy[k+1] += x * f
		}
		return
	}
	density := area / (b - a)
	for k := int(a); k < e.spec.Samples && float64(k) < b; k++ {
		part := min(b, float64(k+1)) - max(a, float64(k))
		for c, t := range e.channels {
			ws.energy[c][k] += float32(density*part*ws.weights[c][ray]) * ws.vertical[c][dip] * t.strength[class][step]
		}
	}
}

// note records an object as lit, once.
func (dst *Echo) note(object uint16) {
	for _, o := range dst.Lit {
		if o == object {
			return
		}
	}
	dst.Lit = append(dst.Lit, object)
}
