package survey

import (
	"math"
	"testing"

	"dryline/vessel/nav"

	"pgregory.net/rapid"
)

// Whatever the instruments say and the surveyor enters, a fix is numbers.
func TestFixesAreNumbers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
		spec := nav.Spec{
			GNSS: nav.GNSSSpec{
				Timing: nav.Timing{
					Rate: v("rate", 0, 10), Delay: v("delay", 0, 2), Outages: []nav.Window{{From: v("from", 0, 3), To: v("to", 0, 4)}},
				},
				Noise: v("noise", 0, 20), Drift: v("drift", 0, 20),
			},
			Heading: nav.HeadingSpec{Errors: nav.Errors{Noise: v("heading", 0, 1)}},
			Counter: nav.CounterSpec{Errors: nav.Errors{Bias: v("zero", -50, 50)}, Scale: v("scale", -0.2, 0.2)},
			Beacon: nav.BeaconSpec{
				Timing: nav.Timing{Rate: v("calls", 0, 10)}, Fitted: rapid.Bool().Draw(t, "fitted"), Share: v("share", 0, 0.2),
				Outliers: v("outliers", 0, 1), OutlierSize: v("size", 0, 2), DropOuts: v("drop-outs", 0, 1),
			},
		}
		d := Navigator{Settings: Settings{
			Position: rapid.SampledFrom(append(Positions(), "", "guess")).Draw(t, "position"), SheaveHeight: v("sheave", 0, 20),
			CatenaryFactor: v("factor", 0, 1), AntennaToTow: v("offset", -200, 200), CourseTime: v("course time", 0.5, 60), BeaconShare: v("believed", 0, 0.2),
		}}
		inst := nav.New(spec, rapid.Uint64().Draw(t, "seed"))
		for i := range 40 {
			now := float64(i+1) * tick
			d.Navigate(inst.Read(now, tick, nav.Truth{
				AntennaX: v("x", -1e5, 1e5), AntennaY: v("y", -1e5, 1e5), VX: v("vx", -20, 20), VY: v("vy", -20, 20), Heading: v("true heading", -9, 9),
				CableOut: v("cable", 0, 500), FishX: v("fish x", -1e5, 1e5), FishY: v("fish y", -1e5, 1e5), FishDepth: v("depth", 0, 300),
			}))
			f := d.FixAt(now - v("ago", 0, 0.2))
			for _, n := range []float64{f.Time, f.X, f.Y, f.Heading, f.Depth, f.Altitude, f.Layback, f.VesselX, f.VesselY, f.Speed, f.CableOut} {
				if math.IsNaN(n) || math.IsInf(n, 0) {
					t.Fatalf("got %+v", f)
				}
			}
		}
	})
}

// lively is a desk that filters, with most of what may befall instruments.
func lively() (step func()) {
	s := steady
	s.Position, s.CourseTime = ByFiltered, 60
	w := tow{speed: 2, crab: 0.1, cable: 80, depth: 20, factor: 0.95}
	e := nav.Errors{Bias: 0.01, Noise: 0.01, Step: 0.001}
	inst := nav.New(nav.Spec{
		GNSS:    nav.GNSSSpec{Timing: nav.Timing{Delay: 0.1}, Drift: 0.3, DriftTime: 120, Noise: 0.05, SpeedNoise: 0.02, Step: 0.01},
		Heading: nav.HeadingSpec{Errors: e, Lag: 1, Turn: e}, Motion: nav.MotionSpec{Heave: e, Pitch: e, Roll: e},
		FishDepth: nav.DepthSpec{Errors: e}, Compass: nav.CompassSpec{Errors: e, Pitch: e, Roll: e}, Counter: nav.CounterSpec{Errors: e},
		Altimeter: nav.AltimeterSpec{Errors: e, DropOut: nav.EpisodeSpec{Rate: 0.1, Mean: 2}, FalseLock: nav.EpisodeSpec{Rate: 0.1, Mean: 2}},
		Beacon:    nav.BeaconSpec{Fitted: true, Share: 0.01, Outliers: 0.02, OutlierSize: 0.2, DropOuts: 0.03},
		SpeedLog:  nav.SpeedLogSpec{Errors: e}, Wind: nav.WindSpec{Speed: e, From: e},
	}, 1)
	d, now := Navigator{Settings: s}, 0.0
	step = func() {
		now += tick
		d.Navigate(inst.Read(now, tick, w.at(now)))
	}
	for range 2000 { // until the desk remembers all it ever will
		step()
	}
	return step
}

func TestNavigatingAllocatesNothing(t *testing.T) {
	if got := testing.AllocsPerRun(2000, lively()); got != 0 {
		t.Errorf("got %g allocations a reading, want none", got)
	}
}

func BenchmarkReadAndNavigate(b *testing.B) {
	step := lively()
	b.ReportAllocs()
	for b.Loop() {
		step()
	}
}
