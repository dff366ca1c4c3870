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
//
// walkPlain in the tests is the same thing written for reading.
func (e *Engine) walk(ws *Workspace, dst *Echo, ray int, fishZ float64) {
	p := &ws.profile
	raised := len(p.Raised) > 0
	if raised {
		ws.hide(p, fishZ)
		e.walkRaised(ws, dst, ray, fishZ)
	}
	var (
		gs       = p.G
		zs       = p.Z[:len(gs)]
		classes  = p.Class[:len(gs)]
		objects  = p.Object[:len(gs)]
		invBin   = 1 / e.bin
		inLobe   = ws.inLobe[ray]
		horizon  = math.Inf(-1)
		g0       = 0.0
		drop0    = fishZ - zs[0]
		range0   = math.Abs(drop0)
		tangent0 = horizon
	)
	for i, g := range gs {
		drop := fishZ - zs[i]
		tangent := -drop / g
		r := math.Sqrt(g*g + drop*drop)
		if tangent > horizon {
			lit := 1.0
			if tangent0 < horizon { // the facet rises out of a shadow
				lit = (tangent - horizon) / (tangent - tangent0)
			}
			horizon = tangent
			if raised {
				lit *= 1 - ws.hidden[i]
			}
			// Extent of the facet along its own surface and, at its middle, across
			// the ray.
			dg, rise := g-g0, drop0-drop
			length := math.Sqrt(dg*dg + rise*rise)
			inverse := 2 / (range0 + r)
			gm, dm := (g0+g)/2, (drop0+drop)/2
			sine := (rise*gm + dg*dm) * inverse / length
			if sine > 0 && lit > 0 {
				step := min(int(sine*strengthSteps), strengthSteps-1)
				dip := min(max(int((dm*inverse+1)*(dipSteps/2)), 0), dipSteps-1)
				e.deposit(ws, ray, classes[i], step, dip, length/inverse*lit, range0*invBin, r*invBin)
				if inLobe && objects[i] != 0 {
					dst.note(objects[i])
				}
			}
		}
		g0, drop0, range0, tangent0 = g, drop, r, tangent
	}
}

// deposit spreads the echo of a facet over the bins from slant range a to b,
// both in bins. area is per radian of beam.
func (e *Engine) deposit(ws *Workspace, ray int, class seabed.Class, step, dip int, area, a, b float64) {
	if a > b {
		a, b = b, a
	}
	if a >= float64(e.spec.Samples) {
		return
	}
	if b-a <= 1 {
		// Split between the two bins whose centres lie either side.
		centre := max((a+b)/2-0.5, 0)
		k := int(centre)
		if k >= e.spec.Samples {
			return
		}
		f := float32(centre - float64(k))
		for c, t := range e.channels {
			x := float32(area*ws.weights[c][ray]) * ws.vertical[c][dip] * t.strength[class][step]
			pair := ws.energy[c][k : k+2]
			pair[0] += x * (1 - f)
			pair[1] += x * f
		}
		return
	}
	first, last := int(a), min(int(b), e.spec.Samples-1)
	perBin := area / (b - a)
	head, tail := float32(float64(first+1)-a), float32(b-float64(last))
	for c, t := range e.channels {
		x := float32(perBin*ws.weights[c][ray]) * ws.vertical[c][dip] * t.strength[class][step]
		bins := ws.energy[c][first : last+1]
		for k := range bins {
			bins[k] += x
		}
		bins[0] -= x * (1 - head)
		bins[len(bins)-1] -= x * max(1-tail, 0)
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
