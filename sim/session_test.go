package sim

import (
	"math"
	"testing"
	"time"

	"dryline/seabed"
	"dryline/sim/survey"
	"dryline/sonar"
	"dryline/sonar/acoustics"
	"dryline/sonar/mosaic"
	"dryline/sonar/recorder"
	"dryline/vessel"
	"dryline/vessel/nav/geodesy"
	"dryline/vessel/tow"
)

// small is an invented exercise: two short lines over flat sand with a block.
func small(t testing.TB) *Exercise {
	t.Helper()
	grid, err := geodesy.NewLocalGrid(geodesy.Degrees(47.2, -33.4))
	if err != nil {
		t.Fatal(err)
	}
	return &Exercise{
		Name: "small", Seed: 1, Start: time.Date(2031, 5, 1, 8, 0, 0, 0, time.UTC),
		Place: Place{Name: "Fenwarra Inlet", Grid: grid},
		Sea: Sea{Water: sonar.Sea{
			Temperature: 11, Salinity: 34, PH: 8, Depth: 8, Wind: 4,
			SoundSpeed: acoustics.ModelMackenzie, Absorption: acoustics.ModelFrancoisGarrison,
		}},
		Seabed: seabed.Spec{
			East: 400, North: 600, Depth: 14, Relief: seabed.Relief{Wavelength: 100}, Base: seabed.MediumSand,
			Objects: []seabed.Object{{Name: "block", Kind: "block", At: seabed.Point{X: 130, Y: 300}, Length: 2, Width: 2, Height: 1.2}},
		},
		Vessel: vessel.Spec{
			Length: 11, Beam: 3.6, Draft: 1.1, Mass: 11000, TurningIndex: 1.3, TimeIndex: 1,
			RudderMax: 0.44, RudderRate: 0.1, SpeedMax: 5, WindAreaFront: 9, WindAreaSide: 20,
			Antenna: vessel.Offset{Forward: 0.5}, Sheave: vessel.Offset{Forward: -5.8, Up: 2.2},
		},
		Tow: tow.Spec{
			Cable: tow.Cable{Diameter: 0.0105, Weight: 0.6, Normal: 1.3, Tangential: 0.01, Length: 100},
			Fish:  tow.Fish{Weight: 260, DragArea: 0.022},
			Winch: tow.Winch{Rate: 0.4, Min: 2},
		},
		Sonar: sonar.Spec{
			RangeScale: 50, Samples: 1000, Depression: 0.35, VerticalBeam: 0.87, Rays: 3,
			Channels: []sonar.Channel{
				{Name: "450", Frequency: 450e3, Bandwidth: 20e3, PulseLength: 1e-3, ArrayLength: 0.48, SourceLevel: 210, NoiseFigure: 8, Receiver: recorder.Receiver{TVGSpreading: 30, TVGAbsorption: 110}},
			},
		},
		Lines: []Line{
			{Name: "L1", A: seabed.Point{X: 100, Y: 220}, B: seabed.Point{X: 100, Y: 360}},
			{Name: "L2", A: seabed.Point{X: 170, Y: 220}, B: seabed.Point{X: 170, Y: 360}},
		},
		Plan: Plan{
			Order: []Run{{Line: 0}, {Line: 1, Reversed: true}}, Speed: 2.1, CableOut: 20,
			RunIn: 90, RunOut: 15, Lookahead: 22, Turn: vessel.Simple, TurnRadius: 40, TimeLimit: 1800,
		},
		Desk: survey.Settings{
			SoundSpeed: acoustics.Mackenzie(11, 34, 8), SheaveHeight: 2.2, CatenaryFactor: 0.985, AntennaToTow: 6.3,
			CourseTime: 6, MosaicCell: 0.25, Combine: mosaic.Mean,
		},
	}
}

// Do not log in turns (common practice, no source): while the mate logs, the
// fish holds the line's direction.
func TestMateDoesNotLogInTurns(t *testing.T) {
	s, err := New(small(t), 1)
	if err != nil {
		t.Fatal(err)
	}
	s.AttachMate()
	for !s.Done() {
		s.Advance(1000)
	}
	if len(s.Desk.Lines) != 2 || len(s.Truth.Pings) < 500 {
		t.Fatalf("%d lines and %d pings logged, want 2 and hundreds", len(s.Desk.Lines), len(s.Truth.Pings))
	}
	for _, p := range s.Truth.Pings {
		off := math.Mod(p.Heading+2*math.Pi, math.Pi) // the lines run north and south
		if off = min(off, math.Pi-off); off > 10*math.Pi/180 {
			t.Fatalf("ping %d was logged %.1f degrees off the line's direction", p.Number, off*180/math.Pi)
		}
	}
}

// Pings that never reach the recorder are logged as lost and leave no paint: a
// holiday must show.
func TestLostPingsLeaveAHoliday(t *testing.T) {
	ex := small(t)
	ex.Sonar.Effects.Drops.Share = 1
	s, err := New(ex, 1)
	if err != nil {
		t.Fatal(err)
	}
	s.AttachMate()
	for !s.Done() {
		s.Advance(1000)
	}
	if len(s.Desk.Lines) != 2 || len(s.Desk.Lines[0].Pings) < 500 || s.Desk.Lines[0].Pings[9].Locked {
		t.Errorf("lost pings are not in the log as they should be")
	}
	if _, _, _, _, painted := s.Desk.Mosaic.Bounds(); painted {
		t.Error("ground nobody heard of was painted")
	}
}
