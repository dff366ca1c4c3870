package plan

import (
	"fmt"
	"maps"
	"math"
	"slices"
)

// State is how a check comes out.
type State string

// The states.
const (
	Holds State = "holds" // at every place
	Watch State = "watch" // it can be run, but somebody is to know
	Fails State = "fails"
)

// Check is one thing that must hold at every place of a plan, with the worst of it.
type Check struct {
	ID    string
	State State
	Says  string
	Worst float64 // in Unit
	Unit  string
	Limit float64
	At    Point // where the worst is
	Line  string
}

// Scale is a range scale and how deep it can be worked.
type Scale struct {
	Range   float64 // metres
	Height  float64 // of the fish, metres
	Deepest float64 // water in which all the cable still brings the fish down to it, metres
}

// Scales says how deep each range scale can be worked at the speed of the plan, the fish at its
// height's share of the scale.
func (s *Spec) Scales(scales []float64) (out []Scale) {
	all := s.Gear.Steady(s.Speed, s.Gear.Cable.Length, s.SheaveUp).Depth
	for _, r := range scales {
		h := s.Height / s.Range * r
		out = append(out, Scale{r, h, all + h})
	}
	return out
}

// adder takes one check down: how it comes out, the worst place and its value, and what it says.
type adder func(id string, st State, w *worst, value float64, unit string, limit float64, format string, args ...any)

// leastClear is how near the fish may come to the floor where the winch is too slow, metres: our own choice.
const leastClear = 1.5

// check asks at every place of the plan what must hold there.
func (c *crew) check(p *Plan) []Check {
	var out []Check
	add := func(id string, st State, w *worst, value float64, unit string, limit float64, format string, args ...any) {
		out = append(out, Check{id, st, fmt.Sprintf(format, args...), value, unit, limit, w.at, w.line})
	}
	w := c.walk(p)
	p.MeanLow = w.depth / float64(max(w.places, 1))
	c.checkKeel(w, add)
	c.checkTurns(p, add)
	c.checkClear(w, add)
	c.checkCable(w, add)
	c.checkWinch(w, add)
	c.checkHeight(w, add)
	c.checkStream(p, w, add)
	c.checkSink(p, add)
	c.placing(p, add)
	c.overlap(p, add)
	c.checkRange(p, add)
	c.checkPings(add)
	return out
}

// failsIf is the state of what either holds or does not.
func failsIf(bad bool) State {
	if bad {
		return Fails
	}
	return Holds
}

// watchIf is the state of what can be run either way.
func watchIf(bad bool) State {
	if bad {
		return Watch
	}
	return Holds
}

func (c *crew) checkKeel(w *walked, add adder) {
	add("keel", failsIf(w.keel.bad > 0), &w.keel, w.keel.value, "m", c.keelWants(), "Least depth under the vessel at low water is %.1f m, want %.1f m (draft and %.1f m)", w.keel.value, c.keelWants(), c.s.UnderKeel)
}

func (c *crew) checkTurns(p *Plan, add adder) {
	unsafe := 0
	why := map[string]bool{}
	var first worst // where it is
	for i := range p.Turns {
		t := &p.Turns[i]
		if t.Unsafe == "" {
			continue
		}
		if unsafe == 0 {
			half, _ := t.Path.At(t.Path.Length() / 2)
			first.at, first.line = Point{half.X, half.Y}, p.nameOf(t)
		}
		unsafe++
		why[t.Unsafe] = true
	}
	add("turns", failsIf(unsafe > 0), &first, float64(unsafe), "turns", 0, "%s", turnsSay(unsafe, len(p.Turns), why))
}

func (c *crew) checkClear(w *walked, add adder) {
	if len(c.s.KeepOuts) == 0 {
		return
	}
	says := fmt.Sprintf("Vessel and fish pass what is to be kept clear of with %.0f m to spare at least, turns and run-ins included", math.Floor(w.clear.value))
	if w.clear.value < 0 {
		says = fmt.Sprintf("Vessel or fish come %.0f m too near to what is to be kept clear of", math.Ceil(-w.clear.value))
	}
	add("clear", failsIf(w.clear.value < 0), &w.clear, w.clear.value, "m", 0, "%s", says)
}

func (c *crew) checkCable(w *walked, add adder) {
	all := c.s.Gear.Cable.Length
	add("cable", failsIf(w.cable.bad > 0), &w.cable, -w.cable.value, "m", all, "Most cable wanted is %.0f m of %.0f m aboard", -w.cable.value, all)
}

func (c *crew) checkWinch(w *walked, add adder) {
	can, asked := c.s.Gear.Winch.Rate, -w.winch.value
	state := watchIf(w.worked.bad > 0)
	if w.worked.value < leastClear {
		state = Fails
	}
	says := fmt.Sprintf("The winch keeps the height over the slopes: %.2f m/s at most of %.2f", asked, can)
	if w.winch.bad > 0 {
		says = fmt.Sprintf("The slopes ask the winch for up to %.2f m/s and it can %.2f: too slow on %s of the way", asked, can, percent(w.winch.share()))
		if w.worked.value < leastClear {
			says += fmt.Sprintf(". Worked as the floor rises under the fish, it lets it come within %.1f m of the floor: fly higher, slower, or keep clear", max(w.worked.value, 0))
		} else {
			says += fmt.Sprintf("; the fish is %.1f m over the floor at least", w.worked.value)
		}
	}
	add("winch", state, &w.worked, asked, "m/s", can, "%s", says)
}

// checkHeight is about how deep the fish flies and how high over the floor.
func (c *crew) checkHeight(w *walked, add adder) {
	s := c.s
	add("fish", failsIf(w.fish.bad > 0), &w.fish, w.fish.value, "m", c.fishWants(), "At the least height the fish is %.1f m deep at low water where the water is shallowest, want %.1f m (keel and wake)", w.fish.value, c.fishWants())
	low := watchIf(w.low.bad > 0)
	if w.low.share() > 0.02 {
		low = Fails
	}
	add("low_water", low, &w.low, w.low.value*100, "%", s.LeastLow*100, "At low water the fish is at %.0f %% of the range scale at least, want %.0f to %.0f; lower on %s of the way", w.low.value*100, s.LeastLow*100, s.MostHigh*100, percent(w.low.share()))
	add("height", failsIf(w.high.bad > 0), &w.high, -w.high.value*100, "%", s.MostHigh*100, "With the cable aboard the fish is at %.0f %% of the range scale at most, want up to %.0f", -w.high.value*100, s.MostHigh*100)
}

func (c *crew) checkStream(p *Plan, w *walked, add adder) {
	s := c.s
	crab := 0.0 // at a speed over ground, the water comes from ahead and the side
	for i := range p.Lines {
		b := s.StreamSet - p.Lines[i].bearing()
		crab = max(crab, math.Abs(math.Atan2(s.Stream*math.Sin(b), s.Speed-s.Stream*math.Cos(b)))*180/math.Pi)
	}
	add("stream", watchIf(w.off.bad > 0), &w.off, -w.off.value, "m", s.tolerance(), "In the predicted stream the vessel crabs by up to %.0f deg and the fish lies %.1f m to the side of her track, want %.1f; lines steered for the fish allow for it", crab, -w.off.value, s.tolerance())
}

func (c *crew) checkRange(p *Plan, add adder) {
	s := c.s
	if s.SoundSpeed == nil {
		return
	}
	limit := RangeLimit(s.SoundSpeed, max(p.MeanLow-s.Height, 0.5), p.MeanLow, s.Range)
	add("range", watchIf(limit < 0.98*s.reach()), &worst{}, limit, "m", s.reach(), "By the sound-speed profile a direct ray reaches the floor out to %.0f m, of %.0f m that the scale asks for", limit, s.reach())
}

func (c *crew) checkPings(add adder) {
	s := c.s
	if s.Sound <= 0 || s.Pings <= 0 {
		return
	}
	perMetre := s.Sound / (2 * s.Range) / s.Speed
	add("pings", failsIf(perMetre < s.Pings), &worst{}, perMetre, "/m", s.Pings, "%.1f pings to a metre, want %g", perMetre, s.Pings)
}

func turnsSay(unsafe, all int, why map[string]bool) string {
	if unsafe == 0 {
		return fmt.Sprintf("All %d turns stay in known water that is deep enough and clear", all)
	}
	text := fmt.Sprintf("%d of %d turns do not stay in safe water:", unsafe, all)
	for _, w := range slices.Sorted(maps.Keys(why)) {
		text += " " + w + ";"
	}
	return text[:len(text)-1]
}

// percent never rounds a share away.
func percent(share float64) string {
	switch {
	case share == 0:
		return "none"
	case share < 0.01:
		return "under 1 %"
	}
	return fmt.Sprintf("%.0f %%", math.Ceil(share*100-1e-9))
}
