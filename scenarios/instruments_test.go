package scenarios

import (
	"fmt"
	"reflect"
	"strings"
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
  gnss: { rate_hz: 1, latency_s: 0.4, resolution_m: 0.1, bias_east_m: 3, bias_north_m: -2, speed_resolution_kn: 0.1, course_resolution_deg: 0.5, outages: [{ from_s: 60, to_s: 90 }] }
  heading: { lag_s: 1.5, rate_hz: 2, delay_s: 0.2, turn_resolution_deg_s: 0.1, outages: [{ from_s: 1, to_s: 2 }] }
  motion: { heave_noise_m: 0.04, heave_resolution_m: 0.01, pitch_bias_deg: 1, pitch_noise_deg: 2, pitch_resolution_deg: 3, roll_bias_deg: 4, roll_noise_deg: 0.5, roll_resolution_deg: 0.25, rate_hz: 5 }
  compass: { pitch_bias_deg: 1, pitch_noise_deg: 2, pitch_resolution_deg: 3, roll_bias_deg: 4, roll_noise_deg: 0.5, roll_resolution_deg: 0.25 }
  fish_depth: { accuracy_percent: 0.1, full_scale_m: 300, resolution_m: 0.05, rate_hz: 4 }
  altimeter: { min_m: 1, max_m: 60, drop_out_s: 3, false_locks_per_min: 6, false_lock_s: 5, bias_m: 0.2 }
  counter: { offset_m: -2.2, resolution_m: 0.5, noise_m: 0.01 }
  beacon: { on: true, noise_m: 0.2, resolution_m: 0.1, bias_forward_m: 0.3, bias_starboard_m: 0.4, bias_down_m: 0.5, misaligned_deg: 1, outliers_percent: 5, outlier_size_percent: 40, drop_outs_percent: 8, rate_hz: 0.5, transducer: { forward_m: 3, starboard_m: -1, down_m: 2 } }
  speed_log: { scale_percent: -3, delay_s: 1 }
  wind: { rate_hz: 2, speed_resolution_kn: 1, direction_resolution_deg: 5 }
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
		{"gnss timing", s.GNSS.Timing, nav.Timing{Rate: 1, Delay: 0.4, Outages: []nav.Window{{From: 60, To: 90}}}},
		{"gnss digit", s.GNSS.Step, 0.1},
		{"gnss bias", [2]float64{s.GNSS.BiasX, s.GNSS.BiasY}, [2]float64{3, -2}},
		{"gnss speed and course digit", [2]float64{s.GNSS.SpeedStep, s.GNSS.CourseStep}, [2]float64{knots(0.1), 0.5 * degree}},
		{"turn digit", s.Heading.Turn.Step, 0.1 * degree},
		{"pitch", s.Motion.Pitch, nav.Errors{Bias: 1 * degree, Noise: 2 * degree, Step: 3 * degree}},
		{"roll", s.Motion.Roll, nav.Errors{Bias: 4 * degree, Noise: 0.5 * degree, Step: 0.25 * degree}},
		{"fish pitch", s.Compass.Pitch, nav.Errors{Bias: 1 * degree, Noise: 2 * degree, Step: 3 * degree}},
		{"fish roll", s.Compass.Roll, nav.Errors{Bias: 4 * degree, Noise: 0.5 * degree, Step: 0.25 * degree}},
		{"wind digits", [2]float64{s.Wind.Speed.Step, s.Wind.From.Step}, [2]float64{knots(1), 5 * degree}},
		{"heading timing", s.Heading.Timing, nav.Timing{Rate: 2, Delay: 0.2, Outages: []nav.Window{{From: 1, To: 2}}}},
		{"heading lag", s.Heading.Lag, 1.5},
		{"motion timing", s.Motion.Timing, nav.Timing{Rate: 5}},
		{"heave", s.Motion.Heave, nav.Errors{Noise: 0.04, Step: 0.01}},
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
			BiasForward: 0.3, BiasStarboard: 0.4, BiasDown: 0.5, Align: degree, Noise: 0.2, Step: 0.1,
			Share: 0.01, Outliers: 0.05, OutlierSize: 0.4, DropOuts: 0.08,
		}},
		{"log timing", s.SpeedLog.Timing, nav.Timing{Rate: 1, Delay: 1}},
		{"log scale", s.SpeedLog.Scale, -0.03},
		{"wind timing", s.Wind.Timing, nav.Timing{Rate: 2}},
		{"position", e.Desk.Position, survey.ByFiltered},
	} {
		if !reflect.DeepEqual(row.got, row.want) {
			t.Errorf("%s: got %+v, want %+v", row.name, row.got, row.want)
		}
	}
}

// Every instrument has its outages, each read into its own.
func TestOutagesOfEveryInstrument(t *testing.T) {
	names := []string{"gnss", "heading", "motion", "fish_depth", "altimeter", "compass", "counter", "beacon", "speed_log", "wind"}
	section := "instruments:\n"
	for i, name := range names {
		section += fmt.Sprintf("  %s: { outages: [{ from_s: %d, to_s: %d }, { from_s: 500, to_s: 600 }] }\n", name, i, i+1)
	}
	e, err := Parse("small.yaml", []byte(edit(t, small(t), "plan:\n", section+"plan:\n")))
	if err != nil {
		t.Fatal(err)
	}
	s := e.Instruments
	for i, got := range []nav.Timing{
		s.GNSS.Timing, s.Heading.Timing, s.Motion.Timing, s.FishDepth.Timing, s.Altimeter.Timing,
		s.Compass.Timing, s.Counter.Timing, s.Beacon.Timing, s.SpeedLog.Timing, s.Wind.Timing,
	} {
		want := []nav.Window{{From: float64(i), To: float64(i + 1)}, {From: 500, To: 600}}
		if !reflect.DeepEqual(got.Outages, want) {
			t.Errorf("%s: got %v, want %v", names[i], got.Outages, want)
		}
		bad := "instruments: { " + names[i] + ": { outages: [{ from_s: 9, to_s: 9 }] } }\nplan:\n"
		_, err := Parse("small.yaml", []byte(edit(t, small(t), "plan:\n", bad)))
		if err == nil || !strings.Contains(err.Error(), "instruments."+names[i]+".outages[0].to_s: 9 is not after its beginning") {
			t.Errorf("%s: got %v for an outage that ends as it begins", names[i], err)
		}
	}
}
