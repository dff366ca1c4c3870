package trial

import (
	"fmt"
	"math"
)

// Reckoning adds up what a plan costs by the planner's own figures. What no figure was given for
// is left out.
type Reckoning struct {
	Hours       float64  `json:"hours"`    // all together
	Lines       float64  `json:"lines_h"`  // the plan as flown
	Infill      float64  `json:"infill_h"` // filling in
	Investigate *float64 `json:"investigation_h,omitempty"`
	Contacts    *float64 `json:"contacts,omitempty"` // to be looked at again
	Checks      *float64 `json:"checks_h,omitempty"`
	Days        *float64 `json:"days,omitempty"`
	Fuel        *float64 `json:"fuel_l,omitempty"`
	Cost        *float64 `json:"cost,omitempty"`
}

// reckon adds up a plan's time and cost.
func (t *Trial) reckon(j *Judged, mine []*Outcome, area float64) *Reckoning {
	c := &t.Spec.Costs
	logged := MeanOf(values(mine, func(o *Outcome) float64 { return o.Logged })).Mean
	r := &Reckoning{Lines: j.Time.Mean / 3600}
	r.Infill = (1 - j.Coverage.Once) * logged / 3600
	if c.Infill != nil {
		r.Infill = *c.Infill / 100 * logged / 3600
	}
	r.Hours = r.Lines + r.Infill
	if c.Investigate != nil {
		per := t.Spec.FalseAlarms
		if c.Contacts != nil {
			per = *c.Contacts
		}
		contacts := per*area + j.All.P*float64(total(t.Spec.Targets))
		hours := contacts * *c.Investigate / 60
		r.Contacts, r.Investigate = &contacts, &hours
		r.Hours += hours
	}
	if c.Day != nil {
		checks := 0.0
		if c.Checks != nil {
			checks = *c.Checks / 60
		}
		days := math.Ceil(r.Hours / max(*c.Day-checks, 0.1))
		all := days * checks
		r.Days, r.Hours = &days, r.Hours+all
		if c.Checks != nil {
			r.Checks = &all
		}
	} else if c.Checks != nil {
		one := *c.Checks / 60
		r.Checks, r.Hours = &one, r.Hours+one
	}
	if c.Fuel != nil {
		v := *c.Fuel * r.Hours
		r.Fuel = &v
	}
	if c.Hour != nil {
		v := *c.Hour * r.Hours
		r.Cost = &v
	}
	return r
}

// sure says how sure it is that the first plan finds more than the second.
func (r *Result) sure(first, second string) string {
	p, ok := r.Between(first, second)
	if !ok {
		return ""
	}
	d := &p.Detection
	told := fmt.Sprintf("%+.1f points (%+.1f to %+.1f, 95 %%, on the same %d runs)", 100*d.Mean, 100*d.Low, 100*d.High, r.Runs)
	switch {
	case d.Low > 0:
		return fmt.Sprintf("%s finds more than %s: %s.", first, second, told)
	case d.Mean == 0 && d.Low == 0 && d.High == 0:
		return fmt.Sprintf("%s and %s found the same in every run.", first, second)
	default:
		return fmt.Sprintf("%s and %s are not told apart: %s. More runs, or choose by time and cost.", first, second, told)
	}
}
