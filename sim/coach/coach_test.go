package coach

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"dryline/seabed"
	"dryline/sim/exercise"
	"dryline/sim/order"
	"dryline/sim/passage"
	"dryline/sim/survey"
	"dryline/vessel"
	"dryline/vessel/nav"
	"dryline/vessel/nav/geodesy"
	"dryline/vessel/tow"
)

// invented is an exercise of two lines run north and south.
func invented() *exercise.Brief {
	return &exercise.Brief{
		Vessel: vessel.Spec{SpeedMax: 5, Sheave: vessel.Offset{Up: 2}},
		Tow: tow.Spec{
			Cable: tow.Cable{Diameter: 0.0105, Weight: 0.6, Normal: 1.3, Tangential: 0.01, Length: 150, WorkingLoad: 4000},
			Fish:  tow.Fish{Weight: 260, DragArea: 0.022}, Winch: tow.Winch{Rate: 0.4, Min: 2},
		},
		East: 200, North: 600,
		Lines: []exercise.Line{
			{Name: "A", A: seabed.Point{}, B: seabed.Point{Y: 400}}, {Name: "B", A: seabed.Point{X: 90}, B: seabed.Point{X: 90, Y: 400}},
		},
		Plan:  exercise.Plan{Order: []exercise.Run{{Line: 0}, {Line: 1, Reversed: true}}, Speed: 2, RunIn: 80, TurnRadius: 40, TimeLimit: 1800},
		Score: exercise.Score{OffLine: 4, AltitudeMin: 0.08, AltitudeMax: 0.2, PingsPerMetre: 3},
	}
}

// good is a moment in the middle of line A with nothing to be said of it.
func good() View {
	v := View{
		Fix:      survey.Fix{X: 0, Y: 200, VesselX: 1, VesselY: 230, Speed: 2, CableOut: 30, Depth: 10, Layback: 30, Altitude: 7},
		Settings: survey.Settings{SoundSpeed: 1500, SheaveHeight: 2, CatenaryFactor: 0.97},
		Recorder: survey.Recorder{RangeScale: 50}, Height: 7,
		Bridge: passage.Bridge{Steering: order.Command{Do: order.SteerLine, Line: "A"}, Speed: 2, Logging: "A", Tension: 800, WorkingLoad: 4000},
	}
	v.Reading.Time, v.Reading.FixTime, v.Reading.Valid = 500, 500, nav.Fix
	return v
}

// steady shows a coach the same view for ten seconds.
func steady(v View) map[string]Hint {
	c, got := New(invented()), map[string]Hint{}
	for t := 500.0; t <= 510; t++ {
		clear(got)
		for _, h := range c.Advise(t, v) {
			got[h.ID] = h
		}
	}
	return got
}

// Each cause brings its own hint, with its figures, and no other. The band is
// that of NOAA Hydrographic Surveys Specifications and Deliverables 2021, 6.1.2;
// pings go out every 2 R/c.
func TestCauseAndHint(t *testing.T) {
	south := geodesy.Track{AX: 90, AY: 400, BX: 90}
	north := geodesy.Track{BY: 400}
	var half []survey.PingRecord
	for i := range 201 {
		half = append(half, survey.PingRecord{Along: float64(i)})
	}
	logged := func(name string, t geodesy.Track) *survey.LineRecord {
		return &survey.LineRecord{Name: name, Track: t, Pings: []survey.PingRecord{{}, {Along: t.Length()}}}
	}
	for _, test := range []struct {
		name, id string
		severity Severity
		says     []string
		change   func(v *View)
	}{
		{"nothing wrong", "", 0, nil, func(*View) {}},
		{"no engine", "engine_out", Alarm, []string{"haul in"}, func(v *View) { v.Bridge.EngineOut = true }},
		{"winch jammed", "winch_jammed", Alarm, []string{"by speed"}, func(v *View) { v.Bridge.Jammed = true }},
		{"fouled", "fouled", Alarm, []string{"way off", "slack the cable"}, func(v *View) { v.Bridge.Fouled = true }},
		{"buoy ahead", "buoy_ahead", Caution, []string{"170 m ahead"}, func(v *View) { v.Bridge.Buoys = [][2]float64{{10, 400}, {40, 300}, {1, 100}} }},
		// She is 1200 m to the east and goes west at 4 m/s, we north at 2 from y = 230: abreast
		// of us in 300 s, when we are at y = 830.
		{"traffic", "traffic_closing", Caution, []string{"Ferry passes at", "in 5 min", "call her"}, func(v *View) {
			v.Bridge.Traffic = []passage.Traffic{{Name: "Ferry", X: 1201, Y: 830, Course: -math.Pi / 2, Speed: 4}}
		}},
		{"traffic called", "traffic_closing", Caution, []string{"hear what her master says"}, func(v *View) {
			v.Bridge.Traffic = []passage.Traffic{{Name: "Ferry", X: 1201, Y: 830, Course: -math.Pi / 2, Speed: 4, Called: true}}
		}},
		{"traffic near", "traffic_near", Alarm, []string{"break off the line"}, func(v *View) {
			v.Bridge.Traffic = []passage.Traffic{{Name: "Ferry", X: 401, Y: 430, Course: -math.Pi / 2, Speed: 4}}
		}},
		{"traffic that goes away", "", 0, nil, func(v *View) {
			v.Bridge.Traffic = []passage.Traffic{{Name: "Ferry", X: -401, Y: 430, Course: -math.Pi / 2, Speed: 4}}
		}},
		{"high", "fish_high", Caution, []string{"24 % of the range scale", "pay out", "slow to"}, func(v *View) { v.Height = 12 }},
		{"at the edge", "", 0, nil, func(v *View) { v.Height = 10.1 }}, // 20.2 %, and 20 % are wanted: in the dead band
		{"hardly high", "fish_high", Caution, []string{"21 % of the range scale, above 20 %"}, func(v *View) { v.Height = 10.4 }},
		{"low", "fish_low", Caution, []string{"6 % of the range scale", "haul in", "speed up to"}, func(v *View) { v.Height = 3 }},
		{"low, and the way up is long", "fish_close", Alarm, []string{"haul in 17 m now"}, func(v *View) { v.Height, v.Recorder.RangeScale = 3, 100 }},
		{"close", "fish_close", Alarm, []string{"1.2 m over the floor", "haul in"}, func(v *View) { v.Height = 1.2 }},
		{"off to the right", "off_line", Caution, []string{"7 m to the right of line A", "steer to port"}, func(v *View) { v.Fix.VesselX, v.Bridge.Steering.Do = 7, order.SteerHeading }},
		{"off on autopilot", "off_line", Caution, []string{"7 m to the right of line A", "autopilot"}, func(v *View) { v.Fix.VesselX = 7 }},
		{"off to the left", "off_line", Caution, []string{"7 m to the left", "steer to starboard"}, func(v *View) { v.Fix.VesselX, v.Bridge.Steering.Do = -7, order.SteerHeading }},
		// 2 x 100/1500 s apart at 3 m/s are 2.5 pings a metre.
		{"fast", "too_fast", Caution, []string{"2.5 pings a metre at 5.8 kn", "slow to 4.7 kn"}, func(v *View) {
			v.Recorder.RangeScale, v.Height, v.Fix.Speed = 100, 14, 3
		}},
		{"logging in a turn", "log_in_turn", Caution, []string{"25 degrees off the line", "Stop the log"}, func(v *View) { v.Fix.Course = 25 * math.Pi / 180 }},
		{"a turn ordered, the fish still on the line", "", 0, nil, func(v *View) { v.Bridge.Steering.Do = order.Turn }},
		{"not logging", "log_not_started", Caution, []string{"200 m past the start of line A"}, func(v *View) { v.Bridge.Logging = "" }},
		{"not logging, by hand", "log_not_started", Caution, []string{"200 m past the start of line A"}, func(v *View) {
			v.Bridge.Logging, v.Bridge.Steering, v.Fix.VesselX = "", order.Command{Do: order.SteerHeading}, 0.1
		}},
		{"not logging, the other way, rudder in hand", "log_not_started", Caution, []string{"200 m past the start of line A"}, func(v *View) {
			v.Bridge.Logging, v.Bridge.Steering, v.Fix.Course = "", order.Command{Do: order.Rudder}, math.Pi
			v.Fix.Y, v.Fix.VesselY = 200, 170
		}},
		{"not logging on a line she was not to be on", "log_not_started", Caution, []string{"past the start of line B"}, func(v *View) {
			v.Bridge.Logging, v.Fix.X, v.Fix.VesselX = "", 90, 91
		}},
		{"coming to the line by hand", "log_soon", Note, []string{"in 20 m"}, func(v *View) {
			v.Bridge.Logging, v.Bridge.Steering.Do, v.Fix.Y, v.Fix.VesselY = "", order.SteerHeading, -20, 10
		}},
		{"off to the right by hand, not logging", "off_line", Note, []string{"7 m to the right of line A", "steer to port"}, func(v *View) {
			v.Bridge.Logging, v.Bridge.Steering.Do, v.Fix.VesselX, v.Fix.Y, v.Fix.VesselY = "", order.SteerHeading, 7, -50, -20
		}},
		{"between the lines", "", 0, nil, func(v *View) {
			v.Bridge.Logging, v.Bridge.Steering.Do, v.Fix.X, v.Fix.VesselX = "", order.SteerHeading, 45, 45
		}},
		{"across the lines", "", 0, nil, func(v *View) {
			v.Bridge.Logging, v.Bridge.Steering.Do, v.Fix.Course = "", order.SteerHeading, math.Pi/2
		}},
		{"along a line that is logged", "", 0, nil, func(v *View) {
			v.Bridge.Logging, v.Bridge.Steering.Do = "", order.SteerHeading
			v.Lines = []*survey.LineRecord{logged("A", north)}
		}},
		{"high off the lines", "fish_high", Note, []string{"24 % of the range scale"}, func(v *View) {
			v.Bridge.Logging, v.Bridge.Steering.Do, v.Fix.X, v.Fix.VesselX, v.Height = "", order.SteerHeading, 45, 45, 12
		}},
		{"on another line's autopilot", "off_line", Caution, []string{"7 m to the right of line A", "steer to port"}, func(v *View) {
			v.Fix.VesselX, v.Bridge.Steering.Line = 7, "B"
		}},
		{"running on by hand", "line_done", Caution, []string{"Line A is 50 m astern", "line B"}, func(v *View) {
			v.Bridge.Logging, v.Bridge.Steering.Do, v.Fix.Y, v.Fix.VesselY = "", order.SteerHeading, 450, 480
			v.Lines = []*survey.LineRecord{logged("A", north)}
		}},
		{"coming to the line", "log_soon", Note, []string{"in 20 m"}, func(v *View) { v.Bridge.Logging, v.Fix.Y, v.Fix.VesselY = "", -20, 10 }},
		{"fish before the end", "fish_not_past_end", Note, []string{"hold course for 15 m more"}, func(v *View) { v.Fix.Y, v.Fix.VesselY = 385, 415 }},
		{"log over the end", "log_still_on", Note, []string{"30 m past the end"}, func(v *View) { v.Fix.Y, v.Fix.VesselY = 430, 460 }},
		{"running on", "line_done", Caution, []string{"Line A is 50 m astern", "line B"}, func(v *View) {
			v.Bridge.Logging, v.Fix.Y, v.Fix.VesselY = "", 450, 480
			v.Lines = []*survey.LineRecord{logged("A", north)}
		}},
		{"not logged at all", "line_missed", Caution, []string{"Line A is 50 m astern", "not logged"}, func(v *View) {
			v.Bridge.Logging, v.Fix.Y, v.Fix.VesselY = "", 450, 480
		}},
		{"half logged", "line_missed", Caution, []string{"50 % of it logged", "run the rest"}, func(v *View) {
			v.Bridge.Logging, v.Fix.Y, v.Fix.VesselY = "", 450, 480
			v.Lines = []*survey.LineRecord{{Name: "A", Track: north, Pings: half}}
		}},
		{"far off", "off_chart", Caution, []string{"left the area"}, func(v *View) {
			v.Bridge.Logging, v.Bridge.Steering.Do, v.Fix.VesselX = "", order.SteerHeading, 900
		}},
		{"all done", "line_done", Note, []string{"Every line of the plan is logged"}, func(v *View) {
			v.Bridge.Logging, v.Fix.Y, v.Fix.VesselY = "", 450, 480
			v.Lines = []*survey.LineRecord{logged("A", north), logged("B", south)}
		}},
		{"no fix", "gnss_lost", Alarm, []string{"No fix from GNSS"}, func(v *View) { v.Reading.Valid = 0; v.Fix.Fault = "no fix" }},
		{"no place", "fish_not_placed", Caution, []string{"impossible layback"}, func(v *View) { v.Fix.Fault = "impossible layback" }},
		{"no bottom", "bottom_lost", Caution, []string{"lost the floor"}, func(v *View) { v.BottomMisses = 40 }},
		{"touching", "fish_touching", Alarm, []string{"touches the floor", "haul in"}, func(v *View) { v.Bridge.Touching, v.Height = true, 0.2 }},
		{"overdriven", "gain_high", Caution, []string{"5 % of the record of channel 900", "After the line", "some 30 dB off"}, func(v *View) {
			v.Recorder.Channels = []string{"450", "900"}
			v.Levels = []survey.RecordLevel{{Mean: 0.02}, {Mean: 0.1, Clipped: 0.05}}
		}},
		{"underdriven", "gain_low", Caution, []string{"channel 450 is down at 20 counts", "34 dB more"}, func(v *View) {
			v.Recorder.Channels = []string{"450"}
			v.Levels = []survey.RecordLevel{{Mean: 20.0 / 65535}}
		}},
		{"well driven", "", 0, nil, func(v *View) { v.Levels = []survey.RecordLevel{{Mean: 0.01, Clipped: 0.002}} }},
		{"rubbed alongside", "", 0, nil, func(v *View) {
			v.Bridge.Alongside, v.Levels = true, []survey.RecordLevel{{Mean: 0.3, Clipped: 0.4}}
		}},
		{"overload", "tension", Alarm, []string{"4.5 kN on the cable", "4.0 kN"}, func(v *View) { v.Bridge.Tension = 4500 }},
		{"stalled", "winch_stalled", Caution, []string{"cannot haul"}, func(v *View) { v.Bridge.Stalled = true }},
		{"slipping", "brake_slips", Alarm, []string{"brake"}, func(v *View) { v.Bridge.Slipping = true }},
		{"no time", "time_short", Caution, []string{"are left"}, func(v *View) { v.Bridge.Speed = 0.4 }},
		{"one thing twice", "lines_disagree", Caution, []string{"C1 and C2", "12 m apart", "6 m too short"}, func(v *View) {
			v.Lines = []*survey.LineRecord{{Name: "A", Track: north}, {Name: "B", Track: south}}
			// Seen from A it lies 6 m too far north, from B 6 m too far south.
			v.Contacts = []survey.Contact{
				{Number: 1, Name: "C1", Class: "boulder", X: 45, Y: 206, Lines: []string{"A"}},
				{Number: 2, Name: "C2", Class: "boulder", X: 46, Y: 194, Lines: []string{"B"}},
			}
		}},
		{"two things", "", 0, nil, func(v *View) {
			v.Lines = []*survey.LineRecord{{Name: "A", Track: north}, {Name: "B", Track: south}}
			v.Contacts = []survey.Contact{
				{Number: 1, Name: "C1", Class: "boulder", X: 45, Y: 206, Lines: []string{"A"}},
				{Number: 2, Name: "C2", Class: "wreck", X: 46, Y: 194, Lines: []string{"B"}},
			}
		}},
	} {
		v := good()
		test.change(&v)
		got := steady(v)
		if test.id == "" {
			if len(got) != 0 {
				t.Errorf("%s: got %+v, want silence", test.name, got)
			}
			continue
		}
		h, ok := got[test.id]
		if !ok || len(got) != 1 || h.Severity != test.severity {
			t.Errorf("%s: got %+v, want %s alone, a %s", test.name, got, test.id, test.severity)
			continue
		}
		for _, want := range test.says {
			if !strings.Contains(h.Text, want) {
				t.Errorf("%s: got %q, want %q in it", test.name, h.Text, want)
			}
		}
		if _, after, ok := strings.Cut(h.Text, "speed up to "); ok {
			var kn float64
			if n, err := fmt.Sscanf(after, "%g kn", &kn); n != 1 || kn > 1.5*v.Fix.Speed*3600/1852+0.05 {
				t.Errorf("%s: %q (%v): nobody tows her half as fast again as now", test.name, h.Text, err)
			}
		}
		if n := strings.Count(h.Text, ". ") + 1; n > 2 || strings.Contains(h.Text, "\n") || strings.Contains(h.Text, "NaN") {
			t.Errorf("%s: %q is not one or two sentences", test.name, h.Text)
		}
	}
}

// What stands past its limit is said, wherever she is and whatever the helm does:
// no dial is red beside a coach who finds nothing. What is fine by a wide margin
// brings no word of it.
func TestWhatIsPastItsLimitIsSaid(t *testing.T) {
	ids := map[string][]string{
		"height": {"fish_high", "fish_low", "fish_close", "fish_touching"}, "off": {"off_line"}, "tension": {"tension"},
	}
	seen := map[string]int{}
	for _, helm := range []order.Command{{Do: order.SteerLine, Line: "A"}, {Do: order.SteerLine, Line: "B"}, {Do: order.SteerHeading}, {Do: order.Rudder}, {Do: order.Turn, Line: "B"}, {Do: order.SteerPoint}} {
		for _, logging := range []string{"", "A"} {
			for _, height := range []float64{0, 0.5, 3.7, 3.9, 7, 10.1, 10.4} {
				for _, off := range []float64{-60, -4.1, 0, 3.9, 14} {
					for _, along := range []float64{-60, 200, 460} {
						for _, tension := range []float64{800, 4100} {
							v := good()
							v.Bridge.Steering, v.Bridge.Logging, v.Height, v.Bridge.Tension = helm, logging, height, tension
							v.Fix.X, v.Fix.VesselX, v.Fix.Y, v.Fix.VesselY, v.Fix.Altitude = off, off, along, along+30, 0
							j := New(invented()).Judge(v)
							got := steady(v)
							for what, grade := range map[string]Grade{"height": j.Height, "off": j.Off, "tension": j.Tension} {
								said := slices.ContainsFunc(ids[what], func(id string) bool { _, ok := got[id]; return ok })
								if grade == Past && !said || said && grade == Fine && what != "off" {
									t.Fatalf("%s is %v; said %+v; %s, logging %q, %g m high, %g m off at %g m, %g N", what, grade, got, helm.Do, logging, height, off, along, tension)
								}
								if grade == Past {
									seen[what]++
								}
							}
						}
					}
				}
			}
		}
	}
	if len(seen) != 3 {
		t.Errorf("past its limit were only %v", seen)
	}
}

// Who does what the tow table advises gets the fish where it is wanted: by the
// steady equations of Ablow and Schechter (1983) that the table is made of.
func TestRemediesWork(t *testing.T) {
	c := New(invented())
	v := good()
	s := c.see(&v)
	at := func(speed, cable float64) float64 { return c.ex.Tow.Steady(speed, cable, 2).Depth }
	for _, down := range []float64{-4, -1, 2, 5} {
		speed, cable := c.remedies(&s, down)
		if got := at(speed, 30) - at(2, 30); math.Abs(got-down) > 0.05 {
			t.Errorf("by speed: %.2f m down, want %g", got, down)
		}
		if got := at(2, 30+cable) - at(2, 30); math.Abs(got-down) > 0.05 {
			t.Errorf("by cable: %.2f m down, want %g", got, down)
		}
	}
	if speed, _ := c.remedies(&s, 200); !math.IsNaN(speed) {
		t.Errorf("200 m further down by a speed of %g m/s", speed)
	}
}

// A beacon that hears the fish 8 m further astern than the cable says is found
// out on a straight line, whatever its scatter, with the factor that agrees.
func TestBeaconDisagrees(t *testing.T) {
	c, v := New(invented()), good()
	v.Reading.Valid |= nav.Beacon
	var last []Hint
	for i := range 60 {
		now := 500 + float64(i)
		v.Fix.Time, v.Fix.VesselY = now, 100+2*float64(i)
		v.Fix.Y = v.Fix.VesselY - v.Fix.Layback
		scatter := float64(i%5 - 2)
		v.Reading.Beacon = nav.BeaconReading{X: 1, Y: v.Fix.VesselY - v.Fix.Layback - 8 + scatter, OK: true, Time: now}
		v.Fix.CableOut = 45
		last = c.Advise(now, v)
	}
	// The chord of the cable is then 38 m along and 12 m down, of 45 m of cable.
	if len(last) != 1 || last[0].ID != "beacon_disagrees" || !strings.Contains(last[0].Text, "8 m further astern") || !strings.Contains(last[0].Text, "factor of 0.89") {
		t.Errorf("got %+v", last)
	}
}

// A height that trembles about the limit gives no flicker: the hint comes once
// and stays, and its figures change every five seconds at most.
func TestHintsDoNotFlicker(t *testing.T) {
	c, v := New(invented()), good()
	shown, changes, words := false, 0, map[string]bool{}
	for i := range 1200 {
		now := 500 + float64(i)/10
		v.Height = 10.05 + 0.1*math.Sin(float64(i)/3) + 0.1*math.Sin(float64(i)/50)
		var on bool
		for _, h := range c.Advise(now, v) {
			on = on || h.ID == "fish_high"
			words[h.Text] = true
		}
		if on != shown {
			shown, changes = on, changes+1
		}
	}
	if changes > 1 || len(words) > 24 {
		t.Errorf("the hint came and went %d times in two minutes, in %d wordings", changes, len(words))
	}
	v.Height = 7
	for i := range 100 {
		c.Advise(620+float64(i)/10, v)
	}
	if got := c.Advise(631, v); len(got) != 0 {
		t.Errorf("the cause is over and the hint still stands: %+v", got)
	}
}
