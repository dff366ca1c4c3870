package order

import (
	"dryline/sim/exercise"
	"dryline/sim/survey"
	"dryline/sim/survey/coverage"
	"dryline/sonar/recorder"
)

// Ship is where orders take effect: helm, engine and winch, the sonar, the log
// and the surveyor's desk.
type Ship interface {
	// Develop has the desk take every ping sent so far.
	Develop()

	Steer(Command) // the helm keeps to it until the next
	SetSpeed(metresPerSecond float64)
	SetCable(metresOut float64)
	ZeroCounter(metres float64)
	Happen(exercise.Event) // with the next tick

	// RefuseCall says why another vessel cannot be called by her name now, nil if she
	// can; her master answers in a while.
	RefuseCall(name string) error
	Call(name string)

	// RefuseAlongside says why nothing can be done to the fish by hand now, nil if it can.
	// Rub rubs the transducers of a side; Mend sees to its plugs and leads, in a while.
	RefuseAlongside() error
	Rub(exercise.Beam)
	Mend()

	Say(text string) // to the helmsman, who carries it out in a while

	Channels() []string // of the sonar, in turn

	// RefuseMobilise says why the desk cannot begin with other settings, nil if it can;
	// Mobilise has it, and the sonar, set up anew with them.
	RefuseMobilise(change func(*survey.Settings)) error
	Mobilise(change func(*survey.Settings))

	// AdjustDesk changes how the desk places the fish.
	AdjustDesk(change func(*survey.Settings))

	OpenLine(name string, reversed bool)
	CloseLine()

	// RefuseRange and RefuseReceiver say why the sonar cannot be set now, nil if it
	// can; setting it then does not fail.
	RefuseRange(metres float64) error
	SetRange(metres float64)
	RefuseReceiver() error
	SetReceiver(channel string, change func(*recorder.Receiver))

	// Contacts has the desk work on its contacts at a time, seconds, whole or, with
	// an error, not at all; with rehearse set it only says whether it could.
	Contacts(rehearse bool, work func(d *survey.Desk, now float64) error) error

	// AddLine adds a line to those of the exercise, to be run as they are.
	AddLine(exercise.Line)

	// RefuseOwnLines says why the lines given are run as they are, nil if they can be set
	// aside; OwnLines has those that were added run in their place, with run-ins and run-outs of so many metres.
	RefuseOwnLines() error
	OwnLines(runIn, runOut float64)

	// Holidays are those of the area that is to be covered, the largest first, with the
	// lines that would fill them.
	Holidays() ([]coverage.Holiday, error)

	// RefuseRework says why the survey cannot be worked up again from its record, nil
	// if it can; Rework does it, whole or, with an error, not at all.
	RefuseRework() error
	Rework() error

	Finish()
}
