package app

import (
	"fmt"
	"math"
	"strings"

	"dryline/seabed"
	"dryline/seabed/units"
	"dryline/sim/exercise"
	"dryline/sim/plan"
	"dryline/sim/survey"
	"dryline/vessel/tow"
)

// towed is how fish, swath and band lie by the figures of a practice: on a straight course in
// still water, over a level floor. All lengths are metres.
type towed struct {
	depth      float64 // of the water where the first line begins
	height     float64 // of the fish over the floor; 0 and less: it would lie on it
	held       bool    // by the mate, who winds cable for it
	reached    bool    // by whatever cable; only where it is held
	cable      float64 // out
	speed      float64 // m/s
	fish       tow.Shape
	vessel     float64 // how long she is
	sheaveUp   float64 // over the water
	rangeScale float64
	reach      float64 // over the ground to the end of the range scale, 0 if it ends above the floor
	usable     float64 // of that, as far as the height carries
	gap        float64 // next to the fish on each side, not to be relied upon
	low, high  float64 // heights wanted

	line    string  // the first of the plan
	bearing float64 // of it on the grid as it is run, radians
	surface stream
	atFish  stream
	wind    stream // that it blows to
}

// stream is how something runs, m/s.
type stream struct{ east, north float64 }

func (s stream) speed() float64 { return math.Hypot(s.east, s.north) }

// across is how fast it runs across a bearing.
func (s stream) across(bearing float64) float64 {
	return math.Abs(s.east*math.Cos(bearing) - s.north*math.Sin(bearing))
}

// towedBy works it out for an exercise.
func towedBy(ex *exercise.Exercise) towed {
	t := towed{rangeScale: ex.Sonar.RangeScale, speed: ex.Plan.Speed, cable: ex.Plan.CableOut, depth: ex.Seabed.Depth,
		vessel: ex.Vessel.Length, sheaveUp: ex.Vessel.Sheave.Up}
	if ex.Seabed.Depths != nil {
		x, y := ex.Seabed.East/2, ex.Seabed.North/2
		if len(ex.Lines) > 0 {
			x, y = ex.Lines[0].A.X, ex.Lines[0].A.Y
		}
		t.depth = -seabed.ReliefOf(&ex.Seabed, ex.Seed)(x, y)
	}
	if t.held = ex.Plan.Altitude > 0; t.held {
		t.cable, t.reached = cableFor(&ex.Tow, t.speed, t.depth-ex.Plan.Altitude, t.sheaveUp)
	}
	t.fish = ex.Tow.Steady(t.speed, t.cable, t.sheaveUp)
	t.height = t.depth - t.fish.Depth
	t.surface.east, t.surface.north = ex.Sea.Current.At(0)
	t.atFish.east, t.atFish.north = ex.Sea.Current.At(-min(t.fish.Depth, t.depth))
	sin, cos := math.Sincos(ex.Sea.WindFrom)
	t.wind = stream{-ex.Sea.WindSpeed * sin, -ex.Sea.WindSpeed * cos}
	if len(ex.Plan.Order) > 0 {
		run := ex.Plan.Order[0]
		line := ex.Lines[run.Line]
		t.line, t.bearing = line.Name, math.Atan2(line.B.X-line.A.X, line.B.Y-line.A.Y)
		if run.Reversed {
			t.bearing += math.Pi
		}
	}
	low, high := survey.HeightBand(ex.Score.AltitudeMin, ex.Score.AltitudeMax)
	t.low, t.high = low*t.rangeScale, high*t.rangeScale
	if h := t.height; h > 0 && h < t.rangeScale {
		t.reach = math.Sqrt(t.rangeScale*t.rangeScale - h*h)
		t.usable = min(survey.GroundReach(t.rangeScale, h), t.reach)
		t.gap = min(plan.GapShare*t.rangeScale, t.usable)
	}
	return t
}

// mostCable is the longest cable that is tried, metres.
const mostCable = 3000

// cableFor is the cable with which a fish hangs so deep; ok is false if none does.
func cableFor(s *tow.Spec, speed, depth, sheaveUp float64) (cable float64, ok bool) {
	lo, hi := 0.0, float64(mostCable)
	if s.Steady(speed, hi, sheaveUp).Depth < depth {
		return hi, false
	}
	for range 40 {
		if mid := (lo + hi) / 2; s.Steady(speed, mid, sheaveUp).Depth < depth {
			lo = mid
		} else {
			hi = mid
		}
	}
	return hi, true
}

// outside reports a height that is not wanted, and in a word why.
func (t *towed) outside() (why string, is bool) {
	switch {
	case t.height <= 0:
		return "on the floor", true
	case t.height < t.low:
		return "too low", true
	case t.height > t.high:
		return "too high", true
	}
	return "", false
}

// says tells what the figures come to, a sentence each.
func (t *towed) says() []string {
	fish := length(t.fish.Depth) + " deep and " + length(t.fish.Layback) + " astern"
	var says []string
	switch {
	case t.held && !t.reached:
		return []string{"No cable brings the fish down to that height at this speed."}
	case t.height <= 0:
		return []string{"With " + length(t.cable) + " of cable the fish would hang " + length(t.fish.Depth) + " deep: it would be on the floor. Less cable, or faster."}
	case t.held:
		says = append(says, "The mate holds the fish "+length(t.height)+" over the floor, here with "+length(t.cable)+" of cable: "+fish+".")
	default:
		says = append(says, "On a straight course in still water the fish hangs "+fish+", "+length(t.height)+" over the floor.")
	}
	if why, is := t.outside(); is {
		says = append(says, "That is "+why+": wanted are "+bandSays(t)+".")
	}
	switch {
	case t.reach == 0:
		says = append(says, "The record ends before the floor begins.")
	case t.usable < t.reach:
		says = append(says, "Each side sees "+length(t.reach)+" of floor, of which so low a fish is good for "+length(t.usable)+", less "+length(t.gap)+" next to it.")
	default:
		says = append(says, "Each side sees "+length(t.reach)+" of floor, less "+length(t.gap)+" next to the fish.")
	}
	if v := t.atFish.across(t.bearing) / units.Knot; t.line != "" && v >= 0.05 {
		says = append(says, fmt.Sprintf("Where the fish is, the stream runs at %.1f kn across line %s.", v, t.line))
	}
	return says
}

func bandSays(t *towed) string { return number(t.low) + " to " + length(t.high) }

// number is a length in a few figures.
func number(v float64) string {
	if math.Abs(v) < 9.95 {
		return strings.TrimSuffix(fmt.Sprintf("%.1f", v), ".0")
	}
	return fmt.Sprintf("%.0f", v)
}

func length(v float64) string { return number(v) + " m" }

// knots is the speed as people say it.
func (t *towed) knots() float64 { return t.speed / units.Knot }
