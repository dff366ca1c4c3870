package exercise

import "dryline/sim/survey"

// asGiven keeps what a session may set aside of its exercise before the first tick.
type asGiven struct {
	plan Plan
	desk survey.Settings
}

func (ex *Exercise) setAside() {
	if ex.given == nil {
		ex.given = &asGiven{ex.Plan, ex.Desk}
	}
}

// Mobilise has the desk begin with other settings than the exercise gives it.
func (ex *Exercise) Mobilise(change func(*survey.Settings)) {
	ex.setAside()
	change(&ex.Desk)
}

// AsGiven is a copy of the exercise as it was before anything was changed in a session.
func (ex *Exercise) AsGiven() *Exercise {
	own := *ex
	own.Added = nil
	if own.given != nil {
		own.Plan, own.Desk, own.given = own.given.plan, own.given.desk, nil
	}
	return &own
}
