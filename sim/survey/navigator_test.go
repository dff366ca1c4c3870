package survey

import (
	"math"
	"testing"

	"dryline/vessel/nav"
)

const tick = 0.1

// tow is a vessel going steadily north with a crab angle, her fish straight
// astern of the sheave on the track, as in still water. The grid is turned by a convergence that must not matter.
type tow struct {
	speed, crab, cable, depth float64
	factor                    float64 // of the cable, what it truly is
}

// at is the truth of a moment.
func (w tow) at(now float64) nav.Truth {
	const x, y0 = 300.0, 50.0
	y := y0 + w.speed*now
	back, _ := Layback(w.cable, w.depth, steady.SheaveHeight, w.factor, 0)
	sin, cos := math.Sincos(w.crab)
	aft, right := steady.AntennaToTow, steady.TowToStarboard
	return nav.Truth{
		VesselX: x, VesselY: y, AntennaX: x, AntennaY: y, VY: w.speed, Heading: w.crab, CableOut: w.cable,
		FishX: x - aft*sin + right*cos, FishY: y - aft*cos - right*sin - back, FishDepth: w.depth, FishAltitude: 8, Convergence: 0.03,
	}
}

var steady = Settings{SheaveHeight: 2, CatenaryFactor: 0.97, AntennaToTow: 5, TowToStarboard: 1.5, CourseTime: 6}

// follow reads the tow for a while and hands each fix over, after a time for
// the desk to settle.
func follow(s Settings, spec nav.Spec, w tow, seconds int, each func(f Fix, truth nav.Truth)) {
	const settle = 20
	inst, n := nav.New(spec, 9), Navigator{Settings: s}
	for i := range seconds * 10 {
		now := float64(i+1) * tick
		truth := w.at(now)
		f := n.update(inst.Read(now, tick, truth))
		if now > settle {
			each(f, truth)
		}
	}
}

// In still water the fish follows the track, whatever the leeway. Laid along the
// heading instead, with a crab angle a and L metres along the cable it comes
// L sin(a) aside of it and L (1 - cos(a)) ahead (geometry). The sheave swings
// with the heading under both.
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
				x, y, along := f.X-truth.FishX, f.Y-truth.FishY, f.Layback-s.AntennaToTow
				if math.Abs(x-row.aside*along) > 1e-9 || math.Abs(y-row.forward*along) > 1e-9 || f.Fault != "" {
					t.Fatalf("%s, crab %g: got %.4f aside, %.4f ahead, %q, want %.4f and %.4f", row.position, degrees, x, y, f.Fault,
						row.aside*along, row.forward*along)
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

// What cannot be trusted says why, and only then.
func TestFaults(t *testing.T) {
	w := tow{speed: 2, crab: 0.1, cable: 80, depth: 20, factor: 0.97}
	fitted := nav.BeaconSpec{Timing: nav.Timing{Rate: 1}, Fitted: true}
	silent := fitted
	silent.DropOuts = 1
	outage := nav.GNSSSpec{Timing: nav.Timing{Rate: 1, Outages: []nav.Window{{From: 30.05, To: 45.05}}}} // noticed at a fix that fails
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
		inst, n := nav.New(nav.Spec{Beacon: nav.BeaconSpec{Timing: nav.Timing{Rate: 1}, Fitted: true}}, 1), Navigator{Settings: s}
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

// Settings changed in a run hold from the next reading.
func TestSettingsHoldFromTheNextReading(t *testing.T) {
	n := NewNavigator(steady)
	w := tow{speed: 2, crab: 0.2, cable: 80, depth: 20, factor: 0.97}
	inst, now := nav.New(nav.Spec{}, 1), 0.0
	read := func() Fix { now += tick; return n.Navigate(inst.Read(now, tick, w.at(now))) }
	for range 100 {
		read()
	}
	want, _ := Layback(80, 20, 2, 0.97, 5)
	if f := read(); math.Abs(f.Layback-want) > 1e-9 {
		t.Fatalf("got %.3f m, want %.3f", f.Layback, want)
	}
	n.Settings = Settings{Position: ByHeading, SheaveHeight: 3, CatenaryFactor: 0.9, AntennaToTow: 7, TowToStarboard: 0.5, CourseTime: 4}
	want, _ = Layback(80, 20, 3, 0.9, 7)
	f := read()
	if math.Abs(f.Layback-want) > 1e-9 || math.Abs(f.X-(300-want*math.Sin(0.2)+0.5*math.Cos(0.2))) > 1e-9 {
		t.Errorf("got layback %.3f m and x %.3f, want %.3f along the heading", f.Layback, f.X, want)
	}
}
