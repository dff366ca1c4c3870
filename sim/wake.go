package sim

import (
	"math"

	"dryline/sim/exercise"
	"dryline/sim/passage"
	"dryline/sonar"
)

// wake remembers where the vessel has been, as the water she stirred drifts
// away with the current, and tells each ping where its plane cuts that track.
type wake struct {
	points []wakePoint // oldest first
	oldest float64     // age beyond which nothing is left, seconds
	reach  float64     // to the side, metres
}

type wakePoint struct{ x, y, time, run, strength float64 }

// wakeStep is the time between points, seconds; freshSpeed is the speed through
// the water at which the propeller stirs it as much as it ever does (our own
// choice), m/s.
const (
	wakeStep   = 1.0
	freshSpeed = 2.5
)

func newWake(ex *exercise.Exercise) wake {
	w := ex.Sonar.Effects.Wake
	if w.Attenuation <= 0 {
		return wake{}
	}
	const halvings = 7 // less than a hundredth is left
	wake := wake{oldest: halvings * w.HalfLife}
	wake.hear(ex, ex.Sonar.RangeScale)
	return wake
}

// hear sets how far off a wake is heard, metres.
func (w *wake) hear(ex *exercise.Exercise, rangeScale float64) {
	w.reach = rangeScale + ex.Sonar.Effects.Wake.Width
}

// follow notes where the vessel's stern is, now and then.
func (w *wake) follow(p *passage.Passage) {
	if w.oldest == 0 {
		return
	}
	now, run := p.Now(), 0.0
	x, y, ahead := p.Stern()
	if n := len(w.points); n > 0 {
		last := &w.points[n-1]
		if now < last.time+wakeStep {
			return
		}
		run = last.run + math.Hypot(x-last.x, y-last.y)
	}
	for len(w.points) > 0 && w.points[0].time < now-w.oldest {
		w.points = w.points[1:]
	}
	w.points = append(w.points, wakePoint{x, y, now, run, min(math.Abs(ahead)/freshSpeed, 1)})
}

// cuts is where the plane across the fish cuts the wake, the freshest first.
func (w *wake) cuts(p sonar.Pose, currentX, currentY float64) (cuts [2][sonar.Crossings]sonar.Crossing) {
	sin, cos := math.Sincos(p.Heading)
	place := func(q *wakePoint) (ahead, across float64) {
		age := p.Time - q.time
		dx, dy := q.x+currentX*age-p.X, q.y+currentY*age-p.Y
		return dx*sin + dy*cos, dx*cos - dy*sin
	}
	found := 0
	for i := len(w.points) - 1; i > 0 && found < sonar.Crossings; i-- {
		a, b := &w.points[i-1], &w.points[i]
		a0, b0 := place(a)
		a1, b1 := place(b)
		if (a0 < 0) == (a1 < 0) {
			continue
		}
		f := a0 / (a0 - a1)
		across := b0 + f*(b1-b0)
		if math.Abs(across) > w.reach {
			continue
		}
		const mostSlant = 5
		cut := sonar.Crossing{
			Range: across, Age: p.Time - a.time - f*(b.time-a.time),
			Slant:    min(math.Hypot(a1-a0, b1-b0)/math.Abs(a1-a0), mostSlant),
			Strength: a.strength + f*(b.strength-a.strength), Along: a.run + f*(b.run-a.run),
		}
		cuts[sonar.Starboard][found] = cut
		cut.Range = -across
		cuts[sonar.Port][found] = cut
		found++
	}
	return cuts
}
