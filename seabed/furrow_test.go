package seabed

import (
	"math"
	"slices"
	"testing"
)

// A trench is as deep and as wide at its bottom as asked, and its neighbour
// lies the spacing away.
func TestDredgedTrenchesHaveFlatBottoms(t *testing.T) {
	b := Bedform{Kind: Dredge, Height: 0.8, Width: 5, Length: 120, Count: 2, Spacing: 16}
	w := New(Spec{Featureless: true, East: 200, North: 200, Depth: 12, Relief: Relief{Wavelength: 50}, Base: Mud, Bedforms: []Bedform{b}}, 1)
	for _, axis := range []float64{92, 108} { // 100 -+ 16/2, crest bearing 0 is north
		deepest := math.Inf(1)
		for y := 60.0; y < 140; y += 7 {
			bottom := w.HeightAt(axis, y)
			deepest = min(deepest, bottom)
			for dx := -2.2; dx <= 2.2; dx += 0.4 {
				if z := w.HeightAt(axis+dx, y); math.Abs(z-bottom) > 0.02 {
					t.Errorf("bottom at %.1f m off the axis: %.3f m, want %.3f", dx, z, bottom)
				}
			}
		}
		// Depth varies by a tenth from trench to trench.
		if d := -12 - deepest; d < 0.9*0.8-0.01 || d > 1.1*0.8+0.01 {
			t.Errorf("depth: got %.3f m, want 0.72 to 0.88", d)
		}
	}
	if z := w.HeightAt(100, 100) + 12; math.Abs(z) > 0.11 {
		t.Errorf("between the trenches the floor is off by %.3f m", z)
	}
	if z := w.HeightAt(92, 170) + 12; math.Abs(z) > 1e-3 {
		t.Errorf("beyond the end of a trench the floor is off by %.3f m", z)
	}
}

// Trawl marks are two furrows side by side, the spacing apart all along.
func TestTrawlFurrowsRunInPairs(t *testing.T) {
	b := Bedform{Kind: Trawl, Height: 0.3, Width: 0.8, Length: 150, Count: 1, Spacing: 24, Area: Area{Polygon: []Point{{190, 190}, {210, 190}, {210, 210}, {190, 210}}}}
	w := New(Spec{Featureless: true, East: 400, North: 400, Depth: 12, Relief: Relief{Wavelength: 50}, Base: Mud, Bedforms: []Bedform{b}}, 2)
	pair := w.bedforms[0].furrows
	if len(pair) != 2 {
		t.Fatalf("furrows: got %d, want 2", len(pair))
	}
	for i := range pair[0].line {
		a, c := pair[0].line[i], pair[1].line[i]
		if d := math.Hypot(a.X-c.X, a.Y-c.Y); math.Abs(d-24) > 1e-9 {
			t.Errorf("point %d: furrows %.3f m apart, want 24", i, d)
		}
	}
	n := len(pair[0].line)
	first, middle, last := pair[0].line[0], pair[0].line[n/2], pair[0].line[n-1]
	if d := segmentDistance(middle.X, middle.Y, first, last); d > 0.05*math.Hypot(last.X-first.X, last.Y-first.Y) {
		t.Errorf("the furrow bends %.2f m off straight", d)
	}
	var depths [2][]float64
	for k, f := range pair {
		for _, at := range f.line {
			depths[k] = append(depths[k], -12-w.HeightAt(at.X, at.Y))
		}
		deepest, shallow := slices.Max(depths[k]), math.Inf(1)
		for _, d := range depths[k][n/4 : 3*n/4] {
			shallow = min(shallow, d)
		}
		// It bites unevenly, is nowhere deeper than asked and comes to nothing at its ends.
		if deepest > 1.05*0.3 || deepest < 0.06 || shallow > 0.8*deepest || shallow < 0.01 || max(depths[k][0], depths[k][n-1]) > 0.01 {
			t.Errorf("furrow %d is %.3f m deep at most, %.3f m at least about its middle, %.3f and %.3f m at its ends", k, deepest, shallow, depths[k][0], depths[k][n-1])
		}
	}
	differ := 0.0
	for i := range depths[0] {
		differ = max(differ, math.Abs(depths[0][i]-depths[1][i]))
	}
	if differ < 0.03 {
		t.Errorf("the two doors bite alike to %.3f m", differ)
	}
}

func TestSeagrassStandsInTufts(t *testing.T) {
	p := newTufts(3)
	mean, square, cube := 0.0, 0.0, 0.0
	n := float64(len(p))
	for _, z := range p {
		mean += float64(z) / n
		square += float64(z) * float64(z) / n
		cube += float64(z) * float64(z) * float64(z) / n
	}
	if math.Abs(mean) > 1e-3 || math.Abs(square-1) > 1e-3 {
		t.Errorf("mean %.4f and mean square %.4f, want 0 and 1", mean, square)
	}
	// Clumps out of bare ground are skew to the high side; grains are not.
	if cube < 1 {
		t.Errorf("skewness: got %.2f, want above 1", cube)
	}
}

func TestUnsetClassesTakeTheUsual(t *testing.T) {
	w := New(Spec{
		Featureless: true, East: 100, North: 100, Depth: 10, Relief: Relief{Wavelength: 50},
		Patches: []Patch{{Class: Mud, Area: Area{Polygon: []Point{{0, 0}, {50, 0}, {50, 100}, {0, 100}}}}},
		Objects: []Object{
			{Name: "usual", Kind: "block", At: Point{75, 50}},
			{Name: "other", Kind: "block", At: Point{85, 50}, Class: Steel},
		},
	}, 1)
	for _, test := range []struct {
		name string
		x, y float64
		want Class
	}{
		{"mud as said", 20, 50, Mud},
		{"base not said", 75, 20, MediumSand},
		{"object not said", 75, 50, Concrete},
		{"object as said", 85, 50, Steel},
	} {
		if _, got, _ := w.SurfaceAt(test.x, test.y); got != test.want {
			t.Errorf("%s: got %v, want %v", test.name, got, test.want)
		}
	}
	if top := w.HeightAt(75, 50) + 10; math.Abs(top-Kinds["block"].Height) > 1e-6 {
		t.Errorf("height not said: %.3f m, want the kind's %.3f", top, Kinds["block"].Height)
	}
	all := Area{Bare: 1}
	if got, _ := all.weights(1, 1, edgeWidth, edgeMix, func(_, _ float64, _ *Area) float64 { return 0.9 }); got != 0 {
		t.Errorf("an area left wholly bare weighs %g, want 0", got)
	}
	if got, _ := (&Area{}).weights(1, 1, edgeWidth, edgeMix, nil); got != 1 {
		t.Errorf("the zero area weighs %g, want 1: everywhere", got)
	}
}
