package nav

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

const degree = math.Pi / 180

func truth() Truth {
	return Truth{
		VesselX: 119.8, VesselY: 339.5, AntennaX: 120, AntennaY: 340, VX: 0.6, VY: 2, Heading: 0.31, YawRate: 0.02,
		Heave: 0.2, Pitch: 0.03, Roll: -0.05, WaterAhead: 1.9, WindX: -3, WindY: 4, CableOut: 24,
		FishX: 112, FishY: 318, FishDepth: 9.5, FishAltitude: 6.2, FishHeading: 0.27, FishPitch: 0.017, FishRoll: -0.01,
		Convergence: -0.005,
	}
}

// An instrument without errors says what is, bearings as true ones: true is
// grid plus convergence.
func TestPerfectInstrumentsTellTheTruth(t *testing.T) {
	want := truth()
	r := New(Spec{Beacon: BeaconSpec{Fitted: true, Forward: 2, Starboard: 1.5, Down: 1}}, 1).Read(12, 0.1, want)
	// Air over the deck: (-3.6, 2) m/s, so from the bearing of (3.6, -2).
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"time", r.Time, 12}, {"x", r.X, want.AntennaX}, {"y", r.Y, want.AntennaY}, {"time of fix", r.FixTime, 12},
		{"speed", r.SpeedOverGround, math.Hypot(0.6, 2)}, {"course", float64(r.Course), math.Atan2(0.6, 2) - 0.005},
		{"heading", float64(r.Heading), 0.31 - 0.005}, {"fish heading", float64(r.FishHeading), 0.27 - 0.005},
		{"grid heading", float64(r.GridHeading()), 0.31}, {"grid course", float64(r.GridCourse()), math.Atan2(0.6, 2)},
		{"rate of turn", r.RateOfTurn, 0.02}, {"cable", r.CableOut, 24}, {"fish depth", r.FishDepth, 9.5},
		{"altitude", r.FishAltitude, 6.2}, {"fish pitch", r.FishPitch, 0.017}, {"fish roll", r.FishRoll, -0.01},
		{"heave", r.Heave, 0.2}, {"pitch", r.Pitch, 0.03}, {"roll", r.Roll, -0.05}, {"log", r.WaterSpeed, 1.9},
		{"apparent wind", r.WindSpeed, math.Hypot(3.6, 2)}, {"its direction", r.WindFrom, math.Atan2(3.6, -2) - 0.31},
		{"true wind", r.TrueWindSpeed, 5}, {"its direction", float64(r.TrueWindFrom), math.Atan2(3, -4) - 0.005},
		{"beacon x", r.Beacon.X, 112}, {"beacon y", r.Beacon.Y, 318}, {"beacon depth", r.Beacon.Depth, 9.5},
	} {
		if math.Abs(c.got-c.want) > 1e-12 {
			t.Errorf("%s: got %.6f, want %.6f", c.what, c.got, c.want)
		}
	}
	const all = TrueWind<<1 - 1
	if r.Valid != all || r.Fresh != all || !r.Beacon.OK {
		t.Errorf("got %b valid, %b fresh, want all", r.Valid, r.Fresh)
	}
}

// The error of one instrument moves no other's, however much it is spoilt.
func TestErrorsStayWithTheirInstrument(t *testing.T) {
	noisy := Spec{
		GNSS: GNSSSpec{Noise: 0.1, SpeedNoise: 0.1}, Heading: HeadingSpec{Errors: Errors{Noise: 0.01}},
		FishDepth: DepthSpec{Errors: Errors{Noise: 0.05}}, Altimeter: AltimeterSpec{Errors: Errors{Noise: 0.05}},
		Compass: CompassSpec{Errors: Errors{Noise: 0.02}},
	}
	biased := noisy
	biased.Counter.Scale, biased.FishDepth.Bias, biased.Heading.Bias, biased.Altimeter.Noise = 0.02, 0.3, 0.05, 0
	biased.Altimeter.DropOut = EpisodeSpec{Rate: 0.1, Mean: 3}
	biased.Motion.Heave.Noise, biased.Wind.Speed.Noise, biased.SpeedLog.Noise = 0.1, 1, 0.2
	biased.Beacon = BeaconSpec{Fitted: true, Share: 0.02, Outliers: 0.1, OutlierSize: 0.2, DropOuts: 0.1}
	a, b := New(noisy, 5), New(biased, 5)
	for i := range 100 {
		p, q := a.Read(float64(i), 1, truth()), b.Read(float64(i), 1, truth())
		if p.X != q.X || p.SpeedOverGround != q.SpeedOverGround || p.FishHeading != q.FishHeading {
			t.Fatalf("reading %d: an instrument whose errors did not change reads differently", i)
		}
		if math.Abs(q.FishDepth-p.FishDepth-0.3) > 1e-9 || math.Abs(float64(q.Heading-p.Heading)-0.05) > 1e-9 || math.Abs(q.CableOut-24*1.02) > 1e-9 {
			t.Fatalf("reading %d: depth %.4f against %.4f, heading %.4f against %.4f, cable %.4f", i, q.FishDepth, p.FishDepth, q.Heading, p.Heading, q.CableOut)
		}
		if q.Valid.Has(FishAltitude) && q.FishAltitude != truth().FishAltitude {
			t.Fatalf("reading %d: a quiet altimeter reads %.4f", i, q.FishAltitude)
		}
	}
}

// drawSpec draws a spec of anything an exercise may ask for.
func drawSpec(t *rapid.T) Spec {
	v := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
	timing := func() Timing {
		return Timing{Rate: v("rate", 0, 20), Delay: v("delay", 0, 5), Outages: []Window{{v("from", 0, 2), v("to", 0, 4)}}}
	}
	errors := func() Errors { return Errors{Bias: v("bias", -5, 5), Noise: v("noise", 0, 5), Step: v("step", 0, 1)} }
	episode := func() EpisodeSpec { return EpisodeSpec{Rate: v("episodes", 0, 1), Mean: v("mean", 0, 60)} }
	return Spec{
		GNSS: GNSSSpec{
			Timing: timing(), Drift: v("drift", 0, 20), DriftTime: v("drift time", 0, 7200), Noise: v("noise", 0, 20),
			SpeedNoise: v("speed", 0, 2), Step: v("step", 0, 1), SpeedStep: v("speed step", 0, 1), CourseStep: v("course step", 0, 1),
			BiasX: v("bias", -20, 20), BiasY: v("bias", -20, 20),
		},
		Heading:   HeadingSpec{Timing: timing(), Errors: errors(), Lag: v("lag", 0, 10), Turn: errors()},
		Motion:    MotionSpec{Timing: timing(), Heave: errors(), Pitch: errors(), Roll: errors()},
		FishDepth: DepthSpec{Timing: timing(), Errors: errors(), FullScale: v("full scale", 0, 6000), Share: v("share", 0, 0.05)},
		Altimeter: AltimeterSpec{Timing: timing(), Errors: errors(), Min: v("min", 0, 5), Max: v("max", 0, 100), DropOut: episode(), FalseLock: episode()},
		Compass:   CompassSpec{Timing: timing(), Errors: errors(), Pitch: errors(), Roll: errors()},
		Counter:   CounterSpec{Timing: timing(), Errors: errors(), Scale: v("scale", -0.2, 0.2), Slip: v("slip", 0, 0.2)},
		Beacon: BeaconSpec{
			Timing: timing(), Fitted: true, Share: v("share", 0, 0.2), Outliers: v("outliers", 0, 1),
			OutlierSize: v("size", 0, 2), DropOuts: v("drop-outs", 0, 1), Align: v("align", -1, 1), Noise: v("noise", 0, 5),
			BiasForward: v("bias", -5, 5), BiasStarboard: v("bias", -5, 5), BiasDown: v("bias", -5, 5), Step: v("step", 0, 1),
		},
		SpeedLog: SpeedLogSpec{Timing: timing(), Errors: errors(), Scale: v("scale", -0.2, 0.2)},
		Wind:     WindSpec{Timing: timing(), Speed: errors(), From: errors()},
	}
}

// Whatever is measured by whatever instruments, every display shows a number,
// bearings in a turn, nothing below nothing, and says it has news only if it
// would be believed or has just failed.
func TestReadingsAreNumbers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
		n := New(drawSpec(t), rapid.Uint64().Draw(t, "seed"))
		for i := range 40 {
			r := n.Read(float64(i+1)*0.1, 0.1, Truth{
				AntennaX: v("x", -1e5, 1e5), AntennaY: v("y", -1e5, 1e5), VX: v("vx", -20, 20), VY: v("vy", -20, 20),
				Heading: v("heading", -50, 50), YawRate: v("turn", -1, 1), WindX: v("wind", -50, 50), WaterAhead: v("ahead", -5, 15),
				CableOut: v("cable", 0, 500), FishX: v("fish", -1e5, 1e5), FishDepth: v("depth", 0, 300),
				FishAltitude: v("altitude", -1, 300), FishHeading: v("fish heading", -50, 50), Convergence: v("convergence", -0.1, 0.1),
			})
			for _, c := range []float64{
				r.X, r.Y, r.FixTime, r.HDOP, r.SpeedOverGround, r.RateOfTurn, r.Heave, r.Pitch, r.Roll, r.CableOut, r.FishDepth,
				r.FishAltitude, r.FishPitch, r.FishRoll, r.Beacon.X, r.Beacon.Y, r.Beacon.Depth, r.Beacon.Slant, r.WaterSpeed,
				r.WindSpeed, r.WindFrom, r.TrueWindSpeed,
			} {
				if math.IsNaN(c) || math.IsInf(c, 0) {
					t.Fatalf("got %+v", r)
				}
			}
			for _, b := range []float64{float64(r.Course), float64(r.Heading), float64(r.FishHeading), float64(r.TrueWindFrom)} {
				if !(b >= 0 && b < 2*math.Pi) {
					t.Fatalf("got a bearing of %v", b)
				}
			}
			if r.FishDepth < 0 || r.FishAltitude < 0 || r.WindSpeed < 0 || r.SpeedOverGround < 0 || r.Beacon.Depth < 0 {
				t.Fatalf("got less than nothing: %+v", r)
			}
			if r.FixTime > r.Time || r.Beacon.Time > r.Time {
				t.Fatalf("got news from the future: %+v", r)
			}
		}
	})
}

// busy is instruments with every fault switched on.
func busy() Spec {
	e := Errors{Bias: 0.1, Noise: 0.1, Step: 0.01}
	episode := EpisodeSpec{Rate: 0.05, Mean: 3}
	return Spec{
		GNSS:      GNSSSpec{Timing: Timing{Delay: 0.3, Outages: []Window{{30, 40}}}, Drift: 0.3, DriftTime: 120, Noise: 0.05, SpeedNoise: 0.02, Step: 0.01},
		Heading:   HeadingSpec{Errors: e, Lag: 1, Turn: e},
		Motion:    MotionSpec{Heave: e, Pitch: e, Roll: e},
		FishDepth: DepthSpec{Errors: e, FullScale: 100, Share: 0.001},
		Altimeter: AltimeterSpec{Errors: e, Min: 0.3, Max: 100, DropOut: episode, FalseLock: episode},
		Compass:   CompassSpec{Errors: e, Pitch: e, Roll: e}, Counter: CounterSpec{Errors: e, Slip: 0.01},
		Beacon:   BeaconSpec{Timing: Timing{Delay: 0.2}, Fitted: true, Share: 0.01, Outliers: 0.02, OutlierSize: 0.2, DropOuts: 0.03},
		SpeedLog: SpeedLogSpec{Errors: e}, Wind: WindSpec{Speed: e, From: e},
	}
}

func TestReadAllocatesNothing(t *testing.T) {
	n, now := New(busy(), 1), 0.0
	n.Read(0, 0.1, truth())
	if got := testing.AllocsPerRun(1000, func() { now += 0.1; n.Read(now, 0.1, truth()) }); got != 0 {
		t.Errorf("got %g allocations a reading, want none", got)
	}
}

func BenchmarkRead(b *testing.B) {
	n, now, x := New(busy(), 1), 0.0, truth()
	b.ReportAllocs()
	for b.Loop() {
		now += 0.1
		n.Read(now, 0.1, x)
	}
}
