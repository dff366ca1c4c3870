package exercise

import (
	"math"

	"dryline/seabed"
	"dryline/seabed/chance"
)

// Cast is the speed of sound by depth as an instrument read it that was lowered in the middle of the ground before the
// watch. It is numbers; the water they are of is not in here.
//
// The instrument reads temperature and salinity, and works the speed out by Mackenzie's equation. CastError is what
// 95 of 100 of its readings are within: 0.05 deg C and 0.05 PSU (common practice, no source) and 1.96 times the standard
// error of the equation, 0.070 m/s (Mackenzie, JASA 70, 1981, 807-812), added as errors that know nothing of one another,
// come to 0.29 m/s in water of -2 deg C and to less in warmer. Half of the variance is the instrument's, the same for all
// of a cast, half is each reading's own; both are normal. Left out: errors of the depth, what the instrument lags behind
// on its way down, and the tide, so that depths are below the still water.
type Cast struct {
	Step  float64   // from one reading to the next, metres
	Floor float64   // depth of the floor there, metres
	Speed []float64 // downwards from the surface, m/s, to a tenth
}

// CastError is within how far of the truth 95 of 100 readings of a cast are, m/s: see [Cast].
const CastError = 0.3

const castWritten = 0.1 // speeds are written to it, m/s

// TakeCast has a cast taken in the water of an exercise. Its errors draw from a stream of their own. It is of no reading
// if the water is none that there can be.
func (ex *Exercise) TakeCast(seeds Seeds) Cast {
	speed, err := ex.Sea.Water.Profile()
	if err != nil {
		return Cast{}
	}
	spec := &ex.Seabed
	c := Cast{Floor: -seabed.ReliefOf(spec, seeds.Ground)(spec.East/2, spec.North/2)}
	const most = 24 // readings
	for _, c.Step = range []float64{0.5, 1, 2, 5, 10, 20, 50} {
		if c.Floor/c.Step <= most {
			break
		}
	}
	rng := chance.Stream(seeds.Weather, "cast")
	half := CastError / 1.96 / math.Sqrt2
	offset := half * rng.NormFloat64()
	// What writing it to a tenth adds is taken off, as of soundings.
	own := math.Sqrt(half*half - castWritten*castWritten/12)
	for i := 0; float64(i)*c.Step <= c.Floor; i++ {
		v := speed(float64(i)*c.Step) + offset + own*rng.NormFloat64()
		c.Speed = append(c.Speed, math.Round(v/castWritten)*castWritten)
	}
	return c
}

// At is the speed by the cast at a depth, m/s: straight from reading to reading, and below the last as it is there.
func (c *Cast) At(depth float64) float64 {
	u := min(max(depth/c.Step, 0), float64(len(c.Speed)-1))
	i := int(u)
	if i == len(c.Speed)-1 {
		return c.Speed[i]
	}
	return c.Speed[i] + (u-float64(i))*(c.Speed[i+1]-c.Speed[i])
}

// Mean is the speed that sound makes good straight down from one depth to another, m/s: the way over the sum of the times
// it takes, so the harmonic mean over depth, as ranges are told from times.
func (c *Cast) Mean(from, to float64) float64 {
	time, at := 0.0, from
	for at < to {
		next := min((math.Floor(at/c.Step)+1)*c.Step, to)
		time += (next - at) / 6 * (1/c.At(at) + 4/c.At((at+next)/2) + 1/c.At(next)) // Simpson's rule
		at = next
	}
	if time == 0 {
		return c.At(from)
	}
	return (to - from) / time
}
