package passage

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"dryline/seabed/chance"
	"dryline/sim/exercise"
	"dryline/sim/order"
)

// Traffic is another vessel as the bridge sees her.
type Traffic struct {
	Name   string
	X, Y   float64 // metres
	Course float64 // grid bearing, radians
	Speed  float64 // m/s
	Called bool
	Says   string // what her master answered, empty for nothing yet
}

// Meeting is when and how near two that hold their courses come closest: s seconds from
// now, never in the past, and metres. dx and dy are the place of the one from the other,
// vx and vy its motion against it.
func Meeting(dx, dy, vx, vy float64) (s, metres float64) {
	if v2 := vx*vx + vy*vy; v2 > 1e-9 {
		s = max(-(dx*vx+dy*vy)/v2, 0)
	}
	return s, math.Hypot(dx+s*vx, dy+s*vy)
}

// Our own choice, all of it: what an obliging master does.
const (
	wide         = 250.0             // metres that she leaves, if asked
	soonest      = 120.0             // seconds before the meeting from which on it is too late to ask
	swings       = 1 * math.Pi / 180 // radians per second that she turns
	tooNear      = 100.0             // metres, a mishap
	halfBeam     = 5.0               // metres
	answersFrom  = 8.0               // seconds after a call, and
	answersUntil = 25.0
)

// sail is another vessel under way.
type sail struct {
	*exercise.Sail
	Traffic
	answers float64 // when her master does, seconds; 0 if not called or answered
	wants   float64 // course, radians
	slow    float64 // speed that she goes down to, m/s
	close   bool
}

func newSails(ex *exercise.Exercise) (out []*sail) {
	for i := range ex.Traffic {
		s := &ex.Traffic[i]
		out = append(out, &sail{Sail: s, Traffic: Traffic{Name: s.Name, X: s.X, Y: s.Y, Course: s.Course, Speed: s.Speed}, wants: s.Course, slow: s.Speed})
	}
	return out
}

// seenSail is a vessel in sight by her name, nil if none is.
func (p *Passage) seenSail(name string) *sail {
	for _, s := range p.sails {
		if s.Traffic.Name == name && p.Now() >= s.From {
			return s
		}
	}
	return nil
}

// RefuseCall implements [order.Ship].
func (p *Passage) RefuseCall(name string) error {
	switch s := p.seenSail(name); {
	case s == nil:
		return fmt.Errorf("no vessel in sight is called %q", name)
	case s.Called:
		return errors.New("she has been called")
	}
	return nil
}

// Call implements [order.Ship]: her master answers in a while.
func (p *Passage) Call(name string) {
	s := p.seenSail(name)
	i := slices.Index(p.sails, s)
	draw := chance.Stream(p.events.seed, fmt.Sprintf("traffic/%d", i))
	s.Called, s.answers = true, p.Now()+answersFrom+(answersUntil-answersFrom)*draw.Float64()
}

// sailOn moves the other vessels by a tick, and notes what comes of them.
func (p *Passage) sailOn() {
	now := p.Now()
	for _, s := range p.sails {
		if now < s.From {
			continue
		}
		if s.answers > 0 && now >= s.answers {
			s.answers = 0
			p.answer(s)
		}
		turn := math.Remainder(s.wants-s.Traffic.Course, 2*math.Pi)
		s.Traffic.Course += min(max(turn, -swings*Tick), swings*Tick)
		s.Traffic.Speed += min(max(s.slow-s.Traffic.Speed, -0.05*Tick), 0.05*Tick)
		sin, cos := math.Sincos(s.Traffic.Course)
		s.Traffic.X += s.Traffic.Speed * sin * Tick
		s.Traffic.Y += s.Traffic.Speed * cos * Tick

		if off := math.Hypot(s.Traffic.X-p.hull.X, s.Traffic.Y-p.hull.Y); off < tooNear && !s.close {
			s.close = true
			p.note(CloseQuarters, s.Traffic.Name, off)
		}
		if off, depth := p.gear.Nearest(s.Traffic.X, s.Traffic.Y); off < halfBeam && depth < s.Draught && !p.done {
			p.note(Parted, s.Traffic.Name, p.gear.Tension)
			p.Give(order.Command{Do: order.Finish}) // cannot fail: Finish needs nothing
		}
	}
}

// answer works out what her master says and does: the least change of course that leaves vessel
// and tow enough room, starboard before port, or slow down.
func (p *Passage) answer(s *sail) {
	soon, near := p.meets(s, s.Traffic.Course, s.Traffic.Speed)
	switch {
	case near >= wide:
		s.Says = "I pass clear of you and your tow."
		return
	case s.Stands:
		s.Says = "I cannot alter: keep clear of me."
		return
	case soon < soonest:
		s.Says = "Too late for me to alter: keep clear of me."
		return
	}
	for d := 5; d <= 90; d += 5 {
		for _, by := range []int{d, -d} {
			course := s.Traffic.Course + float64(by)*math.Pi/180
			if _, near := p.meets(s, course, s.Traffic.Speed); near >= wide {
				side := "starboard"
				if by < 0 {
					side = "port"
				}
				s.wants, s.Says = course, fmt.Sprintf("I alter %d degrees to %s to pass clear of your tow.", d, side)
				return
			}
		}
	}
	s.slow, s.Says = s.Traffic.Speed/3, "I slow down to let you and your tow pass."
}

// meets is when and how near she comes to vessel or fish, as both go now.
func (p *Passage) meets(s *sail, course, speed float64) (soon, near float64) {
	sin, cos := math.Sincos(course)
	vx, vy := speed*sin-p.hull.VX, speed*cos-p.hull.VY
	soon, near = Meeting(s.Traffic.X-p.hull.X, s.Traffic.Y-p.hull.Y, vx, vy)
	if at, m := Meeting(s.Traffic.X-p.gear.X, s.Traffic.Y-p.gear.Y, vx, vy); m < near {
		soon, near = at, m
	}
	return soon, near
}

// traffic lists what the bridge sees of other vessels.
func (p *Passage) traffic() (out []Traffic) {
	for _, s := range p.sails {
		if p.Now() >= s.From {
			out = append(out, s.Traffic)
		}
	}
	return out
}

// buoysSeen is how far off a buoy is seen, metres: our own choice.
const buoysSeen = 250.0

// buoys are those in sight.
func (p *Passage) buoys() (out [][2]float64) {
	for i := range p.ex.Snags {
		if s := &p.ex.Snags[i]; !p.lost(s) && math.Hypot(s.X-p.hull.X, s.Y-p.hull.Y) < buoysSeen {
			out = append(out, [2]float64{s.X, s.Y})
		}
	}
	return out
}
