package scenarios

import (
	"testing"

	"dryline/sim/survey"
	"dryline/vessel/nav"
)

// The kind of fix sets its errors; what is given beside it goes first.
func TestGNSSModels(t *testing.T) {
	for name, q := range gnssModels {
		e, err := Parse("small.yaml", []byte(edit(t, small(t), "plan:\n", "instruments: { gnss: { model: "+name+", noise_m: 0.7 } }\nplan:\n")))
		if err != nil {
			t.Fatal(err)
		}
		g, want := e.Instruments.GNSS, q.Preset()
		if g.Quality != q || g.Drift != want.Drift || g.DriftTime != want.DriftTime || g.Noise != 0.7 {
			t.Errorf("%s: got %+v, want drift %g over %g s and noise 0.7", name, g, want.Drift, want.DriftTime)
		}
	}
}

// Every key under instruments reaches the instrument it stands with.
func TestInstruments(t *testing.T) {
	e, err := Parse("small.yaml", []byte(edit(t, small(t), "plan:\n", `instruments:
  gnss: { rate_hz: 1, latency_s: 0.4, resolution_m: 0.1, outages: [{ from_s: 60, to_s: 90 }] }
  heading: { lag_s: 1.5, rate_hz: 2, delay_s: 0.2 }
  motion: { heave_noise_m: 0.04, rate_hz: 5 }
  fish_depth: { accuracy_percent: 0.1, full_scale_m: 300, resolution_m: 0.05, rate_hz: 4 }
  altimeter: { min_m: 1, max_m: 60, drop_out_s: 3, false_locks_per_min: 6, false_lock_s: 5, bias_m: 0.2 }
  counter: { offset_m: -2.2, resolution_m: 0.5, noise_m: 0.01 }
  beacon: { on: true, outliers_percent: 5, outlier_size_percent: 40, drop_outs_percent: 8, rate_hz: 0.5, transducer: { forward_m: 3, starboard_m: -1, down_m: 2 } }
  speed_log: { scale_percent: -3, delay_s: 1 }
  wind: { rate_hz: 2 }
desk: { position: filtered }
plan:
`)))
	if err != nil {
		t.Fatal(err)
	}
	s := e.Instruments
	for _, row := range []struct {
		name      string
		got, want any
	}{
		{"gnss timing", s.GNSS.Timing, nav.Timing{Rate: 1, Delay: 0.4}},
		{"gnss digit", s.GNSS.Step, 0.1},
		{"outage", s.GNSS.Outages[0], nav.Window{From: 60, To: 90}},
		{"heading timing", s.Heading.Timing, nav.Timing{Rate: 2, Delay: 0.2}},
		{"heading lag", s.Heading.Lag, 1.5},
		{"motion timing", s.Motion.Timing, nav.Timing{Rate: 5}},
		{"heave", s.Motion.Heave, nav.Errors{Noise: 0.04}},
		{"depth errors", s.FishDepth.Errors, nav.Errors{Noise: 0.03, Step: 0.05}},
		{"depth scale", s.FishDepth.FullScale, 300.0},
		{"depth share", s.FishDepth.Share, 0.001},
		{"altimeter errors", s.Altimeter.Errors, nav.Errors{Bias: 0.2, Noise: 0.05, Step: 0.01}},
		{"altimeter reach", [2]float64{s.Altimeter.Min, s.Altimeter.Max}, [2]float64{1, 60}},
		{"drop-outs", s.Altimeter.DropOut, nav.EpisodeSpec{Rate: 0, Mean: 3}},
		{"false locks", s.Altimeter.FalseLock, nav.EpisodeSpec{Rate: 0.1, Mean: 5}},
		{"counter", s.Counter, nav.CounterSpec{Timing: nav.Timing{Rate: 10}, Errors: nav.Errors{Bias: -2.2, Noise: 0.01, Step: 0.5}, Scale: 0.005}},
		{"beacon", s.Beacon, nav.BeaconSpec{
			Timing: nav.Timing{Rate: 0.5, Delay: 0.1}, Fitted: true, Forward: 3, Starboard: -1, Down: 2,
			Share: 0.01, Outliers: 0.05, OutlierSize: 0.4, DropOuts: 0.08,
		}},
		{"log timing", s.SpeedLog.Timing, nav.Timing{Rate: 1, Delay: 1}},
		{"log scale", s.SpeedLog.Scale, -0.03},
		{"wind timing", s.Wind.Timing, nav.Timing{Rate: 2}},
		{"position", e.Desk.Position, survey.ByFiltered},
	} {
		if row.got != row.want {
			t.Errorf("%s: got %+v, want %+v", row.name, row.got, row.want)
		}
	}
}
