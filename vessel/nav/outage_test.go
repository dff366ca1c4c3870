package nav

import "testing"

// Any instrument may fail: from the first report due in its outage to the first
// due after it its displays do not hold good, hold the last value and say that
// it was asked. All other displays go on. This is how a desk comes to have no
// heading, no cable counter and no depth of the fish.
func TestEveryInstrumentMayFail(t *testing.T) {
	const all = TrueWind<<1 - 1
	const tick, rate = 0.1, 2.0
	outages := []Window{{From: 3.2, To: 5.7}, {From: 8, To: 9}}
	out := func(now float64) bool { return now > 3.45 && now < 5.95 || now > 7.95 && now < 8.95 }
	for _, row := range []struct {
		name   string
		timing func(*Spec) *Timing
		loses  Set // the displays it serves, and those that others work out from them
		shows  func(*Reading) float64
	}{
		{"gnss", func(s *Spec) *Timing { return &s.GNSS.Timing }, Fix | TrueWind | Beacon, func(r *Reading) float64 { return r.Y }},
		{"heading", func(s *Spec) *Timing { return &s.Heading.Timing }, Heading | RateOfTurn | TrueWind | Beacon, func(r *Reading) float64 { return float64(r.Heading) }},
		{"motion", func(s *Spec) *Timing { return &s.Motion.Timing }, Motion, func(r *Reading) float64 { return r.Heave }},
		{"depth", func(s *Spec) *Timing { return &s.FishDepth.Timing }, FishDepth, func(r *Reading) float64 { return r.FishDepth }},
		{"altimeter", func(s *Spec) *Timing { return &s.Altimeter.Timing }, FishAltitude, func(r *Reading) float64 { return r.FishAltitude }},
		{"compass", func(s *Spec) *Timing { return &s.Compass.Timing }, FishAttitude, func(r *Reading) float64 { return float64(r.FishHeading) }},
		{"counter", func(s *Spec) *Timing { return &s.Counter.Timing }, CableCounter, func(r *Reading) float64 { return r.CableOut }},
		{"beacon", func(s *Spec) *Timing { return &s.Beacon.Timing }, Beacon, func(r *Reading) float64 { return r.Beacon.Depth }},
		{"log", func(s *Spec) *Timing { return &s.SpeedLog.Timing }, WaterSpeed, func(r *Reading) float64 { return r.WaterSpeed }},
		{"wind", func(s *Spec) *Timing { return &s.Wind.Timing }, Wind | TrueWind, func(r *Reading) float64 { return r.WindSpeed }},
	} {
		spec := Spec{Beacon: BeaconSpec{Fitted: true}}
		*row.timing(&spec) = Timing{Rate: rate, Outages: outages}
		whole := Spec{Beacon: BeaconSpec{Fitted: true}}
		*row.timing(&whole) = Timing{Rate: rate}
		inst, sound := New(spec, 1), New(whole, 1)
		held := 0.0
		for i := range 120 {
			now := float64(i) * tick
			r, s := inst.Read(now, tick, moving(now)), sound.Read(now, tick, moving(now))
			want := Set(all)
			if out(now) {
				want &^= row.loses
			}
			if r.Valid != want {
				t.Fatalf("%s at %.1f s: got %012b valid, want %012b", row.name, now, r.Valid, want)
			}
			if r.Fresh != s.Fresh {
				t.Fatalf("%s at %.1f s: asked %b, without outages %b", row.name, now, r.Fresh, s.Fresh)
			}
			if !out(now) {
				held = row.shows(&s)
			}
			if got := row.shows(&r); got != held {
				t.Fatalf("%s at %.1f s: shows %.4f, want %.4f", row.name, now, got, held)
			}
		}
	}
}

// What an instrument does goes on while it is silent: hauling slips uncounted,
// and a heading that lags comes back where it would have been.
func TestAnOutageHidesButDoesNotStop(t *testing.T) {
	outage := []Window{{From: 5, To: 15}}
	for _, row := range []struct {
		name  string
		spec  func([]Window) Spec
		shows func(*Reading) float64
	}{
		{"slip", func(w []Window) Spec { return Spec{Counter: CounterSpec{Timing: Timing{Outages: w}, Slip: 0.1}} }, func(r *Reading) float64 { return r.CableOut }},
		{"lag", func(w []Window) Spec { return Spec{Heading: HeadingSpec{Timing: Timing{Outages: w}, Lag: 3}} }, func(r *Reading) float64 { return float64(r.Heading) }},
	} {
		broken, sound := New(row.spec(outage), 1), New(row.spec(nil), 1)
		for i := range 30 {
			now := float64(i)
			at := Truth{CableOut: 60 - 2*now, Heading: 0.05 * now}
			b, s := broken.Read(now, 1, at), sound.Read(now, 1, at)
			if now >= 15 && row.shows(&b) != row.shows(&s) {
				t.Fatalf("%s at %g s: got %.6f, want %.6f", row.name, now, row.shows(&b), row.shows(&s))
			}
		}
	}
}
