package sim

import (
	"dryline/sim/record"
	"dryline/sim/survey"
	"dryline/vessel/nav"
)

// Keep has a session's pings and readings put into a store as they come in. Ask
// for it before the first step. Should the store fail, the session goes on without,
// and [record.Store.Err] says why.
func Keep(s *Session, to *record.Store) {
	s.kept = to
	s.Observe(Observer{
		Open:    to.StartLine,
		Line:    func(*survey.LineRecord) { to.EndLine() },
		Ping:    func(p *Ping) { to.Append(&p.Ping, &s.Desk.Recorder) },
		Reading: func(r *nav.Reading) { to.Read(r) },
	})
}

// KeepLogged is Keep for the pings of the lines alone, which with the readings are all
// that products are made of and that the desk works up again.
func KeepLogged(s *Session, to *record.Store) {
	s.kept = to
	s.Observe(Observer{
		Open: to.StartLine,
		Line: func(*survey.LineRecord) { to.EndLine() },
		Ping: func(p *Ping) {
			if p.Line != "" {
				to.Append(&p.Ping, &s.Desk.Recorder)
			}
		},
		Reading: func(r *nav.Reading) { to.Read(r) },
	})
}

var _ Recorded = (*record.Store)(nil)
