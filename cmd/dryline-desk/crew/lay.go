package crew

import "dryline/sim/plan"

// Laid is the outcome of laying lines.
type Laid struct {
	Plan   *plan.Plan
	Others []plan.Choice // other directions, and about what they would take
}

// Lay lays lines beside the window, and then others for comparison, quickly.
func Lay(spec plan.Spec) *Task[*Laid] {
	return begin(func(by *progress) (*Laid, error) {
		spec.Step = by.step
		p, err := plan.Make(&spec)
		if err != nil {
			return nil, err
		}
		out := &Laid{Plan: p}
		for _, d := range spec.Directions() {
			other := spec
			other.Auto, other.Bearing, other.Quick = false, d.Bearing, true
			switch q, err := plan.Make(&other); {
			case by.called():
				return nil, ErrCalledOff
			case err == nil:
				d.Lines, d.Line, d.Between, d.Time = len(q.Lines), q.LineLength, q.Between, q.Time
			}
			out.Others = append(out.Others, d)
		}
		return out, nil
	})
}
