package survey

import (
	"math"
	"testing"

	"dryline/vessel/nav"

	"pgregory.net/rapid"
)

const tick = 0.1

// tow is a vessel going steadily north with a crab angle, her fish straight
// astern on the track. The grid is turned by a convergence that must not matter.
type tow struct {
	speed, crab, cable, depth float64
	factor                    float64 // of the cable, what it truly is
}

// at is the truth of a moment.
func (w tow) at(now float64) nav.Truth {
	const x, y0 = 300.0, 50.0
	y := y0 + w.speed*now
	back, _ := Layback(w.cable, w.depth, steady.SheaveHeight, w.factor, steady.AntennaToTow)
	return nav.Truth{
		VesselX: x, VesselY: y, AntennaX: x, AntennaY: y, VY: w.speed, Heading: w.crab, CableOut: w.cable,
		FishX: x, FishY: y - back, FishDepth: w.depth, FishAltitude: 8, Convergence: 0.03,
	}
}

var steady = Settings{SheaveHeight: 2, CatenaryFactor: 0.97, AntennaToTow: 5, CourseTime: 6}

// follow reads the tow for a while and hands each fix over, after a time for
// the desk to settle.
func follow(s Settings, spec nav.Spec, w tow, seconds int, each func(f Fix, truth nav.Truth)) {
	const settle = 20
	inst, n := nav.New(spec, 9), navigator{settings: s}
	for i := range seconds * 10 {
		now := float64(i+1) * tick
		truth := w.at(now)
		f := n.update(inst.Read(now, tick, truth))
		if now > settle {
			each(f, truth)
		}
	}
}

// The fish follows the track (NOAA Field Procedures Manual, 4.3.2.1.3, on course
// made good). Laid along the heading instead, with a crab angle a and a layback
// L it comes L sin(a) aside of it and L (1 - cos(a)) ahead (geometry).
func TestHeadingAgainstTrack(t *testing.T) {
	for _, degrees := range []float64{0, 5, -12, 25} {
		w := tow{speed: 2, crab: degrees * math.Pi / 180, cable: 80, depth: 20, factor: 0.97}
		for _, row := range []struct {
			position       Position
			aside, forward float64 // per metre of layback
		}{
			{ByTrack, 0, 0},
			{ByHeading, -math.Sin(w.crab), 1 - math.Cos(w.crab)},
		} {
			s := steady
			s.Position = row.position
			follow(s, nav.Spec{}, w, 30, func(f Fix, truth nav.Truth) {
				x, y := f.X-truth.FishX, f.Y-truth.FishY
				if math.Abs(x-row.aside*f.Layback) > 1e-9 || math.Abs(y-row.forward*f.Layback) > 1e-9 || f.Fault != "" {
					t.Fatalf("%s, crab %g: got %.4f aside, %.4f ahead, %q, want %.4f and %.4f", row.position, degrees, x, y, f.Fault,
						row.aside*f.Layback, row.forward*f.Layback)
				}
				if f.Heading != 0 {
					t.Fatalf("%s: the swath lies to %.4f rad, want the course made good", row.position, f.Heading)
				}
			})
		}
	}
}

// Slow fixes count once: the vessel is carried on between them, so a perfect
// receiver at one fix a second places her and the fish as well as at ten.
func TestSlowFixesAreCarriedOn(t *testing.T) {
	for _, rate := range []float64{10, 5, 1, 0.5} {
		w := tow{speed: 2.2, crab: 0.1, cable: 60, depth: 15, factor: 0.97}
		spec := nav.Spec{GNSS: nav.GNSSSpec{Timing: nav.Timing{Rate: rate}}}
		follow(steady, spec, w, 60, func(f Fix, truth nav.Truth) {
			if e := math.Hypot(f.X-truth.FishX, f.Y-truth.FishY); e > 1e-9 || math.Abs(f.VesselY-truth.AntennaY) > 1e-9 || f.Fault != "" {
				t.Fatalf("%g Hz, %.1f s: the fish is %.4f m off, %q", rate, f.Time, e, f.Fault)
			}
		})
	}
}

// By beacon the fish has the beacon's error, the share of the slant range, and
// the layback's settings do not matter; of the layback it asks nothing.
func TestByBeacon(t *testing.T) {
	w := tow{speed: 2, crab: 0.1, cable: 80, depth: 20, factor: 0.97}
	s := steady
	s.Position, s.CatenaryFactor = ByBeacon, 0.1
	const share, seconds = 0.01, 4000
	spec := nav.Spec{Beacon: nav.BeaconSpec{Timing: nav.Timing{Rate: 1}, Fitted: true, Share: share}}
	sum, n := 0.0, 0
	follow(s, spec, w, seconds, func(f Fix, truth nav.Truth) {
		if f.Fault != "" {
			t.Fatalf("%.1f s: %s", f.Time, f.Fault)
		}
		sum += math.Pow(f.X-truth.FishX, 2) + math.Pow(f.Y-truth.FishY, 2)
		n++
	})
	at := w.at(0)
	slant := math.Hypot(at.VesselY-at.FishY, at.FishDepth)
	// Two draws a second; of the mean of their squares 4 sigma is 4/sqrt(seconds).
	if got, want := sum/float64(n)/2, share*slant*share*slant; math.Abs(got/want-1) > 4/math.Sqrt(seconds) {
		t.Errorf("got a variance of %.4f m^2 each axis, want %.4f", got, want)
	}
}

// rms is the root mean square error of the fish's place under a way of placing
// it, and the largest.
func rms(t *testing.T, p Position, spec nav.Spec, w tow) (rms, largest float64) {
	t.Helper()
	s := steady
	s.Position, s.BeaconShare = p, spec.Beacon.Share
	sum, n := 0.0, 0
	follow(s, spec, w, 900, func(f Fix, truth nav.Truth) {
		if f.Fault != "" {
			t.Fatalf("%s, %.1f s: %s", p, f.Time, f.Fault)
		}
		e := math.Hypot(f.X-truth.FishX, f.Y-truth.FishY)
		sum, n, largest = sum+e*e, n+1, max(largest, e)
	})
	return math.Sqrt(sum / float64(n)), largest
}

// A layback with the wrong factor and a scattering beacon with outliers: the
// filter is better than either, and its gate lets no outlier through. In its
// steady state the filter's own variance is the positive root of P^2 - Q P - Q R
// = 0 before an answer (the scalar Riccati equation of a random walk; Bar-Shalom
// et al. 2001), which bounds what it should reach.
func TestFilteredBeatsBoth(t *testing.T) {
	w := tow{speed: 2, crab: 0.1, cable: 80, depth: 20, factor: 0.93} // the desk has 0.97
	spec := nav.Spec{
		GNSS:    nav.GNSSSpec{Noise: 0.02},
		Counter: nav.CounterSpec{Errors: nav.Errors{Step: 0.1}},
		Beacon:  nav.BeaconSpec{Timing: nav.Timing{Rate: 1}, Fitted: true, Share: 0.015},
	}
	clean, _ := rms(t, ByFiltered, spec, w)
	spec.Beacon.Outliers, spec.Beacon.OutlierSize, spec.Beacon.DropOuts = 0.08, 0.3, 0.1
	track, _ := rms(t, ByTrack, spec, w)
	beacon, worst := rms(t, ByBeacon, spec, w)
	filtered, largest := rms(t, ByFiltered, spec, w)
	t.Logf("rms: track %.2f m, beacon %.2f (worst %.1f), filtered %.2f (worst %.1f), without outliers %.2f", track, beacon, worst, filtered, largest, clean)
	if filtered > 0.5*track || filtered > 0.5*beacon {
		t.Errorf("got %.2f m, want well under track's %.2f and beacon's %.2f", filtered, track, beacon)
	}
	if filtered > 1.25*clean {
		t.Errorf("outliers cost %.3f m rms against %.3f without", filtered, clean)
	}
	slant := 82.0
	r := spec.Beacon.Share * spec.Beacon.Share * slant * slant
	p := (walk + math.Sqrt(walk*walk+4*walk*r)) / 2
	// The layback's error does not walk here, so the filter does no worse than it
	// believes; both axes count.
	if believed := math.Sqrt(2 * p); clean > believed {
		t.Errorf("without outliers got %.3f m rms, want at most the %.3f the filter believes", clean, believed)
	}
	if largest > 3 {
		t.Errorf("an outlier of 12 to 37 m moved the fish by %.1f m", largest)
	}
}

// A filter that began on an outlier finds its way: answers that go on lying
// outside the gate are believed.
func TestFilterBegunOnAnOutlier(t *testing.T) {
	var c correction
	r := nav.Reading{Fresh: nav.Beacon, Beacon: nav.BeaconReading{OK: true, X: 40, Y: -50, Slant: 80}}
	f := Fix{Layback: 50}
	c.update(&f, &r, 0.01)
	if math.Abs(c.across-40) > 1e-9 {
		t.Fatalf("began at %.3f across, want 40", c.across)
	}
	r.Beacon.X = 1
	for i := range tooMany + 1 {
		r.Time = float64(i + 1)
		c.update(&f, &r, 0.01)
	}
	if math.Abs(c.across-1) > 1e-9 {
		t.Errorf("ended at %.3f across, want 1", c.across)
	}
}

// What cannot be trusted says why, and only then.
func TestFaults(t *testing.T) {
	w := tow{speed: 2, crab: 0.1, cable: 80, depth: 20, factor: 0.97}
	fitted := nav.BeaconSpec{Timing: nav.Timing{Rate: 1}, Fitted: true}
	silent := fitted
	silent.DropOuts = 1
	outage := nav.GNSSSpec{Timing: nav.Timing{Rate: 1}, Outages: []nav.Window{{From: 30.05, To: 45.05}}} // noticed at a fix that fails
	short := steady
	short.CatenaryFactor = 0.2
	const impossible = "impossible layback: 80.00 m of cable at factor 0.200 do not reach a fish 22.00 m below the sheave"
	for _, row := range []struct {
		name     string
		settings Settings
		position Position
		spec     nav.Spec
		speed    float64
		want     string
	}{
		{"nothing wrong", steady, ByTrack, nav.Spec{}, 2, ""},
		{"stopped", steady, ByTrack, nav.Spec{}, 0, faultNoWay},
		{"stopped, by beacon", steady, ByBeacon, nav.Spec{Beacon: fitted}, 0, faultNoWay},
		{"impossible", short, ByTrack, nav.Spec{}, 2, impossible},
		{"impossible, by heading", short, ByHeading, nav.Spec{}, 2, impossible},
		{"impossible, filtered", short, ByFiltered, nav.Spec{Beacon: fitted}, 2, impossible},
		{"impossible, by beacon", short, ByBeacon, nav.Spec{Beacon: fitted}, 2, ""},
		{"no beacon", steady, ByBeacon, nav.Spec{}, 2, faultNoBeacon},
		{"no beacon, filtered", steady, ByFiltered, nav.Spec{}, 2, faultNoBeacon},
		{"silent beacon", steady, ByBeacon, nav.Spec{Beacon: silent}, 2, faultNoBeacon},
		{"no such way", steady, "guess", nav.Spec{}, 2, faultPosition},
	} {
		s := row.settings
		s.Position = row.position
		w.speed = row.speed
		follow(s, row.spec, w, 25, func(f Fix, _ nav.Truth) {
			if f.Fault != row.want {
				t.Fatalf("%s: got %q, want %q", row.name, f.Fault, row.want)
			}
		})
	}
	w.speed = 2
	for _, p := range Positions() {
		s := steady
		s.Position = p
		follow(s, nav.Spec{GNSS: outage, Beacon: fitted}, w, 60, func(f Fix, truth nav.Truth) {
			out := f.Time > 30.05 && f.Time < 45.05
			if out != (f.Fault == faultNoFix) {
				t.Fatalf("%s, %.1f s: got %q", p, f.Time, f.Fault)
			}
			if e := math.Hypot(f.VesselX-truth.AntennaX, f.VesselY-truth.AntennaY); e > 1e-6 {
				t.Fatalf("%s, %.1f s: the vessel is %.3f m off on a straight course", p, f.Time, e)
			}
		})
	}
}

// A beacon that falls silent is believed for a while, and the filter's
// correction for longer.
func TestSilence(t *testing.T) {
	w := tow{speed: 2, cable: 80, depth: 20, factor: 0.93}
	for p, patience := range map[Position]float64{ByBeacon: beaconPatience, ByFiltered: correctionPatience} {
		s := steady
		s.Position = p
		inst, n := nav.New(nav.Spec{Beacon: nav.BeaconSpec{Timing: nav.Timing{Rate: 1}, Fitted: true}}, 1), navigator{settings: s}
		last := 0.0
		for i := range 1200 {
			now := float64(i+1) * tick
			r := inst.Read(now, tick, w.at(now))
			if now > 20 {
				r.Beacon.OK, r.Valid = false, r.Valid&^nav.Beacon
			} else if r.Fresh.Has(nav.Beacon) {
				last = now
			}
			f := n.update(r)
			if now < 15 {
				continue
			}
			at := w.at(now)
			if math.Abs(now-last-patience) < 1e-6 {
				continue // either will do
			}
			silent := now-last > patience
			if silent != (f.Fault == faultSilent) {
				t.Fatalf("%s: %.1f s after the last answer got %q", p, now-last, f.Fault)
			}
			if e := math.Hypot(f.X-at.FishX, f.Y-at.FishY); !silent && e > 1e-6 {
				t.Fatalf("%s: %.1f s after the last answer the fish is %.3f m off", p, now-last, e)
			}
		}
	}
}

// Settings changed in a run hold from the next reading, and leave alone what the
// picture rests on.
func TestAdjust(t *testing.T) {
	s := steady
	s.SoundSpeed, s.MosaicCell, s.Combine = 1490, 0.25, "mean"
	d, err := New(s, Recorder{RangeScale: 50, Samples: 100, Nominal: 1000, Channels: []string{"a"}})
	if err != nil {
		t.Fatal(err)
	}
	w := tow{speed: 2, crab: 0.2, cable: 80, depth: 20, factor: 0.97}
	inst, now := nav.New(nav.Spec{}, 1), 0.0
	read := func() Fix { now += tick; return d.Navigate(inst.Read(now, tick, w.at(now))) }
	for range 100 {
		read()
	}
	want, _ := Layback(80, 20, 2, 0.97, 5)
	if f := read(); math.Abs(f.Layback-want) > 1e-9 {
		t.Fatalf("got %.3f m, want %.3f", f.Layback, want)
	}
	d.Adjust(Settings{Position: ByHeading, SheaveHeight: 3, CatenaryFactor: 0.9, AntennaToTow: 7, CourseTime: 4, SoundSpeed: 1, MosaicCell: 9, MosaicChannel: 4})
	want, _ = Layback(80, 20, 3, 0.9, 7)
	f := read()
	if math.Abs(f.Layback-want) > 1e-9 || math.Abs(f.X-(300-want*math.Sin(0.2))) > 1e-9 {
		t.Errorf("got layback %.3f m and x %.3f, want %.3f along the heading", f.Layback, f.X, want)
	}
	if g := d.Settings; g.SoundSpeed != 1490 || g.MosaicCell != 0.25 || g.MosaicChannel != 0 || g.Combine != "mean" || g.CatenaryFactor != 0.9 {
		t.Errorf("got %+v", g)
	}
}

// Whatever the instruments say and the surveyor enters, a fix is numbers.
func TestFixesAreNumbers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
		spec := nav.Spec{
			GNSS: nav.GNSSSpec{
				Timing: nav.Timing{Rate: v("rate", 0, 10), Delay: v("delay", 0, 2)}, Noise: v("noise", 0, 20), Drift: v("drift", 0, 20),
				Outages: []nav.Window{{From: v("from", 0, 3), To: v("to", 0, 4)}},
			},
			Heading: nav.HeadingSpec{Errors: nav.Errors{Noise: v("heading", 0, 1)}},
			Counter: nav.CounterSpec{Errors: nav.Errors{Bias: v("zero", -50, 50)}, Scale: v("scale", -0.2, 0.2)},
			Beacon: nav.BeaconSpec{
				Timing: nav.Timing{Rate: v("calls", 0, 10)}, Fitted: rapid.Bool().Draw(t, "fitted"), Share: v("share", 0, 0.2),
				Outliers: v("outliers", 0, 1), OutlierSize: v("size", 0, 2), DropOuts: v("drop-outs", 0, 1),
			},
		}
		d := Desk{navigator: navigator{settings: Settings{
			Position: rapid.SampledFrom(append(Positions(), "", "guess")).Draw(t, "position"), SheaveHeight: v("sheave", 0, 20),
			CatenaryFactor: v("factor", 0, 1), AntennaToTow: v("offset", -200, 200), CourseTime: v("course time", 0.5, 60), BeaconShare: v("believed", 0, 0.2),
		}}}
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
		FishDepth: nav.DepthSpec{Errors: e}, Compass: nav.CompassSpec{Errors: e, Tilt: e}, Counter: nav.CounterSpec{Errors: e},
		Altimeter: nav.AltimeterSpec{Errors: e, DropOut: nav.EpisodeSpec{Rate: 0.1, Mean: 2}, FalseLock: nav.EpisodeSpec{Rate: 0.1, Mean: 2}},
		Beacon:    nav.BeaconSpec{Fitted: true, Share: 0.01, Outliers: 0.02, OutlierSize: 0.2, DropOuts: 0.03},
		SpeedLog:  nav.SpeedLogSpec{Errors: e}, Wind: nav.WindSpec{Speed: e, From: e},
	}, 1)
	d, now := Desk{navigator: navigator{settings: s}}, 0.0
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
