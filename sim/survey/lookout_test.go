package survey

import (
	"math"
	"math/rand/v2"
	"testing"
)

// slope is a line of invented pings over even ground with speckle: a thing of a
// length along track and a shadow, by exact geometry, at a ground range.
func slope(height, at, length, width, tall float64) (*lookout, *LineRecord) {
	const bin, rows = 0.05, 400
	rng := rand.New(rand.NewPCG(5, 6))
	r := Recorder{RangeScale: 50, Samples: 1000, Nominal: 4000, Channels: []string{"450"}}
	l := newLookout(r)
	line := newLineRecord("L1", Track{BY: 100}, r)
	tip := at + width + (at+width)*tall/(height-tall) // similar triangles from the far top edge
	for i := range rows {
		y := 0.14 * float64(i)
		f := Fix{Time: float64(i) / 15, Y: y}
		port, starboard := make([]float32, r.Samples), make([]float32, r.Samples)
		for k := range port {
			slant := (float64(k) + 0.5) * bin
			if slant < height {
				continue
			}
			g := math.Sqrt(slant*slant - height*height)
			level := 1.0
			if math.Abs(y-28) < length/2 {
				switch {
				case g >= at && g < at+0.3:
					level = 12
				case g >= at+width && g < tip:
					level = 0.05
				}
			}
			port[k] = float32(math.Sqrt(rng.ExpFloat64()))
			starboard[k] = float32(level * math.Sqrt(rng.ExpFloat64()))
		}
		line.addPing(Ping{Number: uint64(i), Fix: f}, height, true)
		l.addRow(f, height, port, starboard)
	}
	return l, line
}

// A thing on even ground is found once, where it is, with its length and, from
// its shadow, its height (similar triangles; IHO C-13, chapter 4, 2.3.11.4).
func TestLookoutFindsAThing(t *testing.T) {
	for _, test := range []struct{ height, at, length, width, tall float64 }{
		{7, 20, 2, 0.6, 0.8}, {7, 35, 6, 1.2, 1.2}, {5, 15, 1.5, 0.5, 0.5},
	} {
		l, line := slope(test.height, test.at, test.length, test.width, test.tall)
		found := l.search(line)
		if len(found) != 1 {
			t.Errorf("%+v: %d contacts, want 1: %+v", test, len(found), found)
			continue
		}
		c := found[0]
		if c.Side != "starboard" || math.Abs(c.Range-test.at) > 0.7 || math.Abs(c.Y-28) > 0.5 {
			t.Errorf("%+v: found %s at range %.2f m, %.2f m along", test, c.Side, c.Range, c.Y)
		}
		if math.Abs(c.Length-test.length) > 0.6 {
			t.Errorf("%+v: %.2f m long", test, c.Length)
		}
		if math.Abs(c.Height-test.tall) > 0.15*test.tall+0.05 {
			t.Errorf("%+v: %.2f m tall by its shadow of %.2f m", test, c.Height, c.Shadow)
		}
	}
}

// Even ground has no contacts in it, however long one looks.
func TestLookoutLeavesEvenGroundAlone(t *testing.T) {
	l, line := slope(7, 20, 0, 0.6, 0.8)
	if found := l.search(line); len(found) != 0 {
		t.Errorf("%d contacts on even ground: %+v", len(found), found)
	}
}

// Two sightings of one place are one contact with the mean of both; two on one
// line are two.
func TestCorrelate(t *testing.T) {
	a := Contact{Lines: []string{"L1"}, X: 10, Y: 10, Shadow: 2, Height: 1}
	b := Contact{Lines: []string{"L2"}, X: 13, Y: 10, Shadow: 3, Height: 2}
	far := Contact{Lines: []string{"L2"}, X: 40, Y: 10}
	same := Contact{Lines: []string{"L1"}, X: 12, Y: 10}
	marks := func(lines ...[]Contact) []Contact {
		d := new(Desk)
		for _, found := range lines {
			d.correlate(found)
		}
		return d.Contacts
	}
	got := marks([]Contact{a, same})
	if len(got) != 2 {
		t.Fatalf("two things on one line became %d", len(got))
	}
	got = marks([]Contact{a}, []Contact{b, far})
	if len(got) != 2 || got[0].X != 11.5 || got[0].Height != 1.5 || len(got[0].Lines) != 2 || got[1].Number != 2 {
		t.Errorf("got %+v", got)
	}
}
