package survey

import (
	"math"
	"strings"
	"testing"
)

// The example of IHO C-13, chapter 4, 2.3.10.3: 5, 10, 1.5, 0.75 and 1.0 m come to
// 11.4 m, one standard deviation; 2.45 of them hold 95 % (IHO S-44 6.1.0, 2.7).
func TestErrorBudgetOfC13(t *testing.T) {
	b := Budget{TermVessel: 5, TermFish: 10, TermSound: 1.5, TermTrace: 0.75, TermSlope: 1}
	if got := math.Round(10*b.Sum()) / 10; got != 11.4 && got != 11.3 || math.Abs(b.Sum()-11.35) > 0.005 {
		t.Errorf("the sum is %.3f m, published 11.4", b.Sum())
	}
	if math.Abs(b.Radius()-27.8) > 0.05 {
		t.Errorf("95 %% within %.2f m, want 27.8", b.Radius())
	}
	// What is worked out for 150 m of range and 100 m of layback is that example.
	d := north(t)
	if got := d.BudgetAt(150, 100, 0); math.Abs(got.Sum()-b.Sum()) > 1e-9 {
		t.Errorf("worked out %v, want %v", got, b)
	}
	if err := d.StateError(TermFish, 2); err != nil {
		t.Fatal(err)
	}
	if got := d.BudgetAt(150, 100, 0); got[TermFish] != 2 || got[TermVessel] != 5 {
		t.Errorf("stated, it is %v", got)
	}
	if d.StateError("luck", 1) == nil || d.StateError(TermFish, -1) == nil {
		t.Error("a term that is none, or less than nothing, was taken")
	}
	d.Review.Errors = nil
	if got := d.BudgetAt(100, 0, 0.1)[TermFish]; math.Abs(got-100*math.Sin(0.1)) > 1e-9 {
		t.Errorf("a crab of 0.1 turns what is 100 m off by %.2f m, want %.2f", got, 100*math.Sin(0.1))
	}
}

// The depth over a contact is fish depth + height - its height - tide: 7.5 + 6 - 2 - 0.8
// is 10.7 m. Without a tide it is not reduced.
func TestDepthOverIsAnEstimate(t *testing.T) {
	d := north(t)
	d.Lines[0].Pings[60].Fix.Depth = 7.5
	n, _ := d.Mark(12, 30, 160, 0)
	if err := d.Measure(n, Shadow, 12, 30, 18, 30, 160, 0); err != nil {
		t.Fatal(err)
	}
	c := &d.Contacts[0]
	if got := d.DepthOver(c); !got.Known || got.Reduced || math.Abs(got.Metres-11.5) > 1e-9 || !(got.Sigma > 0.1 && got.Sigma < 0.5) {
		t.Errorf("not reduced: %+v", got)
	}
	before := d.DepthOver(c).Sigma
	d.Turn(KnobTide, 0.8)
	if got := d.DepthOver(c); !got.Reduced || math.Abs(got.Metres-10.7) > 1e-9 || got.Sigma <= before {
		t.Errorf("reduced: %+v", got)
	}
}

// Sizes say how sure they are: a shadow of 6 m is told to samples of 5 cm, a length
// along the track to the half metre between pings; a height taken on two passes that
// disagree is as unsure as they.
func TestDimensionsHaveUncertainty(t *testing.T) {
	d := north(t)
	n, _ := d.Mark(12, 30, 160, 0)
	d.Measure(n, Shadow, 12, 30, 18, 30, 160, 0)
	d.Measure(n, Length, 12, 28, 12, 32, 160, 0)
	c := &d.Contacts[0]
	got := d.Dimensions(c)
	// Two ends of two cells each: sqrt(2) 2 w/sqrt(12), w 0.5 m along, 0.05 R/G across.
	along := math.Sqrt2 * 2 * 0.5 / math.Sqrt(12)
	slant := math.Hypot(15, 6)
	across := math.Sqrt2 * 2 * 0.05 * slant / 15 / math.Sqrt(12)
	if math.Abs(got.Length.Sigma-along) > 1e-3 || math.Abs(got.Shadow.Sigma-across) > 1e-4 || got.Width.Known {
		t.Errorf("got %+v, want %.3f and %.4f m", got, along, across)
	}
	if s := got.Height.Sigma; !(s > 0.01 && s < 0.06) {
		t.Errorf("the height is 2 +- %.3f m", s)
	}
	// On a picture of 0.2 m a pixel each end is told to one of them either way: a standard deviation of 0.2/sqrt(3).
	d.Measure(n, Shadow, 12, 30, 18, 30, 160, 0.2)
	if got, want := d.Dimensions(&d.Contacts[0]).Shadow.Sigma, math.Hypot(across, math.Sqrt2*0.2/math.Sqrt(3)); math.Abs(got-want) > 1e-4 {
		t.Errorf("on a picture of 0.2 m a pixel the shadow is good to %.3f m, want %.3f", got, want)
	}
	c = &d.Contacts[0]
	c.Measures = append(c.Measures, Measure{What: Shadow, Run: 2, Height: 1})
	c.Height = c.MeanHeight()
	if s := d.Dimensions(c).Height.Sigma; math.Abs(c.Height-1.5) > 1e-9 || math.Abs(s-0.5) > 1e-9 {
		t.Errorf("2 and 1 m are %.2f +- %.3f m, want 1.5 +- 0.5", c.Height, s)
	}
}

// Nobody gets it printed that somewhere is clear; other uses of the word are let be.
func TestNobodyClaimsThatAnAreaIsClear(t *testing.T) {
	for _, text := range []string{
		"Area clear.", "the area is clear", "Area found to be clear of hazards", "cleared of all obstructions", "seabed clear", "The sea bed looks all clear",
		"route has been cleared", "clear ground", "survey area now clear of mines", "line B clear of contacts", "everything clear",
	} {
		if err := CheckText(text); err == nil || !strings.Contains(err.Error(), "never shows") {
			t.Errorf("%q was taken", text)
		}
	}
	for _, text := range []string{"a clear shadow", "the echo stands clear of the bottom", "water clear, wind light", "line B run again, 20 m clear of the buoy", "not clear what it is"} {
		if err := CheckText(text); err != nil {
			t.Errorf("%q was refused: %v", text, err)
		}
	}
}
