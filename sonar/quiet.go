package sonar

import (
	"math"

	"dryline/sonar/acoustics"
	"dryline/sonar/lanes"
)

// quiet holds what a channel hears in every ping beside echoes and noise: its own
// pulse as it goes out, and the water.
//
// While the pulse is out the receiver is blocked and writes whatever it can; then
// the transducer and its housing ring down, 60 dB in RingDown. How loud that begins
// only says how long it takes to fade: as loud as the pulse a metre away, our own
// choice.
//
// What drifts in the water everywhere, plankton and silt, scatters by the volume
// reverberation of Urick (Principles of Underwater Sound, 1983, chapter 8),
//
//	RL = SL - 40 log R - 2 alpha R + Sv + 10 log(R^2 Theta Psi delta)
//
// with Psi the two-way vertical pattern gathered over the elevations at which there
// is water at R: from the surface down to a level floor. It has drifted on by the
// next ping. Left out: the roll of the fish, and water on its other side.
type quiet struct {
	ring  []float32 // of the pulse, per bin, as far as it is heard
	water []float32 // for each radian of elevation, per bin; none in water without anything in it
	ones  []float32 // as many
	turn  []float64 // two-way vertical pattern gathered from straight up, by the sine of the angle below horizontal
}

func (e *Engine) newQuiet(t *tuned) quiet {
	q := quiet{turn: make([]float64, dipSteps+2)} // one over, to read between
	sum, step := 0.0, verticalSteps/4
	for i := range q.turn {
		for to := math.Asin(min(2*float64(i)/dipSteps-1, 1)); angleOf(step) < to; step++ {
			sum += t.vertical[step] * 2 * math.Pi / verticalSteps
		}
		q.turn[i] = sum
	}
	pulse := e.soundSpeed / 2 * t.spec.PulseLength
	const fade = 60 // dB
	for k := range e.spec.Samples {
		r := (float64(k) + 0.5) * e.bin
		if t.spec.RingDown > 0 {
			late := max(r-pulse, 0) * 2 / e.soundSpeed
			level := float32(acoustics.FromDecibels(t.spec.SourceLevel - fade*late/t.spec.RingDown))
			if level > 1e-3*t.noise {
				q.ring = append(q.ring, level)
			}
		}
		if s := e.sea.Scattering; s < 0 {
			// As facets do, each bin holds its own length of water.
			q.ones = append(q.ones, 1)
			q.water = append(q.water, float32(acoustics.FromDecibels(s)*t.width*r*r*e.bin*float64(t.propagate[k])))
		}
	}
	return q
}

// hear fills dst with it. radians are scratch, by segment.
func (q *quiet) hear(dst, radians []float32, reach []waterReach) {
	if len(q.water) == 0 {
		clear(dst)
	} else {
		for s := range radians {
			radians[s] = float32(q.gathered(reach[s].down) - q.gathered(-reach[s].up))
		}
		lanes.Gather(dst, q.water, q.ones, radians)
	}
	for k, x := range q.ring {
		dst[k] += x
	}
}

// waterReach is how far up and down there is water in the middle of a segment: the sines of the elevations at which its slant range
// meets surface and floor, at most one.
type waterReach struct{ up, down float64 }

// reachWater works them out for a fish at a depth and an altitude; the channels' segments lie alike.
func (ws *Workspace) reachWater(beam *alongTrack, depth, altitude float64) {
	depth = max(depth, 0)
	for s := range ws.reach {
		r := beam.middle + float64(s)*beam.step
		ws.reach[s] = waterReach{min(depth/r, 1), min(altitude/r, 1)}
	}
}

// gathered is the pattern from straight up to a sine of the angle below horizontal.
func (q *quiet) gathered(sine float64) float64 {
	u := (sine + 1) * (dipSteps / 2)
	i := int(u)
	return q.turn[i] + (u-float64(i))*(q.turn[i+1]-q.turn[i])
}
