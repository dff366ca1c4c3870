package survey

import (
	"math"
	"math/rand/v2"
	"testing"

	"dryline/vessel/nav/geodesy"
)

// slope is a line of invented pings over even ground with speckle: a thing of a
// length along track and a shadow, by exact geometry, at a ground range.
func slope(height, at, length, width, tall float64) (*lookout, *LineRecord) {
	tip := at + width + (at+width)*tall/(height-tall) // similar triangles from the far top edge
	return over(height, func(y, g float64) float64 {
		switch {
		case math.Abs(y-28) >= length/2:
		case g >= at && g < at+0.3:
			return 12
		case g >= at+width && g < tip:
			return 0.05
		}
		return 1
	})
}

// over is a line of invented pings with speckle, over ground that to starboard has a
// level by way along the line and ground range.
func over(height float64, level func(y, g float64) float64) (*lookout, *LineRecord) {
	const bin, rows = 0.05, 400
	rng := rand.New(rand.NewPCG(5, 6))
	r := Recorder{RangeScale: 50, Samples: 1000, Nominal: 4000, Channels: []string{"450"}}
	l := newLookout(r)
	line := newLineRecord("L1", geodesy.Track{BY: 100}, r)
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
			port[k] = float32(math.Sqrt(rng.ExpFloat64()))
			starboard[k] = float32(level(y, g) * math.Sqrt(rng.ExpFloat64()))
		}
		line.addPing(Ping{Number: uint64(i), Fix: f}, height, true)
		l.addRow(f, height, port, starboard)
	}
	return l, line
}

// An islet 14 dB brighter than the floor and without a shadow, as gravel is over mud
// (12.5 dB by TR 9407 at these angles), is ground and no thing. A thing that glints, half sunk in sand that is itself
// 5 dB over the survey's ordinary floor, is one.
func TestLookoutTellsThingsFromGround(t *testing.T) {
	islet := func(y, g float64) float64 {
		if math.Hypot((y-28)/1.6, (g-24)/1.1) < 1 {
			return 5
		}
		return 1
	}
	l, line := over(7, islet)
	if found := l.search(line); len(found) > 0 {
		t.Errorf("an islet of gravel is marked: %+v", found)
	}
	glint := func(y, g float64) float64 {
		if math.Abs(y-28) < 3 && g >= 14 && g < 14.6 {
			return 22
		}
		return 1.8
	}
	l, line = over(7, glint)
	if found := l.search(line); len(found) != 1 {
		t.Errorf("a pipe half sunk in bright sand: %d contacts, want 1", len(found))
	}
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

// A line searched in stretches has the contacts of one searched whole, wherever
// the stretches meet, and holds no more than a stretch at a time.
func TestLookoutFindsTheSameInStretches(t *testing.T) {
	const bin, rows, height = 0.05, 9000, 7.0
	r := Recorder{RangeScale: 30, Samples: 600, Nominal: 4000, Channels: []string{"450"}}
	whole, parts := newLookout(r), newLookout(r)
	parts.most = 1000 * parts.width
	line := newLineRecord("L1", geodesy.Track{BY: 2000}, r)
	rng := rand.New(rand.NewPCG(7, 8))
	port, starboard := make([]float32, r.Samples), make([]float32, r.Samples)
	most := 0
	for i := range rows {
		y := 0.21 * float64(i)
		f := Fix{Time: float64(i) / 15, Y: y}
		for k := range port {
			g := math.Sqrt(max(math.Pow((float64(k)+0.5)*bin, 2)-height*height, 0))
			level := 1.0
			if math.Mod(y, 37) < 2 { // a thing every 37 m
				switch {
				case g >= 15 && g < 15.3:
					level = 12
				case g >= 15.6 && g < 18:
					level = 0.05
				}
			}
			port[k] = float32(math.Sqrt(rng.ExpFloat64()))
			starboard[k] = float32(level * math.Sqrt(rng.ExpFloat64()))
		}
		line.addPing(Ping{Number: uint64(i), Fix: f}, height, true)
		whole.addRow(f, height, port, starboard)
		parts.addRow(f, height, port, starboard)
		most = max(most, len(parts.where))
	}
	want, got := whole.search(line), parts.search(line)
	if len(want) < 50 || len(got) != len(want) {
		t.Fatalf("%d contacts in stretches, %d in one, want some fifty", len(got), len(want))
	}
	for i := range got {
		if math.Abs(got[i].Y-want[i].Y) > 0.5 || math.Abs(got[i].Range-want[i].Range) > 0.2 || got[i].Side != want[i].Side {
			t.Errorf("contact %d: got %+v, in one stretch %+v", i, got[i], want[i])
		}
	}
	if most > 1100 {
		t.Errorf("%d rows were held, want little more than a stretch of 1000", most)
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
