package tow

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	"pgregory.net/rapid"
)

// solve runs the cable alone from the fish up, sheave at the water line.
func solve(l loads, length float64) link {
	return l.along(l.atFish(), length)
}

func near(t *testing.T, what string, got, want, rel float64) {
	t.Helper()
	if math.Abs(got-want) > rel*math.Abs(want) {
		t.Errorf("%s: got %.8g, want %.8g within %g", what, got, want, rel)
	}
}

// Closed forms of the steady equations: exact mathematics, the statics of
// Berteaux, Buoy Engineering (1976). The figures were computed outside this
// project from the formulas.
func TestClosedForms(t *testing.T) {
	const tol = 1e-6

	t.Run("catenary without drag", func(t *testing.T) {
		at := solve(loads{weight: 2, drag: 200, down: 300}, 100)
		near(t, "layback", at.x, 45.246793, tol)
		near(t, "depth", at.z, 88.980677, tol)
		near(t, "tension", at.tension, 538.51648, tol)
		h, v0, v1 := 200.0, 300.0, 500.0
		near(t, "layback by asinh", at.x, h/2*(math.Asinh(v1/h)-math.Asinh(v0/h)), tol)
	})
	t.Run("catenary in air", func(t *testing.T) {
		l := loads{drag: 200, down: 300}
		at := hang(l.atFish(), 2, 100)
		near(t, "layback", at.x, 45.246793, tol)
		near(t, "height", at.z, 88.980677, tol)
		near(t, "tension", at.tension, 538.51648, tol)
		near(t, "length up to that height", climb(l.atFish(), 2, 88.980677), 100, tol)
	})

	s := Spec{
		Cable: Cable{Diameter: 0.0104, Normal: 1.2},
		Fish:  Fish{Weight: 250},
	}
	t.Run("weightless, normal drag only", func(t *testing.T) {
		s := s
		s.Fish = Fish{Weight: 250}
		at := solve(s.loads(2), 100)
		near(t, "normal drag", s.loads(2).normal, 25.584, tol)
		near(t, "depth", at.z, 29.522380, tol)
		near(t, "layback", at.x, 90.704567, tol)
		near(t, "angle", at.angle, 0.0974081, tol)
		near(t, "tension", at.tension, 250, tol)
	})
	t.Run("weightless, normal and tangential drag", func(t *testing.T) {
		s := s
		s.Fish, s.Cable.Tangential = Fish{Weight: 250}, 0.01
		at := solve(s.loads(2), 100)
		near(t, "tension", at.tension, 307.187514, tol)
		near(t, "angle", at.angle, 0.10674428, tol)
		near(t, "layback", at.x, 90.589151, tol)
		near(t, "depth", at.z, 30.120426, tol)
	})
	t.Run("heavy, normal drag only", func(t *testing.T) {
		s := s
		s.Cable.Weight = 2
		s.Fish = Fish{Weight: 300, DragArea: 0.02}
		at := solve(s.loads(2), 100)
		near(t, "tension", at.tension, 387.458885, tol)
		near(t, "angle", at.angle, 0.28688580, tol)
		near(t, "layback", at.x, 87.260983, tol)
		near(t, "depth", at.z, 42.335090, tol)
		near(t, "critical angle", s.CriticalAngle(2)*180/math.Pi, 15.913513, tol)
	})
	t.Run("straight at the critical angle", func(t *testing.T) {
		s := s
		s.Cable.Weight, s.Cable.Tangential = 2, 0.01
		crit := s.CriticalAngle(2)
		s.Fish = Fish{Weight: 1000 * math.Sin(crit), DragArea: 0.46911057}
		at := solve(s.loads(2), 100)
		near(t, "layback", at.x, 96.167667, tol)
		near(t, "depth", at.z, 27.418603, tol)
		near(t, "tension", at.tension, 1116.780633, tol)
	})
}

// The critical angle by q = w/R: exact roots, computed outside this project.
func TestCriticalAngle(t *testing.T) {
	for _, test := range []struct{ q, want float64 }{
		{0.05, 12.7578}, {0.1, 17.9642}, {0.2, 25.1784}, {0.5, 38.6683}, {1, 51.8273}, {2, 65.5302}, {5, 78.8965},
	} {
		s := Spec{Cable: Cable{Diameter: 0.01, Normal: 1.2}}
		s.Cable.Weight = test.q * s.loads(2).normal
		near(t, "critical angle", s.CriticalAngle(2)*180/math.Pi, test.want, 1e-5)
	}
}

var cases = map[string]Spec{
	"S": {Cable: Cable{Diameter: 0.0104, Weight: 0.5, Normal: 1.2, Tangential: 0.01, Length: 200}, Fish: Fish{Weight: 250, DragArea: 0.03}},
	"A": {Cable: Cable{Diameter: 0.0082, Weight: 1.7, Normal: 1.5, Tangential: 0.01, Length: 400}, Fish: Fish{Weight: 300, DragArea: 0.03}},
	"P": {Cable: Cable{Diameter: 0.0173, Weight: 8.89, Normal: 1.5, Tangential: 0.01, Length: 1200}, Fish: Fish{Weight: 6686.35, DragArea: 0.327594}},
}

// steadyRows reads testdata/tow/steady.csv; its head says where it is from.
func steadyRows(t *testing.T) [][]string {
	t.Helper()
	f, err := os.Open("../../testdata/tow/steady.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return rows[1:]
}

func TestSteadyTables(t *testing.T) {
	for _, row := range steadyRows(t) {
		v := make([]float64, len(row))
		for i, cell := range row[1:] {
			v[i+1], _ = strconv.ParseFloat(cell, 64) // an empty cell is not compared
		}
		speed, crit, length := v[1], v[2], v[3]
		s := cases[row[0]]
		shape := s.Steady(speed, length, 0)
		name := row[0] + " " + row[1] + " m/s " + row[3] + " m "
		near(t, name+"depth", shape.Depth, v[4], 1e-3)
		near(t, name+"layback", shape.Layback, v[5], 1e-3)
		near(t, name+"tension", shape.Tension, v[6], 1e-3)
		if row[7] != "" {
			near(t, name+"angle", shape.Angle*180/math.Pi, v[7], 1e-3)
		}
		near(t, name+"critical angle", s.CriticalAngle(speed)*180/math.Pi, crit, 1e-3)
	}
}

// The whole tow balances: the horizontal pull at the sheave is the drag of
// fish and cable. Summed here piece by piece, not by the solver.
func TestWholeTowBalances(t *testing.T) {
	s := cases["A"]
	l := s.loads(2)
	at := l.atFish()
	horizontal, vertical := l.drag, l.down
	const steps = 20000
	ds := 200.0 / steps
	for range steps {
		sin, cos := math.Sincos(l.along(at, ds/2).angle)
		n, f := l.normal*sin*sin, l.tangential*cos*cos
		horizontal += ds * (n*sin + f*cos)
		vertical += ds * (l.weight - n*cos + f*sin)
		at = l.along(at, ds)
	}
	near(t, "horizontal", at.tension*math.Cos(at.angle), horizontal, 1e-4)
	near(t, "vertical", at.tension*math.Sin(at.angle), vertical, 1e-4)
}

func TestSteadyNeverBreaks(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := cases[rapid.SampledFrom([]string{"S", "A", "P"}).Draw(t, "case")]
		speed := rapid.Float64Range(0, 6.2).Draw(t, "speed")
		cable := rapid.Float64Range(0, 600).Draw(t, "cable")
		sheave := rapid.Float64Range(0, 6).Draw(t, "sheave")
		shape := s.Steady(speed, cable, sheave)
		for _, v := range []float64{shape.Depth, shape.Layback, shape.Tension, shape.Angle} {
			if math.IsNaN(v) || v < 0 {
				t.Fatalf("shape %+v", shape)
			}
		}
		if chord := math.Hypot(shape.Layback, shape.Depth+sheave); shape.Depth > 0 && chord > cable*1.0001 {
			t.Fatalf("the fish is %.3f m from the sheave on %.3f m of cable", chord, cable)
		}
	})
}

// On short cable a light inshore tow with a strumming cable has a chord over
// arc of 0.92 to 0.96 (common practice, no source).
func TestCatenaryFactorOfAShortInshoreTow(t *testing.T) {
	s := Spec{Cable: Cable{Diameter: 0.0105, Weight: 0.3, Normal: 2.0, Tangential: 0.01, Length: 120}, Fish: Fish{Weight: 200, DragArea: 0.012}}
	for _, cable := range []float64{15, 20, 30} {
		shape := s.Steady(2, cable, 1)
		if f := math.Hypot(shape.Layback, shape.Depth+1) / cable; f < 0.92 || f > 0.96 {
			t.Errorf("%g m of cable: factor %.4f, want 0.92 to 0.96", cable, f)
		}
	}
}
