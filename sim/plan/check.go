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

// worst keeps the worst of a figure and where it was.
type worst struct {
	value float64
	at    Point
	line  string
	n     int // places asked
	bad   int // of them, beyond the limit
}

// low and high take a value that is worse the lower, or the higher, it is.
func (w *worst) low(v, limit float64, at Point, line string) {
	if w.n == 0 || v < w.value {
		w.value, w.at, w.line = v, at, line
	}
	w.n++
	if v < limit {
		w.bad++
	}
}

func (w *worst) high(v, limit float64, at Point, line string) {
	w.low(-v, -limit, at, line)
}

func (w *worst) share() float64 { return float64(w.bad) / float64(max(w.n, 1)) }

// leastClear is how near the fish may come to the floor where the winch is too slow, metres: our own choice.
const leastClear = 1.5

// check asks at every place of the plan what must hold there.
func (c *crew) check(p *Plan) []Check {
	const step = 8.0
	s := c.s
	var keel, fish, cable, winch, worked, high, low, clear, off worst
	keelWants, fishWants := s.Draft+s.UnderKeel, s.Draft+s.UnderWake
	mean, n := 0.0, 0
	for i := range p.Lines {
		l := &p.Lines[i]
		before, held := math.NaN(), math.NaN()
		for u := -p.RunIn; u <= l.Length()+p.RunOut; u += step {
			at := l.on(u)
			d, known := s.Ground.DepthAt(at.X, at.Y)
			if !known {
				continue
			}
			lowest := d - s.LowWater
			keel.low(lowest, keelWants, at, l.Name)
			if u < 0 || u > l.Length() {
				continue
			}
			mean, n = mean+lowest, n+1
			// The fish as high over the floor as is wanted, but never above the least depth.
			deep := max(lowest-s.Height, fishWants)
			h := lowest - deep
			fish.low(lowest-s.LeastLow*s.Range, fishWants, at, l.Name)
			low.low(h/s.Range, s.LeastLow-1e-9, at, l.Name)
			out := c.cables.at(d - s.Height) // at high water she needs no less
			if math.IsNaN(out) {
				cable.high(s.Gear.Cable.Length+1+d-s.Height-c.cables.most, s.Gear.Cable.Length, at, l.Name)
				// All the cable leaves the fish too high.
				high.high((d-c.cables.most)/s.Range, s.MostHigh, at, l.Name)
				before = math.NaN()
				continue
			}
			cable.high(out, s.Gear.Cable.Length, at, l.Name)
			high.high(h/s.Range, s.MostHigh, at, l.Name)
			if !math.IsNaN(before) {
				winch.high(math.Abs(out-before)/step*s.Speed, s.Gear.Winch.Rate, at, l.Name)
			}
			before = out
			if math.IsNaN(held) {
				held = out
			}
			most := s.Gear.Winch.Rate * step / s.Speed
			held += min(max(out-held, -most), most)
			worked.low(d-c.cables.depth(held), 0.5*s.Height, at, l.Name)
		}
		off.high(math.Abs(Offset(p.Layback, s.Speed, s.Stream, s.StreamSet-l.bearing())), s.tolerance(), l.A, l.Name)
	}
	p.MeanLow = mean / float64(max(n, 1))
	for i := range p.Turns {
		t := &p.Turns[i]
		name := p.Lines[t.After].Name + " to " + p.Lines[t.Before].Name
		ship, behind := c.ways(t, &p.Lines[t.After])
		for k := range ship {
			if d, known := s.Ground.DepthAt(ship[k].X, ship[k].Y); known {
				keel.low(d-s.LowWater, keelWants, ship[k], name)
			}
			for j := range s.KeepOuts {
				o := &s.KeepOuts[j]
				clear.low(min(o.distance(ship[k]), o.distance(behind[k]))-o.Radius, 0, behind[k], name)
			}
		}
	}
	for i := range p.Lines {
		l := &p.Lines[i]
		for u := -p.RunIn - p.Layback; u <= l.Length()+p.RunOut+p.Layback && len(s.KeepOuts) > 0; u += step {
			for j := range s.KeepOuts {
				o := &s.KeepOuts[j]
				clear.low(o.distance(l.on(u))-o.Radius, 0, l.on(u), l.Name)
			}
		}
	}
	stateOf := func(bad bool) State {
		if bad {
			return Fails
		}
		return Holds
	}
	var out []Check
	add := func(id string, st State, w *worst, value float64, unit string, limit float64, format string, args ...any) {
		out = append(out, Check{id, st, fmt.Sprintf(format, args...), value, unit, limit, w.at, w.line})
	}
	add("keel", stateOf(keel.bad > 0), &keel, keel.value, "m", keelWants, "Least depth under the vessel at low water is %.1f m, want %.1f m (draft and %.1f m)", keel.value, keelWants, s.UnderKeel)
	unsafe := 0
	why := map[string]bool{}
	var first Point
	var firstName string
	for i := range p.Turns {
		if t := &p.Turns[i]; t.Unsafe != "" {
			if unsafe == 0 {
				w, _ := t.Path.At(t.Path.Length() / 2)
				first, firstName = Point{w.X, w.Y}, p.Lines[t.After].Name+" to "+p.Lines[t.Before].Name
			}
			unsafe++
			why[t.Unsafe] = true
		}
	}
	add("turns", stateOf(unsafe > 0), &worst{at: first, line: firstName}, float64(unsafe), "turns", 0, "%s", turnsSay(unsafe, len(p.Turns), why))
	if len(s.KeepOuts) > 0 {
		clearSays := fmt.Sprintf("Vessel and fish pass what is to be kept clear of with %.0f m to spare at least, turns and run-ins included", math.Floor(clear.value))
		if clear.value < 0 {
			clearSays = fmt.Sprintf("Vessel or fish come %.0f m too near to what is to be kept clear of", math.Ceil(-clear.value))
		}
		add("clear", stateOf(clear.value < 0), &clear, clear.value, "m", 0, "%s", clearSays)
	}
	add("cable", stateOf(cable.bad > 0), &cable, -cable.value, "m", s.Gear.Cable.Length, "Most cable wanted is %.0f m of %.0f m aboard", -cable.value, s.Gear.Cable.Length)
	winchState := Holds
	switch {
	case worked.value < leastClear:
		winchState = Fails
	case worked.bad > 0:
		winchState = Watch
	}
	says := fmt.Sprintf("The winch keeps the height over the slopes: %.2f m/s at most of %.2f", -winch.value, s.Gear.Winch.Rate)
	if winch.bad > 0 {
		says = fmt.Sprintf("The slopes ask the winch for up to %.2f m/s and it can %.2f: too slow on %s of the way", -winch.value, s.Gear.Winch.Rate, percent(winch.share()))
		if worked.value < leastClear {
			says += fmt.Sprintf(". Worked as the floor rises under the fish, it lets it come within %.1f m of the floor: fly higher, slower, or keep clear", max(worked.value, 0))
		} else {
			says += fmt.Sprintf("; the fish is %.1f m over the floor at least", worked.value)
		}
	}
	add("winch", winchState, &worked, -winch.value, "m/s", s.Gear.Winch.Rate, "%s", says)
	add("fish", stateOf(fish.bad > 0), &fish, fish.value, "m", fishWants, "At the least height the fish is %.1f m deep at low water where the water is shallowest, want %.1f m (keel and wake)", fish.value, fishWants)
	lowState := Holds
	if low.share() > 0.02 {
		lowState = Fails
	} else if low.bad > 0 {
		lowState = Watch
	}
	add("low_water", lowState, &low, low.value*100, "%", s.LeastLow*100, "At low water the fish is at %.0f %% of the range scale at least, want %.0f to %.0f; lower on %s of the way", low.value*100, s.LeastLow*100, s.MostHigh*100, percent(low.share()))
	add("height", stateOf(high.bad > 0), &high, -high.value*100, "%", s.MostHigh*100, "With the cable aboard the fish is at %.0f %% of the range scale at most, want up to %.0f", -high.value*100, s.MostHigh*100)
	offState := Holds
	if off.bad > 0 {
		offState = Watch
	}
	crab := 0.0 // at a speed over ground, the water comes from ahead and the side
	for i := range p.Lines {
		b := s.StreamSet - p.Lines[i].bearing()
		crab = max(crab, math.Abs(math.Atan2(s.Stream*math.Sin(b), s.Speed-s.Stream*math.Cos(b)))*180/math.Pi)
	}
	add("stream", offState, &off, -off.value, "m", s.tolerance(), "In the predicted stream the vessel crabs by up to %.0f deg and the fish lies %.1f m to the side of her track, want %.1f; lines steered for the fish allow for it", crab, -off.value, s.tolerance())
	c.checkSink(p, add)
	c.placing(p, add)
	c.overlap(p, add)
	if s.SoundSpeed != nil {
		limit := RangeLimit(s.SoundSpeed, max(p.MeanLow-s.Height, 0.5), p.MeanLow, s.Range)
		st := Holds
		if limit < 0.98*s.reach() {
			st = Watch
		}
		add("range", st, &worst{}, limit, "m", s.reach(), "By the sound-speed profile a direct ray reaches the floor out to %.0f m, of %.0f m that the scale asks for", limit, s.reach())
	}
	if s.Sound > 0 && s.Pings > 0 {
		perMetre := s.Sound / (2 * s.Range) / s.Speed
		add("pings", stateOf(perMetre < s.Pings), &worst{}, perMetre, "/m", s.Pings, "%.1f pings to a metre, want %g", perMetre, s.Pings)
	}
	return out
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
