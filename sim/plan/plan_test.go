package plan

import (
	"math"
	"math/rand/v2"
	"os"
	"strconv"
	"strings"
	"testing"

	"dryline/vessel"
	"dryline/vessel/tow"
)

type flat struct{ depth float64 }

func (f flat) DepthAt(float64, float64) (float64, bool) { return f.depth, true }

// plain is a rectangle of flat ground with ordinary gear.
func plain(east, north float64) *Spec {
	return &Spec{
		Parts:  []Part{{Outer: []Point{{0, 0}, {east, 0}, {east, north}, {0, north}}}},
		Ground: flat{20}, Range: 100, Height: 10, Spacing: 160, Auto: true,
		LeastLow: 0.08, MostHigh: 0.2, Speed: 4 * 1852.0 / 3600, TurnRadius: 100, RunIn: 0, RunOut: 0,
		Gear: tow.Spec{
			Cable: tow.Cable{Diameter: 0.0105, Weight: 0.6, Normal: 1.3, Tangential: 0.01, Length: 120},
			Fish:  tow.Fish{Weight: 260, DragArea: 0.022}, Winch: tow.Winch{Rate: 0.4, Min: 2},
		},
		SheaveUp: 2, Draft: 1.1, UnderKeel: 2, UnderWake: 2,
	}
}

// Minimum widths: worked values by the definition (rectangle, 3-4-5 triangle, hexagon,
// parallelogram), and brute force over all edges of random hulls.
func TestWidth(t *testing.T) {
	r3 := math.Sqrt(3)
	for _, c := range []struct {
		ring           []Point
		width, bearing float64 // degrees
	}{
		{[]Point{{0, 0}, {1000, 0}, {1000, 400}, {0, 400}}, 400, 90},
		{[]Point{{0, 0}, {3, 0}, {0, 4}}, 2.4, 90 + 53.13010235},
		{[]Point{{1, 0}, {0.5, r3 / 2}, {-0.5, r3 / 2}, {-1, 0}, {-0.5, -r3 / 2}, {0.5, -r3 / 2}}, r3, -1},
		{[]Point{{0, 0}, {1000, 0}, {1200, 500}, {200, 600}}, 600, -1},
	} {
		w, b := Width(c.ring)
		if c.width == 600 { // a leaning quadrilateral: the edge along the south has the width 600 across it
			f := along(math.Pi / 2)
			lo, hi := (&Part{Outer: c.ring}).across(f)
			if math.Abs(hi-lo-600) > 1e-9 {
				t.Errorf("across its southern edge it is %g m wide, want 600", hi-lo)
			}
			if brute := bruteWidth(c.ring); math.Abs(w-brute) > 1e-6*brute {
				t.Errorf("width %g, by brute force %g", w, brute)
			}
			continue
		}
		if math.Abs(w-c.width) > 1e-9*c.width || c.bearing >= 0 && math.Abs(b*180/math.Pi-c.bearing) > 1e-6 {
			t.Errorf("width %.7f on %.4f deg, want %.7f on %.4f", w, b*180/math.Pi, c.width, c.bearing)
		}
	}
	rng := rand.New(rand.NewPCG(1, 2))
	for range 200 {
		var ring []Point
		for range 3 + rng.IntN(12) {
			ring = append(ring, Point{rng.Float64() * 1000, rng.Float64() * 400})
		}
		if w, brute := first(Width(ring)), bruteWidth(ring); math.Abs(w-brute) > 1e-6*brute+1e-9 {
			t.Fatalf("%v: width %g, by brute force %g", ring, w, brute)
		}
	}
}

func first(a, _ float64) float64 { return a }

// bruteWidth tries every pair of points as an edge, and all bearings by hundredths of a degree as a bound.
func bruteWidth(ring []Point) float64 {
	best := math.Inf(1)
	for i, a := range ring {
		for _, b := range ring[i+1:] {
			lo, hi := (&Part{Outer: ring}).across(along(math.Atan2(b.X-a.X, b.Y-a.Y)))
			best = min(best, hi-lo)
		}
	}
	return best
}

// Shares of looks with a gap under the fish, what they come to, and on lines that lie off their place.
func TestLooks(t *testing.T) {
	for _, c := range published(t, "looks.tsv") {
		got := Looks(c[0], c[1], c[2])
		for k, want := range c[3:7] {
			have := 0.0
			if k < len(got) {
				have = got[k]
			}
			if math.Abs(have-want) > 1e-8 {
				t.Errorf("R %g, S %g, g %g: %v, want %v", c[0], c[1], c[2], got, c[3:7])
				break
			}
		}
		for k, each := range []float64{0.5, 0.8, 0.9} {
			if f := Found(got, each); math.Abs(f-c[7+k]) > 1e-8 {
				t.Errorf("R %g, S %g, g %g, each %g: %g found, want %g", c[0], c[1], c[2], each, f, c[7+k])
			}
		}
	}
	for _, c := range published(t, "off-line.tsv") {
		if got := FoundOff(100, c[0], 0, c[1], c[2]); math.Abs(got-c[3]) > 5e-5 {
			t.Errorf("S %g, sigma %g, each %g: %.5f, want %.5f", c[0], c[1], c[2], got, c[3])
		}
	}
}

// published reads a table of testdata/plan: numbers, under a line of headings.
func published(t *testing.T, name string) (rows [][]float64) {
	t.Helper()
	data, err := os.ReadFile("../../testdata/plan/" + name)
	if err != nil {
		t.Fatal(err)
	}
	headed := false
	for line := range strings.Lines(string(data)) {
		if line[0] == '#' {
			continue
		}
		if !headed {
			headed = true
			continue
		}
		var row []float64
		for word := range strings.FieldsSeq(line) {
			v, err := strconv.ParseFloat(word, 64)
			if err != nil {
				t.Fatalf("%s: %v", name, err)
			}
			row = append(row, v)
		}
		rows = append(rows, row)
	}
	if len(rows) < 8 {
		t.Fatalf("%s: %d rows", name, len(rows))
	}
	return rows
}

// NOAA's 1.6 R is an overlap of a fifth of the swath (Field Procedures Manual 2.5.3.1.2); C-13's
// 125 m is 150 less a gap of 25 (chapter 4, 2.3.3.3).
func TestPublishedSpacings(t *testing.T) {
	if s := SpacingFor(100, 0.2, 100*GapShare, GapLeft); math.Abs(s-160) > 1e-9 {
		t.Errorf("a fifth of the swath overlaps: %g m, want 160", s)
	}
	if s := SpacingFor(150, 0, 25, Neighbour); s != 125 {
		t.Errorf("neighbours look under the fish: %g m, want 125", s)
	}
	if g := 150 * GapShare; g != 25 {
		t.Errorf("the gap of 150 m is %g, want 25", g)
	}
}

// The turn between lines S apart with radius r: pi r + S - 2r, or r (3 pi - 4 asin((2r+S)/4r))
// for lines closer than two radii: both by plane geometry.
func TestTurnsAreAsLongAsTheyMustBe(t *testing.T) {
	for _, c := range [][3]float64{{100, 160, 494.570}, {100, 80, 632.319}, {100, 125, 563.107}, {50, 62.5, 281.553}, {150, 160, 889.537}, {100, 300, 414.159}} {
		p := vessel.PlanTurn(vessel.Simple, vessel.Waypoint{}, vessel.Waypoint{X: c[1], Bearing: math.Pi}, c[0])
		want := math.Pi*c[0] + c[1] - 2*c[0]
		if c[1] < 2*c[0] {
			want = c[0] * (3*math.Pi - 4*math.Asin((2*c[0]+c[1])/(4*c[0])))
		}
		if math.Abs(p.Length()-want) > 0.01 || math.Abs(want-c[2]) > 0.001 {
			t.Errorf("r %g, S %g: %.3f m, want %.3f", c[0], c[1], p.Length(), want)
		}
	}
}

// A rectangle of 1000 x 2000 m at 160 m, radius 100 m, 4 knots: seven lines along it and six
// turns of 494.57 m take 8245.5 s when they follow one another (worked out by hand); no
// order takes longer than that one. Across it are thirteen.
func TestTimeOfASurvey(t *testing.T) {
	s := plain(1000, 2000)
	p, err := Make(s)
	if err != nil {
		t.Fatal(err)
	}
	if len(p.Lines) != 7 || math.Abs(p.Bearing) > 1e-9 || math.Abs(p.LineLength-14000) > 1 {
		t.Fatalf("%d lines on %.1f deg of %.0f m, want 7 on 0 of 14000", len(p.Lines), p.Bearing*180/math.Pi, p.LineLength)
	}
	turns := 0.0
	for _, turn := range p.Turns {
		turns += turn.Path.Length()
	}
	if pure := (p.LineLength + turns) / s.Speed; pure > 8245.5+1 {
		t.Errorf("lines and turns take %.1f s, want 8245.5 at most", pure)
	}
	if want := turns + 6*2*p.Layback; math.Abs(p.Between-want) > 1e-6 {
		t.Errorf("between the lines %.1f m, want the turns and two laybacks each, %.1f", p.Between, want)
	}
	if want := (p.LineLength + p.Between) / s.Speed; math.Abs(p.Time-want) > 1e-6 {
		t.Errorf("it takes %.1f s, want %.1f", p.Time, want)
	}
	s.TurnRadius = 70 // lines further apart than two radii: one after the other, and the formula exact
	if p, err = Make(s); err != nil {
		t.Fatal(err)
	}
	turns = 0
	for _, turn := range p.Turns {
		turns += turn.Path.Length()
	}
	if want := 6 * (math.Pi*70 + 160 - 140); math.Abs(turns-want) > 0.01 {
		t.Errorf("six turns of %.2f m in all, want %.2f", turns, want)
	}
	s.Auto, s.Bearing = false, math.Pi/2
	if p, err = Make(s); err != nil || len(p.Lines) != 13 {
		t.Errorf("across it %d lines (%v), want 13", len(p.Lines), err)
	}
}

// A rectangle with one convex hole has four cells (Choset 2000): before, beside on either
// hand, after.
func TestCells(t *testing.T) {
	s := plain(2000, 2000)
	s.Parts[0].Holes = [][]Point{{{800, 700}, {1200, 700}, {1200, 1300}, {800, 1300}}}
	c, err := newCrew(s)
	if err != nil {
		t.Fatal(err)
	}
	first, _ := c.over(0, 0)
	groups := cells(first)
	if len(groups) != 4 {
		t.Errorf("%d cells, want 4", len(groups))
	}
	lines := 0
	for _, r := range first {
		lines += len(r.lines)
	}
	for _, g := range groups {
		lines -= len(g)
	}
	if lines != 0 {
		t.Errorf("%d lines lie in no cell", lines)
	}
}

// An order visits every row once, whatever the step.
func TestPatternsVisitAll(t *testing.T) {
	for n := 1; n < 40; n++ {
		for step := 1; step < 9; step++ {
			seen := make([]bool, n)
			for _, k := range pattern(n, step) {
				if seen[k] {
					t.Fatalf("%d rows by %d: %d twice", n, step, k)
				}
				seen[k] = true
			}
			for k, ok := range seen {
				if !ok {
					t.Fatalf("%d rows by %d: %d left out", n, step, k)
				}
			}
		}
	}
}

// Where the vessel cannot turn onto the next line, an order by wider turns is shorter than one after the other.
func TestOrderByTurnRadius(t *testing.T) {
	s := plain(1000, 2000)
	s.Spacing, s.TurnRadius = 50, 100
	p, err := Make(s)
	if err != nil {
		t.Fatal(err)
	}
	c, _ := newCrew(s)
	one := math.Inf(1)
	rows, _ := c.over(0, p.Bearing)
	for _, kind := range vessel.Turns() {
		_, length, _ := c.turns(c.sequence(cells(rows), 1, 0, 0), kind)
		one = min(one, length)
	}
	got := 0.0
	for _, turn := range p.Turns {
		got += turn.Path.Length()
	}
	if p.Pattern < 2 || got > 0.9*one {
		t.Errorf("by %d rows the turns are %.0f m, one after the other %.0f", p.Pattern, got, one)
	}
}

// Kept clear of by lines, run-ins and turns: a mast in the area, a cable beside it.
func TestKeepOutsAreKeptClearOf(t *testing.T) {
	s := plain(600, 900)
	s.Range, s.Height, s.Spacing, s.TurnRadius, s.RunIn, s.RunOut = 50, 5, 80, 40, 60, 20
	s.KeepOuts = []KeepOut{{Name: "mast", Path: []Point{{300, 450}}, Radius: 50}, {Name: "old cable", Path: []Point{{-300, 1040}, {900, 1040}}, Radius: 30}}
	p, err := Make(s)
	if err != nil {
		t.Fatal(err)
	}
	for i := range p.Lines {
		l := &p.Lines[i]
		for u := -p.RunIn - p.Layback; u < l.Length()+p.RunOut+p.Layback; u++ {
			for _, k := range s.KeepOuts {
				if d := k.distance(l.on(u)); d < k.Radius-4 {
					t.Fatalf("line %s comes within %.0f m of the %s at %.0f m", l.Name, d, k.Name, u)
				}
			}
		}
	}
	for _, check := range p.Checks {
		if check.ID == "clear" && check.State == Holds && check.Worst < 0 {
			t.Errorf("clear by %g m holds", check.Worst)
		}
		if check.ID == "turns" && check.State != Holds {
			t.Errorf("%s", check.Says)
		}
	}
	if p.Covered.Lost == 0 {
		t.Error("nothing is lost beside the mast, though lines were cut")
	}
}

// C-13's stream: 400 m of wire, 6 knots, 2 knots of stream at 10 degrees: 17 m to the side (chapter 4, 2.3.9.6).
func TestStreamCarriesTheFish(t *testing.T) {
	if got := Offset(400, 6, 2, 10*math.Pi/180); math.Abs(got-17.41) > 0.01 {
		t.Errorf("%.2f m, want 17.41", got)
	}
}

// In water that slows evenly with depth a ray is an arc of the radius c/g (textbook ray
// acoustics): the farthest direct one touches the surface, and comes to the floor after
// sqrt(2 R z) + sqrt(2 R D) nearly. In even water there is no limit.
func TestRangeLimit(t *testing.T) {
	const c, g, fish, floor = 1500.0, 2.0, 10.0, 30.0
	arc := c / g
	want := math.Sqrt(2*arc*fish-fish*fish) + math.Sqrt(2*arc*floor-floor*floor)
	got := RangeLimit(func(z float64) float64 { return c - g*z }, fish, floor, 1000)
	if math.Abs(got-want) > 0.03*want {
		t.Errorf("%.0f m, want %.0f", got, want)
	}
	if got := RangeLimit(func(float64) float64 { return c }, fish, floor, 400); got != 400 {
		t.Errorf("in even water %.0f m, want all of 400", got)
	}
}

// The lines of a plan see what the shares of looks say, inside of an area with edge lines.
func TestCoverageIsThatOfTheFormula(t *testing.T) {
	s := plain(1600, 1600)
	s.Edges, s.Gap, s.Auto = true, 20, false
	p, err := Make(s)
	if err != nil {
		t.Fatal(err)
	}
	want := Looks(s.reach(), 160, 20)
	if math.Abs(p.Covered.Once-(1-want[0])) > 0.02 || math.Abs(p.Covered.Twice-want[2]) > 0.02 {
		t.Errorf("seen once %.3f and twice %.3f, want %.3f and %.3f", p.Covered.Once, p.Covered.Twice, 1-want[0], want[2])
	}
	if p.Count(Edge) != 2 || len(p.Lines) != 12 {
		t.Errorf("%d lines, %d of them at edges, want 12 and 2", len(p.Lines), p.Count(Edge))
	}
}

// Cable for a depth is what a steady tow of it says.
func TestCableFor(t *testing.T) {
	s := plain(100, 100)
	for _, depth := range []float64{3, 8, 15} {
		out, ok := CableFor(&s.Gear, 2, 2, depth)
		if got := s.Gear.Steady(2, out, 2).Depth; !ok || math.Abs(got-depth) > 1e-3 {
			t.Errorf("%g m of cable bring the fish to %g m, want %g", out, got, depth)
		}
	}
	if _, ok := CableFor(&s.Gear, 5, 2, 110); ok {
		t.Error("120 m of cable at 10 knots bring the fish to 110 m")
	}
}
