package sim

import (
	"dryline/sim/survey"
	"dryline/sonar"
)

// Sparse has the session make those pings alone that wanted picks by their number and
// pose, the same to the byte as if all were made, and leaves the desk out: nothing is
// tracked, levelled or painted. Observers are told of every ping; one that was not made
// carries no samples. A passage does not hang on its pings, so that all else is as it
// would be. Set it before the first step.
//
// It is for trials, which ask of an hour's survey how a handful of objects looked in it.
func (s *Session) Sparse(wanted func(number uint64, pose *sonar.Pose) bool) { s.wanted = wanted }

// tellSparse hands one event to the observers of a session without a desk.
func (s *Session) tellSparse(e *event) {
	switch {
	case e.lineOn != "":
		s.logged = e.lineOn
		s.tellOpen(e.lineOn, e.track)
	case e.lineOff:
		s.logged = ""
	case e.ping != nil:
		seen := survey.Ping{Number: e.ping.number, Fix: e.fix}
		if !e.skipped {
			seen.Port, seen.Starboard = e.ping.echo[sonar.Port].Samples, e.ping.echo[sonar.Starboard].Samples
		}
		s.tellPing(e, seen)
	}
}
