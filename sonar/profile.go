package sonar

import (
	"fmt"
	"math"
	"sort"

	"dryline/sonar/acoustics"
)

// CastPoint is one point of a sound speed cast.
type CastPoint struct {
	Depth      float64 // metres
	SoundSpeed float64 // m/s
}

// Profile returns the sound speed of the water by depth, m/s: its cast, straight between the points and the end
// values beyond them, or without one the same speed everywhere.
func (s *Sea) Profile() (func(depth float64) float64, error) {
	p, err := newProfile(s.Cast)
	if err != nil {
		return nil, err
	}
	c, err := acoustics.SoundSpeed(s.SoundSpeed, s.Temperature, s.Salinity, s.Depth)
	if err != nil {
		return nil, err
	}
	return func(depth float64) float64 {
		if len(p) > 0 {
			c, _ := p.at(depth)
			return c
		}
		return c
	}, nil
}

// profile is the sound speed by depth: straight lines between the points, the
// end values beyond them.
type profile []CastPoint

func newProfile(cast []CastPoint) (profile, error) {
	p := append(profile(nil), cast...)
	sort.Slice(p, func(i, j int) bool { return p[i].Depth < p[j].Depth })
	for i, l := range p {
		if !(l.SoundSpeed > 1300 && l.SoundSpeed < 1700) {
			return nil, fmt.Errorf("sonar: cast: %g m/s at %g m is no sound speed of water (want 1300 to 1700)", l.SoundSpeed, l.Depth)
		}
		if i > 0 && l.Depth <= p[i-1].Depth {
			return nil, fmt.Errorf("sonar: cast: two sound speeds at %g m", l.Depth)
		}
	}
	return p, nil
}

// at returns the sound speed and its gradient (per metre of depth) at a depth.
func (p profile) at(depth float64) (speed, gradient float64) {
	i := sort.Search(len(p), func(i int) bool { return p[i].Depth > depth })
	switch i {
	case 0:
		return p[0].SoundSpeed, 0
	case len(p):
		return p[len(p)-1].SoundSpeed, 0
	}
	a, b := p[i-1], p[i]
	gradient = (b.SoundSpeed - a.SoundSpeed) / (b.Depth - a.Depth)
	return a.SoundSpeed + gradient*(depth-a.Depth), gradient
}

// spans appends the way from one depth to another, up or down, in stretches of
// one gradient.
func (p profile) spans(dst []span, from, to float64) []span {
	a, _ := p.at(from)
	for from != to {
		next := to
		for _, point := range p {
			if (point.Depth-from)*(to-from) > 0 && math.Abs(point.Depth-from) < math.Abs(next-from) {
				next = point.Depth
			}
		}
		b, _ := p.at(next)
		dst = append(dst, span{a: a, b: b, dz: math.Abs(next - from), times: 1})
		from, a = next, b
	}
	return dst
}
