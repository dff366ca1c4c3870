package calibrate

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"
)

// truth lies behind invented passes.
type truth struct{ factor, offset, latency float64 }

// pass is how an object is passed.
type pass struct{ course, cable, speed, across float64 }

// seen returns what a desk that believes one thing makes of an object that truth has
// elsewhere. It is worked out from the vessel outwards and shares nothing with the
// solver: the antenna is where it is at the time of the ping, its fix is as old as the
// latency, the fish hangs where the true factor has it.
func seen(is, believed truth, object int, x, y float64, p pass, draw *rand.Rand, sigma float64) Sighting {
	const drop = 12.0
	behind := func(f float64) float64 { return math.Sqrt(math.Pow(f*p.cable, 2) - drop*drop) }
	ax, ay := math.Sin(p.course), math.Cos(p.course) // ahead
	rx, ry := ay, -ax                                // to the right
	fishX, fishY := x-p.across*rx, y-p.across*ry
	aft := is.offset + behind(is.factor)
	antennaX, antennaY := fishX+aft*ax, fishY+aft*ay
	// The receiver says where she was a latency ago, the desk carries that on by what it
	// believes of it.
	lag := p.speed * (believed.latency - is.latency)
	antennaX, antennaY = antennaX+lag*ax, antennaY+lag*ay
	aft = believed.offset + behind(believed.factor)
	along, across := draw.NormFloat64()*sigma, draw.NormFloat64()*sigma
	return Sighting{
		Object: object, Pass: fmt.Sprintf("object %d on %.0f deg", object, p.course*180/math.Pi), Course: p.course, Across: p.across, Speed: p.speed,
		X:     antennaX - aft*ax + p.across*rx + along*ax + across*rx,
		Y:     antennaY - aft*ay + p.across*ry + along*ay + across*ry,
		Cable: p.cable, Drop: drop, Factor: believed.factor, Offset: believed.offset, Latency: believed.latency,
		SigmaAlong: sigma, SigmaAcross: sigma,
	}
}

var (
	is       = truth{factor: 0.94, offset: 6.3, latency: 0.4}
	believed = truth{factor: 0.99, offset: 5, latency: 0}
)

// surveyed is both objects passed four ways with every cable and speed.
func surveyed(draw *rand.Rand, sigma float64, cables, speeds []float64) []Sighting {
	var s []Sighting
	for object, at := range [][2]float64{{120, 340}, {300, -80}} {
		for _, course := range []float64{0.3, 0.3 + math.Pi/2, 0.3 + math.Pi, 0.3 - math.Pi/2} {
			for _, cable := range cables {
				for _, speed := range speeds {
					s = append(s, seen(is, believed, object, at[0], at[1], pass{course, cable, speed, 25}, draw, sigma))
				}
			}
		}
	}
	return s
}

// With marks drawn from their stated accuracy the 95 % interval holds the truth in 90 to
// 99 of 100 seeded cases, and is no wider than it has to be: half of it is at most 2.5
// times the rms error.
func TestIntervalsHoldWhatTheySay(t *testing.T) {
	const cases = 100
	names := []string{"total", "factor", "offset", "latency"}
	held, squares, widest := map[string]int{}, map[string]float64{}, map[string]float64{}
	for seed := range uint64(cases) {
		draw := rand.New(rand.NewPCG(seed, 12))
		r, err := Solve(surveyed(draw, 0.8, []float64{25, 55}, []float64{1.5, 3}))
		if err != nil {
			t.Fatal(err)
		}
		if len(r.Parts) != 3 {
			t.Fatalf("seed %d: %s", seed, r.WhyNot)
		}
		// The total is told from a survey with one cable and speed, where it is one number.
		one, err := Solve(surveyed(draw, 0.8, []float64{40}, []float64{2}))
		if err != nil {
			t.Fatal(err)
		}
		behind := func(f float64) float64 { return math.Sqrt(f*f*1600 - 144) }
		want := []float64{is.offset + behind(is.factor) - believed.offset - behind(believed.factor) - 2*(is.latency-believed.latency), is.factor, is.offset, is.latency}
		for i, e := range append([]Estimate{one.Total}, r.Parts...) {
			off := e.Value - want[i]
			if math.Abs(off) <= e.HalfWidth() {
				held[names[i]]++
			}
			squares[names[i]] += off * off
			widest[names[i]] = max(widest[names[i]], e.HalfWidth())
		}
	}
	for _, n := range names {
		rms := math.Sqrt(squares[n] / cases)
		if held[n] < 90 || held[n] > 99 || widest[n] > 2.5*rms {
			t.Errorf("%s: held in %d of %d, half-width %.4g, rms error %.4g", n, held[n], cases, widest[n], rms)
		}
		t.Logf("%s: held in %d of %d, half-width %.4g is %.2f times the rms error %.4g", n, held[n], cases, widest[n], widest[n]/rms, rms)
	}
}

// Exact marks give the exact numbers back.
func TestExactMarks(t *testing.T) {
	s := surveyed(rand.New(rand.NewPCG(1, 1)), 0, []float64{25, 55}, []float64{1.5, 3})
	for i := range s {
		s[i].SigmaAlong, s[i].SigmaAcross = 1, 1
	}
	r, err := Solve(s)
	if err != nil || len(r.Parts) != 3 {
		t.Fatal(err, r.WhyNot)
	}
	for i, want := range []float64{is.factor, is.offset, is.latency} {
		if math.Abs(r.Parts[i].Value-want) > 1e-6 {
			t.Errorf("%s: %.8f, want %g", r.Parts[i].Name, r.Parts[i].Value, want)
		}
	}
	if r.Correlation[0][1] > -0.5 || r.ChiSquare > 1e-9 || r.Freedom != 2*32-4-3 {
		t.Errorf("correlation of factor and offset %.3f, chi-square %g of %d", r.Correlation[0][1], r.ChiSquare, r.Freedom)
	}
}

// What cannot be told apart is refused, in words.
func TestRefusals(t *testing.T) {
	draw := rand.New(rand.NewPCG(3, 3))
	at := func(courses ...float64) []Sighting {
		var s []Sighting
		for _, c := range courses {
			s = append(s, seen(is, believed, 0, 10, 20, pass{c, 40, 2, 20}, draw, 0.5))
		}
		return s
	}
	for _, test := range []struct {
		name string
		s    []Sighting
		want string
	}{
		{"nothing", nil, "no object was seen on two passes"},
		{"one pass", at(0), "seen on this pass alone"},
		{"the same way", at(1, 1, 1.1), "opposite directions"},
		{"at right angles", at(0, math.Pi/2), "opposite directions"},
	} {
		if _, err := Solve(test.s); err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%s: got %v, want %q", test.name, err, test.want)
		}
	}
	for _, test := range []struct {
		name           string
		cables, speeds []float64
		want           string
	}{
		{"one cable length", []float64{40}, []float64{1.5, 3}, "cable lengths are 0.0 m apart"},
		{"lengths too near", []float64{30, 44}, []float64{1.5, 3}, "cable lengths are 14.0 m apart (want 15 or more)"},
		{"one speed", []float64{25, 55}, []float64{2}, "speeds 0.00 m/s"},
	} {
		r, err := Solve(surveyed(draw, 0.5, test.cables, test.speeds))
		if err != nil || len(r.Parts) != 0 || !strings.Contains(r.WhyNot, test.want) || !(r.Total.Sigma > 0) {
			t.Errorf("%s: %v, %d parts, %q; want the total alone and %q", test.name, err, len(r.Parts), r.WhyNot, test.want)
		}
	}

	// Far out in a crab: 40 m at 5 degrees lie 3.5 m along the track from where they are put.
	crabbed := at(0, math.Pi, 0.1, math.Pi+0.1)
	for i := range 2 {
		crabbed[i].Across, crabbed[i].Crab = 40, 5*math.Pi/180
	}
	r, err := Solve(crabbed)
	if err != nil || len(r.LeftOut) != 2 || r.Sightings != 2 || !strings.Contains(r.LeftOut[0], "3.5 m along the track") {
		t.Errorf("in a crab: %v, %+v", err, r)
	}
	worse := at(0, math.Pi, 0, math.Pi, 0, math.Pi)
	worse[0].X += 9
	if r, err := Solve(worse); err != nil || r.Suspicious == "" {
		t.Errorf("a wild mark is not told: %v %+v", err, r)
	}
}

// A small crab, far out, makes the interval wider and leaves no pass out: over drawn surveys in which every pass lies off by
// its crab besides its mark, the total is held about as often as 95 % say, and passes near the track count for more.
func TestASmallCrabIsPartOfTheInterval(t *testing.T) {
	draw := rand.New(rand.NewPCG(5, 8))
	const surveys, sigma = 400, 0.3
	held := 0
	for range surveys {
		var all []Sighting
		for _, course := range []float64{0.3, 0.3 + math.Pi, 0.3, 0.3 + math.Pi} {
			s := seen(is, believed, 1, 120, 340, pass{course, 30, 2, 60 * (draw.Float64() - 0.5) * 2}, draw, sigma)
			s.Crab = draw.NormFloat64() * math.Pi / 180
			off := s.Across * math.Sin(s.Crab)
			s.X, s.Y = s.X+off*math.Sin(s.Course), s.Y+off*math.Cos(s.Course)
			all = append(all, s)
		}
		r, err := Solve(all)
		if err != nil || len(r.LeftOut) > 0 {
			// A crab of more than two degrees sixty metres out is one in a few hundred.
			continue
		}
		behind := func(f float64) float64 { return math.Sqrt(math.Pow(f*30, 2) - 12*12) }
		want := is.offset - believed.offset + behind(is.factor) - behind(believed.factor) - 2*(is.latency-believed.latency)
		if math.Abs(r.Total.Value-want) <= r.Total.HalfWidth() {
			held++
		}
	}
	if share := float64(held) / surveys; share < 0.9 || share > 0.995 {
		t.Errorf("the total is within its 95 %% interval in %.1f %% of surveys", 100*share)
	}

	near, far := pass{0.3, 30, 2, 5}, pass{0.3 + math.Pi, 30, 2, 50}
	a, b := seen(is, believed, 1, 0, 0, near, draw, sigma), seen(is, believed, 1, 0, 0, far, draw, sigma)
	straight, err := Solve([]Sighting{a, b})
	if err != nil {
		t.Fatal(err)
	}
	b.Crab = math.Pi / 180
	crabbed, err := Solve([]Sighting{a, b})
	if err != nil {
		t.Fatal(err)
	}
	// Half of the difference of two places, the second of which is less sure by 50 m sin 1 deg.
	want := math.Sqrt(2*sigma*sigma+math.Pow(50*math.Sin(math.Pi/180), 2)) / 2
	if math.Abs(crabbed.Total.Sigma-want) > 1e-6 || straight.Total.Sigma >= want {
		t.Errorf("sigma is %.4f straight and %.4f in a crab, want %.4f", straight.Total.Sigma, crabbed.Total.Sigma, want)
	}
}
