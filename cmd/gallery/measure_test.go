package main

import (
	"math"
	"slices"
	"sync"
	"testing"

	"dryline/sonar"
)

// flown keeps the record of each view for the tests that ask for it.
var flown sync.Map

// left and right are the records of the plate's halves.
func left(t *testing.T, file string) *measured  { t.Helper(); return halfOf(t, file, false) }
func right(t *testing.T, file string) *measured { t.Helper(); return halfOf(t, file, true) }

func halfOf(t *testing.T, file string, right bool) *measured {
	t.Helper()
	for _, p := range all() {
		if p.file != file {
			continue
		}
		v := &p.left
		if right {
			v = &p.right
		}
		get, _ := flown.LoadOrStore(file+v.caption, sync.OnceValues(func() (*measured, error) { return measure(v) }))
		m, err := get.(func() (*measured, error))()
		if err != nil {
			t.Fatal(err)
		}
		return m
	}
	t.Fatalf("there is no plate %q", file)
	return nil
}

// measured is a record with what an ordinary echo is at every sample: on the ground
// of the other side, as what is measured may fill one side all along.
type measured struct {
	*record
	usual [2][]float64
}

func measure(v *view) (*measured, error) {
	r, err := v.fly()
	if err != nil {
		return nil, err
	}
	m := &measured{record: r}
	column := make([]uint16, len(r.heard))
	for side := range m.usual {
		for k := range r.heard[0].sides[side] {
			for i := range r.heard {
				column[i] = r.heard[i].sides[1-side][k]
			}
			slices.Sort(column)
			// The median of a Rayleigh amplitude is 0.939 of its mean: sqrt(4 ln 2/pi).
			m.usual[side] = append(m.usual[side], float64(column[len(column)/2])/0.939)
		}
	}
	return m, nil
}

// pings are those in which the fish is, in truth, from one northing to another.
func (m *measured) pings(from, to float64) (i0, i1 int) {
	return m.pingsBy(from, to, func(p *sonar.Pose) float64 { return p.Y })
}

func (m *measured) pingsBy(from, to float64, of func(*sonar.Pose) float64) (i0, i1 int) {
	i0 = len(m.heard)
	for i := range m.heard {
		if v := of(&m.heard[i].pose); v >= from && v < to {
			i0, i1 = min(i0, i), i+1
		}
	}
	return min(i0, i1), i1
}

// level is the mean amplitude of a side in pings i0 to i1 between slant ranges, over
// the ordinary one there.
func (m *measured) level(side sonar.Side, i0, i1 int, from, to float64) float64 {
	k0, k1 := m.samples(from, to)
	sum, usual := 0.0, 0.0
	for k := k0; k < k1; k++ {
		for i := i0; i < i1; i++ {
			sum += float64(m.heard[i].sides[side][k])
		}
		usual += m.usual[side][k] * float64(i1-i0)
	}
	return sum / usual
}

func (m *measured) samples(from, to float64) (k0, k1 int) {
	n := len(m.usual[0])
	k0 = min(max(int(math.Round(from/m.bin)), 0), n-1)
	return k0, min(max(int(math.Round(to/m.bin)), k0+1), n)
}

// mean is the mean amplitude there, in counts.
func (m *measured) mean(side sonar.Side, i0, i1 int, from, to float64) float64 {
	k0, k1 := m.samples(from, to)
	sum := 0.0
	for i := i0; i < i1; i++ {
		for _, v := range m.heard[i].sides[side][k0:k1] {
			sum += float64(v)
		}
	}
	return sum / float64((i1-i0)*(k1-k0))
}

// find walks from one slant range to another and returns the first where the level in
// a window of so many metres passes the test; the middle of the window, or NaN.
func (m *measured) find(side sonar.Side, i0, i1 int, from, to, window float64, test func(float64) bool) float64 {
	for r := from; r < to; r += m.bin {
		if test(m.level(side, i0, i1, r-window/2, r+window/2)) {
			return r
		}
	}
	return math.NaN()
}

// extremes are the slant ranges of the strongest and the weakest level.
func (m *measured) extremes(side sonar.Side, i0, i1 int, from, to, window float64) (bright, dark float64) {
	most, least := math.Inf(-1), math.Inf(1)
	for r := from; r < to; r += m.bin {
		v := m.level(side, i0, i1, r-window/2, r+window/2)
		if v > most {
			most, bright = v, r
		}
		if v < least {
			least, dark = v, r
		}
	}
	return bright, dark
}

// height is that of the fish over the floor by the bottom track in the middle of the
// pings, depth that of the fish in truth, metres.
func (m *measured) height(i0, i1 int) float64 { return m.heard[(i0+i1)/2].height }
func (m *measured) depth(i0, i1 int) float64  { return m.heard[(i0+i1)/2].pose.Depth() }
func (m *measured) at(i0, i1 int) *sonar.Pose { return &m.heard[(i0+i1)/2].pose }

// differ is the slant range at which a side of two records first differs by more than
// the rounding of sums, two counts.
func differ(a, b *measured, side sonar.Side) float64 {
	first := len(a.usual[0])
	for i := range a.heard {
		for k := range first {
			if math.Abs(float64(a.heard[i].sides[side][k])-float64(b.heard[i].sides[side][k])) > 2 {
				first = k
				break
			}
		}
	}
	return float64(first) * a.bin
}

// correlation of two series of one length.
func correlation(a, b []float64) float64 {
	ma, mb := average(a), average(b)
	ab, aa, bb := 0.0, 0.0, 0.0
	for i := range a {
		x, y := a[i]-ma, b[i]-mb
		ab, aa, bb = ab+x*y, aa+x*x, bb+y*y
	}
	return ab / math.Sqrt(aa*bb)
}

func average(a []float64) float64 {
	sum := 0.0
	for _, v := range a {
		sum += v
	}
	return sum / float64(len(a))
}

func deviation(a []float64) float64 {
	m, sum := average(a), 0.0
	for _, v := range a {
		sum += (v - m) * (v - m)
	}
	return math.Sqrt(sum / float64(len(a)))
}

// near reports on a value that should be another to within a tolerance.
func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	t.Logf("%s: %.3f, expected %.3f", what, got, want)
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: got %.3f, want %.3f to within %.3f", what, got, want, tolerance)
	}
}

// within reports on a value that should lie between two.
func within(t *testing.T, what string, got, low, high float64) {
	t.Helper()
	t.Logf("%s: %.3f", what, got)
	if !(got >= low && got <= high) {
		t.Errorf("%s: got %.3f, want %.3f to %.3f", what, got, low, high)
	}
}
