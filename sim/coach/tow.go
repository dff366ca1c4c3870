package coach

import (
	"fmt"
	"math"
	"strings"

	"dryline/sim/survey"
	"dryline/sonar/acoustics"
	"dryline/vessel/nav"
)

// band is the wanted height of the fish as a share of the range scale: the
// exercise's own or, if it sets none, the trade's.
func (c *Coach) band() (low, high float64) {
	return survey.HeightBand(c.ex.Score.AltitudeMin, c.ex.Score.AltitudeMax)
}

// deadBand is how far beyond an edge of the band the fish is before a word is said, and
// how far inside again before it is taken back, as a share of the range scale: our own
// choice.
const deadBand = 0.005

// optimum is the height that side scan is best flown at, as a share of the range scale
// (IHO C-13, chapter 4, 2.3.4.4).
const optimum = 0.10

// aim is the height that the coach steers the fish to, as a share of the range scale:
// the plan's own, the trade's, or the middle of the band; never its edge.
func (c *Coach) aim(scale float64) float64 {
	low, high := c.band()
	const clear = 0.01 // of the range scale, off an edge
	for _, at := range []float64{c.ex.Plan.Altitude / max(scale, 1), optimum} {
		if at > low+clear && at < high-clear {
			return at
		}
	}
	return (low + high) / 2
}

// towChecks are about the height of the fish, the cable and the speed.
func (c *Coach) towChecks(s *sight) []check {
	low, high := c.band()
	scale, height, share := s.Recorder.RangeScale, s.height(), s.share()
	touching := s.Bridge.Touching
	known := height > 0 && scale > 0 && !touching
	aim := c.aim(scale) * scale
	close := c.close(s)
	// Off the lines its height only needs watching.
	severity := Note
	if s.onLine {
		severity = Caution
	}
	checks := []check{
		{"fish_touching", Alarm, touching, touching, func() string {
			return "The fish touches the floor or something on it, and sends nothing: haul in, and keep way on her until it is clear."
		}},
		{"fish_close", Alarm, known && height < close, known && height < 1.3*close, func() string {
			return fmt.Sprintf("The fish is only %.1f m over the floor: %s now.", height, c.raise(s, aim-height))
		}},
		{"fish_low", severity, known && height >= close && share < low-deadBand, known && height >= close && share < low+deadBand, func() string {
			return fmt.Sprintf("The fish is at %s of the range scale, below %.0f %%: %s.", Percent(share, low), 100*low, c.raise(s, aim-height))
		}},
		{"fish_high", severity, known && share > high+deadBand, known && share > high-deadBand, func() string {
			return fmt.Sprintf("The fish is at %s of the range scale, above %.0f %%: %s.", Percent(share, high), 100*high, c.lower(s, height-aim))
		}},
	}

	b := &s.Bridge
	load := b.WorkingLoad
	checks = append(checks,
		check{"tension", Alarm, load > 0 && b.Tension > load, load > 0 && b.Tension > 0.9*load, func() string {
			return fmt.Sprintf("%.1f kN on the cable, its working load is %.1f kN: slow down, and do not haul.", b.Tension/1000, load/1000)
		}},
		check{"winch_stalled", Caution, b.Stalled, b.Stalled, func() string {
			return fmt.Sprintf("The winch cannot haul against %.1f kN: slow down until it can.", b.Tension/1000)
		}},
		check{"brake_slips", Alarm, b.Slipping, b.Slipping, func() string {
			return "The brake lets the cable go: slow down, then haul back."
		}})

	wanted, speed := c.ex.Score.PingsPerMetre, s.Fix.Speed
	perMetre := math.Inf(1)
	if scale > 0 && speed > 0.1 && s.Settings.SoundSpeed > 0 {
		perMetre = 1 / (speed * acoustics.PingInterval(scale, s.Settings.SoundSpeed))
	}
	return append(checks, check{"too_fast", Caution, s.onLine && perMetre < 0.99*wanted, s.onLine && perMetre < 1.03*wanted, func() string {
		return fmt.Sprintf("%.1f pings a metre at %s, and %.3g are wanted: slow to %s, or set a shorter range scale before the next line.",
			perMetre, knots(speed), wanted, knots(speed*perMetre/(1.03*wanted)))
	}})
}

// raise says how to bring the fish up by so many metres.
func (c *Coach) raise(s *sight, by float64) string {
	faster, haul := c.remedies(s, -by)
	return either("haul in", haul, "speed up", faster)
}

// lower says how to bring the fish down by so many metres.
func (c *Coach) lower(s *sight, by float64) string {
	slower, pay := c.remedies(s, by)
	return either("pay out", pay, "slow", slower)
}

// either joins what can be done: metres of cable and a speed, NaN for what
// cannot.
func either(wind string, metres float64, drive string, speed float64) string {
	var ways []string
	if !math.IsNaN(metres) {
		ways = append(ways, fmt.Sprintf("%s %.0f m", wind, max(math.Abs(metres), 1)))
	}
	if !math.IsNaN(speed) {
		ways = append(ways, fmt.Sprintf("%s to %s", drive, knots(speed)))
	}
	if len(ways) == 0 {
		return wind + ", or " + drive
	}
	return strings.Join(ways, " or ")
}

// remedies are the speed and the change of cable, each by itself, that take the
// fish so many metres down by the tow table: the difference of two entries, so
// that its own small errors do not count. NaN where there is none.
func (c *Coach) remedies(s *sight, down float64) (speed, cable float64) {
	gear := &c.ex.Tow
	out, up := s.Fix.CableOut, s.Settings.SheaveHeight
	water := s.Fix.Speed
	if s.Reading.Valid.Has(nav.WaterSpeed) {
		water = s.Reading.WaterSpeed
	}
	if out <= 0 || water < 0.3 {
		return math.NaN(), math.NaN()
	}
	depth := func(v, l float64) float64 { return gear.Steady(v, l, up).Depth }
	want := depth(water, out) + down
	const slowest = 0.8 // m/s: below it she hardly steers
	// Half as fast again is as much as anyone would tow her to raise the fish; beyond that it is cable.
	fastest := max(min(c.ex.Vessel.SpeedMax, 1.5*water), slowest)
	speed = solve(slowest, fastest, want, func(v float64) float64 { return depth(v, out) })
	cable = solve(max(gear.Winch.Min, 1), gear.Cable.Length, want, func(l float64) float64 { return depth(water, l) })
	return speed + s.Fix.Speed - water, cable - out
}

// solve finds where a function that runs one way takes a value, NaN if it does
// not between the bounds.
func solve(low, high, want float64, f func(float64) float64) float64 {
	a, b := f(low)-want, f(high)-want
	if a == 0 {
		return low
	}
	if (a < 0) == (b < 0) {
		return math.NaN()
	}
	for range 20 {
		mid := (low + high) / 2
		if m := f(mid) - want; (m < 0) == (a < 0) {
			low = mid
		} else {
			high = mid
		}
	}
	return (low + high) / 2
}
