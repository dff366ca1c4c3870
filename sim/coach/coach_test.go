package coach

import (
	"math"
	"strings"
	"testing"

	"dryline/seabed"
	"dryline/sim"
	"dryline/sim/survey"
	"dryline/vessel"
	"dryline/vessel/nav"
	"dryline/vessel/nav/geodesy"
	"dryline/vessel/tow"
)

// invented is an exercise of two lines run north and south.
func invented() *sim.Exercise {
	return &sim.Exercise{
		Vessel: vessel.Spec{SpeedMax: 5, Sheave: vessel.Offset{Up: 2}},
		Tow: tow.Spec{
			Cable: tow.Cable{Diameter: 0.0105, Weight: 0.6, Normal: 1.3, Tangential: 0.01, Length: 150, WorkingLoad: 4000},
			Fish:  tow.Fish{Weight: 260, DragArea: 0.022}, Winch: tow.Winch{Rate: 0.4, Min: 2},
		},
		Seabed: seabed.Spec{East: 200, North: 600},
		Lines: []sim.Line{
			{Name: "A", A: seabed.Point{}, B: seabed.Point{Y: 400}}, {Name: "B", A: seabed.Point{X: 90}, B: seabed.Point{X: 90, Y: 400}},
		},
		Plan:  sim.Plan{Order: []sim.Run{{Line: 0}, {Line: 1, Reversed: true}}, Speed: 2, RunIn: 80, TurnRadius: 40, TimeLimit: 1800},
		Score: sim.Score{OffLine: 4, AltitudeMin: 0.08, AltitudeMax: 0.2, PingsPerMetre: 3},
	}
}

// good is a moment in the middle of line A with nothing to be said of it.
func good() View {
	v := View{
		Fix:      survey.Fix{X: 0, Y: 200, VesselX: 1, VesselY: 230, Speed: 2, CableOut: 30, Depth: 10, Layback: 30, Altitude: 7},
		Settings: survey.Settings{SoundSpeed: 1500, SheaveHeight: 2, CatenaryFactor: 0.97},
		Recorder: survey.Recorder{RangeScale: 50}, Height: 7,
		Bridge: sim.Bridge{Steering: sim.Command{Do: sim.SteerLine, Line: "A"}, Speed: 2, Logging: "A", Tension: 800, WorkingLoad: 4000},
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
		{"high", "fish_high", Caution, []string{"24 % of the range scale", "pay out", "slow to"}, func(v *View) { v.Height = 12 }},
		{"low", "fish_low", Caution, []string{"6 % of the range scale", "haul in", "speed up to"}, func(v *View) { v.Height = 3 }},
		{"close", "fish_close", Alarm, []string{"1.2 m over the floor", "haul in"}, func(v *View) { v.Height = 1.2 }},
		{"off to the right", "off_line", Caution, []string{"7 m to the right of line A", "steer to port"}, func(v *View) { v.Fix.VesselX, v.Bridge.Steering.Do = 7, sim.SteerHeading }},
		{"off on autopilot", "off_line", Caution, []string{"7 m to the right of line A", "autopilot"}, func(v *View) { v.Fix.VesselX = 7 }},
		{"off to the left", "off_line", Caution, []string{"7 m to the left", "steer to starboard"}, func(v *View) { v.Fix.VesselX, v.Bridge.Steering.Do = -7, sim.SteerHeading }},
		// 2 x 100/1500 s apart at 3 m/s are 2.5 pings a metre.
		{"fast", "too_fast", Caution, []string{"2.5 pings a metre at 5.8 kn", "slow to 4.7 kn"}, func(v *View) {
			v.Recorder.RangeScale, v.Height, v.Fix.Speed = 100, 14, 3
		}},
		{"logging in a turn", "log_in_turn", Caution, []string{"Stop the log"}, func(v *View) { v.Bridge.Steering.Do = sim.Turn }},
		{"not logging", "log_not_started", Caution, []string{"200 m past the start of line A"}, func(v *View) { v.Bridge.Logging = "" }},
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
			v.Bridge.Logging, v.Bridge.Steering.Do, v.Fix.VesselX = "", sim.SteerHeading, 900
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
		if n := strings.Count(h.Text, ". ") + 1; n > 2 || strings.Contains(h.Text, "\n") || strings.Contains(h.Text, "NaN") {
			t.Errorf("%s: %q is not one or two sentences", test.name, h.Text)
		}
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
