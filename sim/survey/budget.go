package survey

import (
	"fmt"
	"math"
	"slices"
)

// Term names a contribution to the error of a contact's position.
type Term string

// The terms of IHO C-13, chapter 4, 2.3.10.3.
const (
	TermVessel Term = "vessel" // where she is
	TermFish   Term = "fish"   // where the fish is from there
	TermSound  Term = "sound"  // speed of it
	TermTrace  Term = "trace"  // reading the record
	TermSlope  Term = "slope"  // of the floor
)

// Terms lists them.
func Terms() []Term { return []Term{TermVessel, TermFish, TermSound, TermTrace, TermSlope} }

// Budget is one standard deviation of each term, metres.
type Budget map[Term]float64

// Sum is the root of the sum of squares, one standard deviation.
func (b Budget) Sum() float64 {
	sum := 0.0
	for _, t := range Terms() {
		sum += b[t] * b[t]
	}
	return math.Sqrt(sum)
}

// Radius holds 95 %: 2.45 standard deviations in two dimensions (IHO S-44 6.1.0, 2.7).
func (b Budget) Radius() float64 { return 2.45 * b.Sum() }

// CheckTerm refuses what is no term of the error, or none of its values, metres.
func CheckTerm(t Term, metres float64) error {
	if !slices.Contains(Terms(), t) {
		return fmt.Errorf("%q is no term of the error (want one of %v)", t, Terms())
	}
	if !(metres >= 0 && metres <= 1000) {
		return fmt.Errorf("%g m is out of range (want 0 to 1000)", metres)
	}
	return nil
}

// StateError states a term, one standard deviation in metres.
func (d *Desk) StateError(t Term, metres float64) error {
	if err := CheckTerm(t, metres); err != nil {
		return err
	}
	stated := Budget{t: metres}
	for k, v := range d.Review.Errors {
		if k != t {
			stated[k] = v
		}
	}
	d.Review.Errors = stated
	return nil
}

// BudgetAt is the budget for something seen at a slant range with so much layback,
// both metres, and a crab, radians.
//
// What the surveyor stated stands. Else it is in the proportions of the example of C-13,
// 2.3.10.3 (5, 10, 1.5, 0.75 and 1 m at 150 m): 5 m for the vessel, a tenth of the layback
// for the fish, a hundredth of the range for sound, half of that for the trace, 1 m for
// slope. A layback that was calibrated and applied is as good as its total was told; and
// what a crab turns the swath by, if it is laid by the course, goes with the fish.
func (d *Desk) BudgetAt(slant, layback, crab float64) Budget {
	b := Budget{TermVessel: 5, TermFish: 0.1 * math.Abs(layback), TermSound: 0.01 * slant, TermTrace: 0.005 * slant, TermSlope: 1}
	if c := &d.Calibrated; c.Layback != nil && c.Applied != "" {
		b[TermFish] = c.Layback.Total.Sigma
	}
	by := d.Settings.Swath
	if d.Worked != nil && d.Worked.Review.Swath != "" {
		by = d.Worked.Review.Swath
	}
	if by == "" || by == SwathByCourse {
		b[TermFish] = math.Hypot(b[TermFish], slant*math.Sin(crab))
	}
	for t, v := range d.Review.Errors {
		b[t] = v
	}
	return b
}

// BudgetOf is the budget of a contact by its first pass; ok is false for one that was seen
// on no record.
func (d *Desk) BudgetOf(c *Contact) (b Budget, ok bool) {
	p := d.FirstPing(c)
	if p == nil {
		return nil, false
	}
	_, across := p.offset(c.X, c.Y)
	return d.BudgetAt(math.Hypot(across, p.Height), p.Fix.Layback, d.crabAt(p.Fix.Time)), true
}
