package remake_test

import (
	"math"
	"slices"
	"testing"

	"dryline/seabed"
	"dryline/sim"
	"dryline/sim/exercise"
	"dryline/sim/record"
	"dryline/sim/remake"
	"dryline/sim/simtest"
	"dryline/sonar/acoustics"
	"dryline/sonar/mosaic"

	"gonum.org/v1/gonum/stat"
)

// field is a flat sea floor with lines of 600 m at some northings, run in turn to
// the east and to the west.
func field(t testing.TB, lines []float64, change func(*exercise.Exercise)) *exercise.Exercise {
	ex := simtest.Small(t)
	simtest.Exact(ex)
	ex.Seabed = seabed.Spec{East: 800, North: 320, Depth: 14, Relief: seabed.Relief{Wavelength: 100}, Base: seabed.MediumSand}
	ex.Lines, ex.Plan.Order = nil, nil
	for i, y := range lines {
		ex.Lines = append(ex.Lines, exercise.Line{Name: string(rune('A' + i)), A: seabed.Point{X: 100, Y: y}, B: seabed.Point{X: 700, Y: y}})
		ex.Plan.Order = append(ex.Plan.Order, exercise.Run{Line: i, Reversed: i%2 == 1})
	}
	ex.Plan.Speed, ex.Plan.TimeLimit = 2.5, 3600
	change(ex)
	return ex
}

// flown is a survey with what the recorder kept.
func flown(t testing.TB, ex *exercise.Exercise) (*sim.Session, *remake.Work) {
	t.Helper()
	s, err := sim.New(ex, 1)
	if err != nil {
		t.Fatal(err)
	}
	backing, err := record.OnDisk(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	store := record.New(backing)
	t.Cleanup(func() { store.Close() })
	sim.Keep(s, store)
	s.AttachMate()
	for !s.Done() {
		s.Advance(200)
	}
	s.Close("finished")
	if len(s.Desk.Lines) != len(ex.Lines) {
		t.Fatalf("%d lines run", len(s.Desk.Lines))
	}
	return s, &remake.Work{Record: store, Lines: s.Desk.Lines, Channel: 0, Prior: s.Prior(0)}
}

// painted is the mosaic of one of the lines, levelled by all.
func painted(t testing.TB, w *remake.Work, line int) *mosaic.Mosaic {
	t.Helper()
	m, err := mosaic.New(0.5, mosaic.Mean)
	if err != nil {
		t.Fatal(err)
	}
	w.Hide = func(i int) bool { return i != line }
	if err := w.Mosaic(m); err != nil {
		t.Fatal(err)
	}
	return m
}

// ground takes the mean of a mosaic over cells where want says so, dB, between 80
// and 10 degrees of grazing from a track to the east at y, on one side of it.
func ground(m *mosaic.Mosaic, y, height float64, north bool, want func(x, y float64) bool) (mean float64, n int) {
	near, far := height/math.Tan(80*math.Pi/180), height/math.Tan(10*math.Pi/180)
	sum := 0.0
	for x := 130.25; x < 670; x += 0.5 {
		for off := math.Ceil(near) + 0.25; off < far; off += 0.5 {
			at := y - off
			if north {
				at = y + off
			}
			if v, looks := m.At(x, at); looks > 0 && want(x, at) {
				sum, n = sum+float64(v), n+1
			}
		}
	}
	return 20 * math.Log10(sum/float64(n)), n
}

// bothWays flies lines of 600 m in turn to the east and to the west.
var bothWays = []float64{110, 160, 210}

// The same ground reads the same whichever line and side saw it and in whatever
// direction the line was run, and one ground against another keeps its contrast:
// as much as the bottom model of TR 9407 (Applied Physics Laboratory, University of
// Washington, 1994) has between the two at the same angles. Mud lies once across
// the lines, so that every line and side sees both grounds, and once to the north of
// a line, so that its sides never see the same.
func TestLevellingKeepsTheGroundAndAddsNothing(t *testing.T) {
	mud := func(corners ...seabed.Point) func(*exercise.Exercise) {
		return func(ex *exercise.Exercise) {
			ex.Seabed.Patches = []seabed.Patch{{Class: seabed.Mud, Area: seabed.Area{Polygon: corners}}}
		}
	}
	for _, test := range []struct {
		name   string
		change func(*exercise.Exercise)
		muddy  func(x, y float64) bool
	}{
		{"across the lines", mud(seabed.Point{X: 400, Y: -500}, seabed.Point{X: 1500, Y: -500}, seabed.Point{X: 1500, Y: 900}, seabed.Point{X: 400, Y: 900}),
			func(x, _ float64) bool { return x > 400 }},
		{"north of a line", mud(seabed.Point{X: -500, Y: 160}, seabed.Point{X: 1500, Y: 160}, seabed.Point{X: 1500, Y: 900}, seabed.Point{X: -500, Y: 900}),
			func(_, y float64) bool { return y > 160 }},
	} {
		t.Run(test.name, func(t *testing.T) {
			if testing.Short() {
				t.Skip("flies a survey of half an hour")
			}
			ex := field(t, bothWays, test.change)
			s, w := flown(t, ex)
			height := s.Desk.Lines[0].Pings[500].Height
			var sand, soft []float64
			for line, y := range bothWays {
				m := painted(t, w, line)
				for _, north := range []bool{false, true} {
					for _, wantMud := range []bool{false, true} {
						mean, cells := ground(m, y, height, north, func(x, y float64) bool { return test.muddy(x, y) == wantMud })
						switch {
						case cells < 10000:
						case wantMud:
							soft = append(soft, mean)
						default:
							sand = append(sand, mean)
						}
					}
				}
			}
			if len(sand) < 3 || len(soft) < 3 {
				t.Fatalf("%d and %d sides of lines to compare", len(sand), len(soft))
			}
			for _, means := range [][]float64{sand, soft} {
				if spread := slices.Max(means) - slices.Min(means); spread > 0.3 {
					t.Errorf("one ground reads %.2f dB apart by line and side, want 0.3: %.2f", spread, means)
				}
			}
			step, want := stat.Mean(sand, nil)-stat.Mean(soft, nil), contrast(t, height)
			if math.Abs(step-want) > 0.5 {
				t.Errorf("mud lies %.2f dB below sand, want %.2f within 0.5", step, want)
			}
			t.Logf("sand %.2f dB, mud %.2f dB; step %.2f, by the model %.2f", sand, soft, step, want)
		})
	}
}

// contrast is how far mud lies below medium sand at 450 kHz, in the mean over the
// ground between 80 and 10 degrees of grazing, dB.
func contrast(t *testing.T, height float64) float64 {
	t.Helper()
	strength := func(s acoustics.Sediment) func(float64) float64 {
		b, err := s.Bottom()
		if err != nil {
			t.Fatal(err)
		}
		model := b.Scattering(450e3, acoustics.Mackenzie(11, 34, 8))
		return model.Strength
	}
	sand, mud := strength(acoustics.MediumSand), strength(acoustics.Mud)
	sum, n := 0.0, 0.0
	for off := height / math.Tan(80*math.Pi/180); off < height/math.Tan(10*math.Pi/180); off += 0.25 {
		grazing := math.Atan2(height, off)
		sum, n = sum+sand(grazing)-mud(grazing), n+1
	}
	return sum / n
}

// Containers in four pings of a hundred on one side of a line leave the other side
// as it is without them, at every angle: on the same seeds its record is the same,
// and what differs in the mosaic is what levelling made of the containers.
func TestTargetsDoNotLevelTheOtherSide(t *testing.T) {
	if testing.Short() {
		t.Skip("flies two surveys of ten minutes")
	}
	line := []float64{160}
	bare := field(t, line, func(*exercise.Exercise) {})
	strewn := field(t, line, func(ex *exercise.Exercise) {
		for i := range 4 {
			ex.Seabed.Objects = append(ex.Seabed.Objects, seabed.Object{
				Name: "container " + string(rune('1'+i)), Kind: "container", At: seabed.Point{X: 200 + 120*float64(i), Y: 172 + 4*float64(i)}, Heading: math.Pi / 2,
			})
		}
	})
	var shown [2]*mosaic.Mosaic
	var height float64
	for i, ex := range []*exercise.Exercise{bare, strewn} {
		s, w := flown(t, ex)
		shown[i], height = painted(t, w, 0), s.Desk.Lines[0].Pings[500].Height
	}
	changed := false
	for degrees := 80.0; degrees > 10; degrees -= 5 {
		near, far := height/math.Tan(degrees*math.Pi/180), height/math.Tan((degrees-5)*math.Pi/180)
		within := func(_, y float64) bool { return math.Abs(y-160) >= near && math.Abs(y-160) < far }
		without, n := ground(shown[0], 160, height, false, within)
		with, _ := ground(shown[1], 160, height, false, within)
		if n > 0 && math.Abs(with-without) > 0.1 {
			t.Errorf("%g to %g degrees: containers on the other side move the mean by %.3f dB, want 0.1", degrees, degrees-5, with-without)
		}
		a, _ := ground(shown[0], 160, height, true, within)
		b, _ := ground(shown[1], 160, height, true, within)
		changed = changed || math.Abs(a-b) > 0.1
	}
	if !changed {
		t.Error("the containers are not on the record")
	}
}
