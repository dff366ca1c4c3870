package debrief

import (
	"fmt"
	"math"
	"testing"

	"dryline/seabed"
	"dryline/sim/exercise"
	"dryline/sim/mark"
)

// grid is a long line past blocks of several sizes on both sides, at several ranges and
// headings, so far apart that no shadow meets another.
func grid(t testing.TB) *exercise.Exercise {
	ex := oneLine(small(t))
	ex.Seabed.North = 1400
	ex.Lines[0].B.Y = 1240
	ex.Plan.TimeLimit = 3600
	ex.Seabed.Objects = nil
	n := 0
	for y := 250.0; y < 1220; y += 22 {
		for _, side := range []float64{-1, 1} {
			length := []float64{2, 3, 4.5}[n%3]
			ex.Seabed.Objects = append(ex.Seabed.Objects, seabed.Object{
				Name: fmt.Sprint("b", n), Kind: "block", At: seabed.Point{X: 100 + side*[]float64{14, 22, 30, 37}[n%4], Y: y + 5*side},
				Heading: float64(n) * 0.7, Length: length, Width: length * 0.7, Height: []float64{0.8, 1.2, 1.7}[n%3],
			})
			n++
		}
	}
	return ex
}

// What the lookout measures of boxes at all headings and ranges is within its stated
// uncertainty (k = 2) in 90 to 99 of 100, which is no more than 2.5 times the rms error:
// the difference over the uncertainty as in ISO/IEC 17043.
func TestSizesAgainstTheTruth(t *testing.T) {
	if testing.Short() {
		t.Skip("flies a long line")
	}
	s := run(t, grid(t))
	m := prepare(s.Session, s.Truth)
	type tally struct {
		n, in           int
		squares, stated float64
	}
	var length, height tally
	add := func(t *tally, x, truth, sigma float64) {
		t.n++
		t.squares += (x - truth) * (x - truth)
		t.stated += 2 * sigma
		if math.Abs(mark.En(x, truth, 2*sigma, 0)) <= 1 {
			t.in++
		}
	}
	for k := range s.Desk.Contacts {
		if m.matched.objects[k] < 0 {
			continue
		}
		o, d := &s.Exercise.Seabed.Objects[m.matched.objects[k]], s.Desk.Dimensions(&s.Desk.Contacts[k])
		add(&length, d.Length.Metres, o.Length, d.Length.Sigma)
		if d.Height.Known {
			add(&height, d.Height.Metres, o.Height, d.Height.Sigma)
		}
	}
	for name, got := range map[string]tally{"length": length, "height": height} {
		rms, stated := math.Sqrt(got.squares/float64(got.n)), got.stated/float64(got.n)
		if share := 100 * float64(got.in) / float64(got.n); got.n < 70 || share < 90 || share > 99 || stated > 2.5*rms {
			t.Errorf("%s: %.0f %% of %d within the stated uncertainty of %.2f m, rms error %.2f m", name, share, got.n, stated, rms)
		}
	}
}
