// Package simtest has the invented exercise that the tests of sim and its rooms
// share, and how they give orders.
package simtest

import (
	"math"
	"testing"
	"time"

	"dryline/seabed"
	"dryline/sim/exercise"
	"dryline/sim/order"
	"dryline/sim/survey"
	"dryline/sonar"
	"dryline/sonar/acoustics"
	"dryline/sonar/mosaic"
	"dryline/sonar/recorder"
	"dryline/vessel"
	"dryline/vessel/nav/geodesy"
	"dryline/vessel/sea"
	"dryline/vessel/tow"
)

// Small is the invented exercise of the tests: two short lines over flat sand with a block.
func Small(t testing.TB) *exercise.Exercise {
	t.Helper()
	grid, err := geodesy.NewLocalGrid(geodesy.Degrees(47.2, -33.4))
	if err != nil {
		t.Fatal(err)
	}
	return &exercise.Exercise{
		Name: "small", Title: "Two short lines", Source: []byte("title: small\n"), Hash: "none", Seed: 1, Start: time.Date(2031, 5, 1, 8, 0, 0, 0, time.UTC),
		Place: exercise.Place{Name: "Fenwarra Inlet", Grid: grid},
		Sea: exercise.Sea{Water: sonar.Sea{
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
		Lines: []exercise.Line{
			{Name: "L1", A: seabed.Point{X: 100, Y: 220}, B: seabed.Point{X: 100, Y: 360}},
			{Name: "L2", A: seabed.Point{X: 170, Y: 220}, B: seabed.Point{X: 170, Y: 360}},
		},
		Plan: exercise.Plan{
			Order: []exercise.Run{{Line: 0}, {Line: 1, Reversed: true}}, Speed: 2.1, CableOut: 20,
			RunIn: 90, RunOut: 15, Lookahead: 22, Turn: vessel.Simple, TurnRadius: 40, TimeLimit: 1800,
		},
		Desk: survey.Settings{
			SoundSpeed: acoustics.Mackenzie(11, 34, 8), SheaveHeight: 2.2, CatenaryFactor: 0.985, AntennaToTow: 6.3,
			CourseTime: 6, MosaicCell: 0.25, Combine: mosaic.Mean,
		},
	}
}

// Rough is the small exercise in wind, waves, gusts, a sheared current and a
// tide, with a fish that swings.
func Rough(t testing.TB) *exercise.Exercise {
	ex := Small(t)
	current, err := sea.NewProfile([]sea.Current{{Speed: 0.5, Set: 1}, {Depth: 8, Speed: 0.1, Set: 2}})
	if err != nil {
		t.Fatal(err)
	}
	ex.Sea.WindSpeed, ex.Sea.WindFrom, ex.Sea.Gusty = 8, 4, true
	ex.Sea.Waves = sea.Blown(8, 4, 10e3, 14)
	ex.Sea.Current, ex.Sea.Tide = current, sea.Tide{Amplitude: 1}
	ex.Vessel.Block, ex.Vessel.GM, ex.Vessel.PropellerWalk = 0.45, 0.8, 0.03
	ex.Tow.Fish.Mass, ex.Tow.Fish.Length, ex.Tow.Fish.FinArea, ex.Tow.Fish.TowAbove = 40, 1.3, 0.05, 0.12
	return ex
}

// PastTheBlock is the small exercise with its first line alone, over featureless ground from one northing to another,
// with the layback that the tow really has: a line past the block to the east of it.
func PastTheBlock(t testing.TB, from, to float64) *exercise.Exercise {
	ex := Small(t)
	ex.Seabed.Featureless = true
	ex.Lines = []exercise.Line{{Name: "L1", A: ex.Lines[0].A, B: ex.Lines[0].B}}
	ex.Lines[0].A.Y, ex.Lines[0].B.Y = from, to
	ex.Plan.Order, ex.Plan.CableOut, ex.Plan.RunIn, ex.Plan.RunOut, ex.Plan.TimeLimit = []exercise.Run{{Line: 0}}, 15, 40, 5, 900
	Exact(ex)
	return ex
}

// Exact gives the desk the layback the tow really has on the exercise's lines:
// catenary factor as chord over cable, from the steady solution.
func Exact(ex *exercise.Exercise) {
	shape := ex.Tow.Steady(ex.Plan.Speed, ex.Plan.CableOut, ex.Vessel.Sheave.Up)
	ex.Desk.CatenaryFactor = math.Hypot(shape.Layback, shape.Depth+ex.Vessel.Sheave.Up) / ex.Plan.CableOut
}

// Ball is the small exercise run along its first line alone, one way or the other, over a
// smooth floor with a ball on it, so that the ball is the brightest there is. The desk has
// the layback that the tow really has.
func Ball(t testing.TB, at seabed.Point, reversed bool) *exercise.Exercise {
	ex := Small(t)
	ex.Seabed.Objects = []seabed.Object{{Name: "ball", Kind: "sphere", At: at, Length: 0.9, Width: 0.9, Height: 0.9}}
	ex.Seabed.Featureless = true
	ex.Plan.Order = []exercise.Run{{Line: 0, Reversed: reversed}}
	Exact(ex)
	return ex
}

// Give gives orders to a session or a passage, none of which may be refused.
func Give(t testing.TB, to interface{ Give(order.Command) error }, orders ...order.Command) {
	t.Helper()
	for _, c := range orders {
		if err := to.Give(c); err != nil {
			t.Fatalf("%+v: %v", c, err)
		}
	}
}
