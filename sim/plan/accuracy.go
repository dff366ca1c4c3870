package plan

import (
	"fmt"
	"math"
)

// Placing is how well gear places what is seen, one standard deviation on each axis.
type Placing struct {
	Vessel      float64 // of the fix, metres
	Heading     float64 // radians; it turns a beacon's position about the vessel
	Beacon      bool    // whether there is one on the fish
	BeaconNoise float64 // metres
	BeaconShare float64 // of the slant range to the fish
}

// ContactError is within how far of the truth 95 % of the contacts at a slant range are placed, metres, by
// the terms of IHO C-13, chapter 4, 2.3.10.3, and its 2.45 standard deviations of two dimensions: vessel, fish, sound
// (1 % of the range), trace (half of that), slope (1 m).
func ContactError(vessel, fish, slant float64) float64 {
	return 2.45 * math.Sqrt(vessel*vessel+fish*fish+math.Pow(0.01*slant, 2)+math.Pow(0.005*slant, 2)+1)
}

// ByLayback is one standard deviation of a fish placed by its layback uncalibrated: a tenth of
// it, as in that example (10 m at 100).
func (p *Placing) ByLayback(layback float64) float64 { return 0.1 * math.Abs(layback) }

// ByBeacon is that of a fish placed by a beacon so far away: its noise and share of the range, and the
// heading that turns it about the vessel (1.75 m per degree and 100 m: NOAA Field Procedures Manual, 1.5.7.1).
func (p *Placing) ByBeacon(slant float64) float64 {
	return math.Sqrt(p.BeaconNoise*p.BeaconNoise + math.Pow(p.BeaconShare*slant, 2) + math.Pow(p.Heading*slant, 2))
}

// placing says how well contacts at the end of the range will be placed on the line with most cable, by layback
// and, if there is one, by beacon, and which the wanted accuracy asks for.
func (c *crew) placing(p *Plan, add adder) {
	s := c.s
	at, most := worst{}, 0.0
	for i := range p.Lines {
		for _, end := range []Point{p.Lines[i].A, p.Lines[i].B} {
			if out := c.cableAt(end); out > most {
				most, at = out, worst{at: end, line: p.Lines[i].Name}
			}
		}
	}
	shape := s.Gear.Steady(s.Speed, most, s.SheaveUp)
	layback := shape.Layback + s.SheaveAft
	by := ContactError(s.Placing.Vessel, s.Placing.ByLayback(layback), s.Range)
	says := fmt.Sprintf("By a layback of %.0f m, a tenth of it uncertain, contacts at the end of the range are placed within %.0f m (95 %%)", layback, math.Ceil(by))
	best := by
	if s.Placing.Beacon {
		slant := math.Hypot(layback, shape.Depth)
		beacon := ContactError(s.Placing.Vessel, s.Placing.ByBeacon(slant), s.Range)
		says += fmt.Sprintf(", by the beacon within %.0f m", math.Ceil(beacon))
		best = min(best, beacon)
	}
	state := Holds
	switch {
	case s.Accuracy <= 0:
	case best > s.Accuracy:
		state = Fails
		says += fmt.Sprintf("; want %.3g m: calibrate the layback, carry a beacon or a better one, or work on shorter cable", s.Accuracy)
	case by > s.Accuracy:
		state = Watch
		says += fmt.Sprintf("; want %.3g m: place the fish by the beacon, or calibrate the layback first", s.Accuracy)
	default:
		says += fmt.Sprintf("; want %.3g m", s.Accuracy)
	}
	add("position", state, &at, best, "m", s.Accuracy, "%s", says)
}

// UsableOverlap returns how much of an overlap of neighbouring swaths can be relied upon where lines are kept with
// these errors, metres: the root of its square less theirs (IHO C-13, chapter 4, 2.3.8), none if they eat it up.
func UsableOverlap(overlap float64, errors ...float64) float64 {
	left := overlap * overlap
	for _, e := range errors {
		left -= e * e
	}
	return math.Sqrt(max(left, 0))
}

// overlap says what is left of the overlap of neighbouring swaths by how well the fish keeps the line: the fix, her
// place by layback or beacon, and half of what she may be off it.
func (c *crew) overlap(p *Plan, add adder) {
	s := c.s
	fish := s.Placing.ByLayback(p.Layback)
	if s.Placing.Beacon {
		fish = min(fish, s.Placing.ByBeacon(p.Layback))
	}
	over := 2*s.reach() - p.Spacing
	left := UsableOverlap(over, s.Placing.Vessel, fish, s.tolerance()/2)
	switch {
	case over <= 0:
		add("overlap", Holds, &worst{}, 0, "m", 0, "Neighbouring swaths do not overlap: they lie %.0f m apart", -over)
	case left == 0:
		add("overlap", Watch, &worst{}, 0, "m", over, "Neighbouring swaths overlap by %.0f m, and how well the fish keeps the line eats that up", over)
	default:
		add("overlap", Holds, &worst{}, left, "m", over, "Of the %.0f m that neighbouring swaths overlap %.0f m can be relied upon, by how well the fish keeps the line", over, math.Floor(left))
	}
}
