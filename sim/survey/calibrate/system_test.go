package calibrate

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"
)

// tries are passes on an object at the origin whose swath is laid turned by a crab the
// desk knows nothing of, with a layback that is off by so much.
func tries(courses []float64, crab, layback, sigma float64, draw *rand.Rand) []Try {
	var out []Try
	for i, c := range courses {
		r := []float64{15, 25, 40}[i%3]
		starboard := i/2%2 == 0
		right := r
		if !starboard {
			right = -r
		}
		ax, ay := math.Sin(c), math.Cos(c)
		rx, ry := ay, -ax
		// The fish lies off square to its true heading, course plus crab; the desk puts the
		// object square to the course.
		hx, hy := math.Cos(c+crab), -math.Sin(c+crab)
		fishX, fishY := -right*hx, -right*hy
		x, y := fishX+right*rx+layback*ax, fishY+right*ry+layback*ay
		out = append(out, Try{Detected: true, X: x + sigma*draw.NormFloat64(), Y: y + sigma*draw.NormFloat64(), Course: c, Starboard: starboard, Range: r, Reach: 48})
	}
	return out
}

// A system that scatters by sigma either way is found to place objects within
// 2.4477 sigma at 95 % (IHO S-44 6.1.0, 2.7), and its interval holds that in about 95 of
// 100 cases.
func TestRadius(t *testing.T) {
	courses := []float64{0, math.Pi, math.Pi / 2, -math.Pi / 2, 0, math.Pi, math.Pi / 2, -math.Pi / 2, 0.8, 0.8 + math.Pi, 0, math.Pi}
	held := 0
	for seed := range uint64(100) {
		s := Check(tries(courses, 0, 0, 2, rand.New(rand.NewPCG(seed, 5))))
		if !s.Met || len(s.Lacking) > 0 || s.Detections != 12 {
			t.Fatalf("seed %d: %+v", seed, s)
		}
		if want := 2.4477 * 2; s.RadiusLow <= want && want <= s.RadiusHigh {
			held++
		}
	}
	if held < 90 || held > 99 {
		t.Errorf("the interval of the radius holds in %d of 100", held)
	}
}

// A crab shows as a swath askew when the object is seen on both sides and from several
// directions; reciprocal passes that keep it at one place abeam hide it.
func TestCrabShowsInTheCalibration(t *testing.T) {
	draw := rand.New(rand.NewPCG(1, 9))
	courses := []float64{0, math.Pi, math.Pi / 2, -math.Pi / 2, 0, math.Pi, math.Pi / 2, -math.Pi / 2, 0.8, 0.8 + math.Pi, 0, math.Pi}
	const crab = 12 * math.Pi / 180
	s := Check(tries(courses, crab, 0, 0.3, draw))
	if math.Abs(s.Askew+crab) > 3*s.AskewSigma+0.02 || s.Radius < 8 {
		t.Errorf("askew by %.1f +- %.1f deg at a radius of %.1f m, want -12", s.Askew*180/math.Pi, s.AskewSigma*180/math.Pi, s.Radius)
	}
	s = Check(tries(courses, 0, 4, 0.3, draw))
	if math.Abs(s.Along-4) > 0.6 || math.Abs(s.Askew) > 0.05 {
		t.Errorf("a layback 4 m off shows as %.2f m along, %.3f askew", s.Along, s.Askew)
	}
	s = Check(tries([]float64{0, math.Pi, 0, math.Pi, 0, math.Pi, 0, math.Pi, 0, math.Pi}, crab, 0, 0.3, draw))
	if s.Met || !strings.Contains(strings.Join(s.Lacking, " "), "reciprocal passes hide a crab") {
		t.Errorf("reciprocal passes alone pass for a calibration: %v", s.Lacking)
	}
}

func TestCalibrationLacks(t *testing.T) {
	draw := rand.New(rand.NewPCG(1, 9))
	one := tries([]float64{0, math.Pi, 0, 1}, 0, 0, 0.1, draw)
	for i := range one {
		one[i].Starboard, one[i].Range = true, 30
	}
	one[0].Detected = false
	s := Check(one)
	all := strings.Join(s.Lacking, "; ")
	for _, want := range []string{"4 passes (want 10)", "0 passes to port", "none nearer", "none farther"} {
		if !strings.Contains(all, want) {
			t.Errorf("got %q, want %q", all, want)
		}
	}
	if s.Met || s.Misses != 1 || Check(nil).Met {
		t.Errorf("got %+v", s)
	}
}
