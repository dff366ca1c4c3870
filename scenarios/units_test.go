package scenarios

import (
	"math"
	"math/big"
	"testing"

	"dryline/sim/survey"
)

// The factors are those of the SI brochure (BIPM, 8th edition 2006): the
// nautical mile is 1852 m exactly and the knot one an hour (table 8), the
// degree pi/180 rad (table 6), kilo 1e3 and milli 1e-3 (table 5).
func TestUnits(t *testing.T) {
	e, err := Parse("small.yaml", []byte(edit(t, small(t),
		"frequency_khz: 100", "frequency_khz: 100, bandwidth_khz: 20, pulse_ms: 2",
		"  range_scale_m: 50", "  range_scale_m: 50\n  depression_deg: 30",
		"  depth_m: 20", "  depth_m: 20\n  relief: { gradient_percent: 2, deepens_to_deg: 90 }\n  objects: [{ name: a, kind: block, at: [9, 90], heading_deg: 360 }]",
		"plan:\n", `sea: { wind_kn: 18, wind_from_deg: 270, current_kn: 0.9, current_set_deg: 45 }
vessel: { speed_max_kn: 36, rudder_max_deg: 30, rudder_rate_deg_s: 6 }
tow: { cable: { diameter_mm: 8 }, fish: { pitch_deg: -3 } }
instruments: { heading: { bias_deg: -0.36 }, gnss: { speed_noise_kn: 0.36 }, counter: { scale_percent: -2, slip_percent: 3 }, compass: { noise_deg: 1.8 }, altimeter: { drop_outs_per_min: 3 }, beacon: { accuracy_percent: 0.5 } }
desk: { beacon_error_percent: 2 }
score: { coverage_percent: 95, altitude_min_percent: 10, altitude_max_percent: 15 }
plan:
  time_limit_min: 90
  speed_kn: 3.6
`)))
	if err != nil {
		t.Fatal(err)
	}
	cx, cy := e.Sea.Current.At(0)
	for _, row := range []struct {
		name      string
		got, want float64
	}{
		{"wind_kn", e.Sea.WindSpeed, 9.26},
		{"wind_kn for the noise", e.Sea.Water.Wind, 9.26},
		{"wind_from_deg", e.Sea.WindFrom, 3 * math.Pi / 2},
		{"current_kn", math.Hypot(cx, cy), 0.463},
		{"current_set_deg", math.Atan2(cx, cy), math.Pi / 4},
		{"gradient_percent", e.Seabed.Relief.Gradient, 0.02},
		{"deepens_to_deg", e.Seabed.Relief.DeepensTo, math.Pi / 2},
		{"heading_deg", e.Seabed.Objects[0].Heading, 2 * math.Pi},
		{"speed_max_kn", e.Vessel.SpeedMax, 18.52},
		{"rudder_max_deg", e.Vessel.RudderMax, math.Pi / 6},
		{"rudder_rate_deg_s", e.Vessel.RudderRate, math.Pi / 30},
		{"diameter_mm", e.Tow.Cable.Diameter, 0.008},
		{"pitch_deg", e.Tow.Fish.Pitch, -math.Pi / 60},
		{"heading.bias_deg", e.Instruments.Heading.Bias, -math.Pi / 500},
		{"gnss.speed_noise_kn", e.Instruments.GNSS.SpeedNoise, 0.1852},
		{"counter.scale_percent", e.Instruments.Counter.Scale, -0.02},
		{"counter.slip_percent", e.Instruments.Counter.Slip, 0.03},
		{"compass.noise_deg", e.Instruments.Compass.Noise, math.Pi / 100},
		{"altimeter.drop_outs_per_min", e.Instruments.Altimeter.DropOut.Rate, 0.05},
		{"beacon.accuracy_percent", e.Instruments.Beacon.Share, 0.005},
		{"beacon_error_percent", e.Desk.BeaconShare, 0.02},
		{"depression_deg", e.Sonar.Depression, math.Pi / 6},
		{"frequency_khz", e.Sonar.Channels[0].Frequency, 100e3},
		{"bandwidth_khz", e.Sonar.Channels[0].Bandwidth, 20e3},
		{"pulse_ms", e.Sonar.Channels[0].PulseLength, 0.002},
		{"speed_kn", e.Plan.Speed, 1.852},
		{"time_limit_min", e.Plan.TimeLimit, 5400},
		{"coverage_percent", e.Score.Coverage, 0.95},
		{"altitude_min_percent", e.Score.AltitudeMin, 0.1},
		{"altitude_max_percent", e.Score.AltitudeMax, 0.15},
	} {
		if math.Abs(row.got-row.want) > 4e-16*max(1, math.Abs(row.want)) {
			t.Errorf("%s: got %.17g, want %.17g", row.name, row.got, row.want)
		}
	}
}

// The knot is a rational number of m/s; for whole knots we must return the
// float64 next to it.
func TestKnotIsExact(t *testing.T) {
	for kn := range int64(100) {
		want, _ := big.NewRat(kn*1852, 3600).Float64()
		if got := knots(float64(kn)); got != want {
			t.Errorf("%d kn: got %.17g m/s, want %.17g", kn, got, want)
		}
	}
}

// The height wanted, where a file says nothing, is the trade's, of which the desk
// keeps the figures.
func TestWantedHeightIsTheTrades(t *testing.T) {
	score := rules().field("score")
	for key, share := range map[string]float64{"altitude_min_percent": survey.LowestHeight, "altitude_max_percent": survey.HighestHeight} {
		if got := score.field(key).fallback; got != 100*share {
			t.Errorf("%s is %v if left out, want %v", key, got, 100*share)
		}
	}
}
