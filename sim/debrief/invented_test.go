package debrief

import (
	"math"
	"testing"
	"time"

	"dryline/seabed"
	"dryline/sim"
	"dryline/sim/survey"
	"dryline/sonar"
	"dryline/sonar/acoustics"
	"dryline/sonar/mosaic"
	"dryline/sonar/recorder"
	"dryline/vessel"
	"dryline/vessel/nav/geodesy"
	"dryline/vessel/tow"
)

// small is an invented exercise: two short lines over flat sand with a block
// between them, perfect instruments, no wind and no stream, and a desk that
// has been told everything as it is. Errors come in by changing it.
func small(t testing.TB) *sim.Exercise {
	t.Helper()
	grid, err := geodesy.NewLocalGrid(geodesy.Degrees(47.2, -33.4))
	if err != nil {
		t.Fatal(err)
	}
	const speed, cable, sheave = 2.1, 20.0, 2.2
	gear := tow.Spec{
		Cable: tow.Cable{Diameter: 0.0105, Weight: 0.6, Normal: 1.3, Tangential: 0.01, Length: 100},
		Fish:  tow.Fish{Weight: 260, DragArea: 0.022},
		Winch: tow.Winch{Rate: 0.4, Min: 2},
	}
	shape := gear.Steady(speed, cable, sheave)
	return &sim.Exercise{
		Name: "small", Title: "Two short lines", Hash: "0123456789abcdef", Seed: 1,
		Start: time.Date(2031, 5, 1, 8, 0, 0, 0, time.UTC),
		Place: sim.Place{Name: "Fenwarra Inlet", Grid: grid},
		Sea: sim.Sea{Water: sonar.Sea{
			Temperature: 11, Salinity: 34, PH: 8, Depth: 8, Wind: 4,
			SoundSpeed: acoustics.ModelMackenzie, Absorption: acoustics.ModelFrancoisGarrison,
		}},
		Seabed: seabed.Spec{
			East: 400, North: 600, Depth: 16, Relief: seabed.Relief{Wavelength: 100}, Base: seabed.MediumSand,
			Objects: []seabed.Object{{Name: "block", Kind: "block", At: seabed.Point{X: 130, Y: 300}, Length: 2, Width: 2, Height: 1.2}},
		},
		Vessel: vessel.Spec{
			Length: 11, Beam: 3.6, Draft: 1.1, Mass: 11000, TurningIndex: 1.3, TimeIndex: 1,
			RudderMax: 0.44, RudderRate: 0.1, SpeedMax: 5, WindAreaFront: 9, WindAreaSide: 20,
			Antenna: vessel.Offset{Forward: 0.5}, Sheave: vessel.Offset{Forward: -5.8, Up: sheave},
		},
		Tow: gear,
		Sonar: sonar.Spec{
			RangeScale: 50, Samples: 1000, Depression: 0.35, VerticalBeam: 0.87, Rays: 3,
			Channels: []sonar.Channel{
				{Name: "450", Frequency: 450e3, Bandwidth: 20e3, PulseLength: 1e-3, ArrayLength: 0.48, SourceLevel: 210, NoiseFigure: 8, Receiver: recorder.Receiver{TVGSpreading: 30, TVGAbsorption: 110}},
			},
		},
		Lines: []sim.Line{
			{Name: "L1", A: seabed.Point{X: 100, Y: 220}, B: seabed.Point{X: 100, Y: 360}},
			{Name: "L2", A: seabed.Point{X: 170, Y: 220}, B: seabed.Point{X: 170, Y: 360}},
		},
		Plan: sim.Plan{
			Order: []sim.Run{{Line: 0}, {Line: 1, Reversed: true}}, Speed: speed, CableOut: cable,
			RunIn: 90, RunOut: 15, Lookahead: 22, Turn: vessel.Simple, TurnRadius: 40, TimeLimit: 1800,
		},
		Desk: survey.Settings{
			SoundSpeed: acoustics.Mackenzie(11, 34, 8), SheaveHeight: sheave,
			CatenaryFactor: math.Hypot(shape.Layback, shape.Depth+sheave) / cable, AntennaToTow: 6.3,
			CourseTime: 6, MosaicCell: 0.25, Combine: mosaic.Mean,
		},
		Score: sim.Score{
			Coverage: 0.95, OffLine: 4, AltitudeMin: 0.08, AltitudeMax: 0.2, PingsPerMetre: 3, Pass: 70,
		},
	}
}

// oneLine leaves only the first line in the plan.
func oneLine(ex *sim.Exercise) *sim.Exercise {
	ex.Plan.Order = ex.Plan.Order[:1]
	return ex
}

// start sets a session up with the mate in charge.
func start(t testing.TB, ex *sim.Exercise) *sim.Session {
	t.Helper()
	s, err := sim.New(ex, ex.Seed)
	if err != nil {
		t.Fatal(err)
	}
	s.AttachMate()
	return s
}

// run runs a session to its end.
func run(t testing.TB, ex *sim.Exercise) *sim.Session {
	t.Helper()
	s := start(t, ex)
	for !s.Done() {
		s.Advance(600)
	}
	return s
}
