package crew

import (
	"time"

	"dryline/sim/report"
	"dryline/sim/survey"
	"dryline/sim/survey/coverage"
)

// Unseen is ground that a line has passed and no ping has seen so far, as the desk has it.
type Unseen struct {
	Holidays     int
	SquareMetres float64
	Rows         [][]coverage.Row // by holiday, the largest first
}

// How often the ground is looked through for what was missed: so many ticks and so much of the machine's time
// apart, and whenever a line is closed.
const (
	lookTicks = 50
	lookWall  = time.Second
)

// unseen follows the survey for it.
type unseen struct {
	live   *coverage.Live
	none   bool // the exercise has no area to cover
	lines  int  // there were, when those to be run were last told
	closed int  // lines, when the ground was last looked through
	tick   int64
	wall   time.Time
	found  *Unseen
}

// take takes a ping in that was logged. The session is held.
func (u *unseen) take(c *Crew, p *survey.LivePing) {
	b := c.session.Brief
	if p.Line == "" || u.none {
		return
	}
	if n := len(b.Lines) + len(b.Added); u.live == nil || n != u.lines {
		var planned []coverage.Planned
		for _, l := range b.ToRun() {
			planned = append(planned, coverage.Planned{Name: l.Name, Track: l.Track(false)})
		}
		u.lines = n
		if u.live == nil {
			var err error
			if u.live, err = coverage.NewLive(report.AreaOf(b), planned); err != nil {
				u.none = true
				return
			}
		} else {
			u.live.Plan(planned)
		}
	}
	u.live.Ping(p.Line, p.Fix, p.Height, p.RangeScale)
}

// look looks the ground through, if that is due. The session is held.
func (u *unseen) look(c *Crew) *Unseen {
	s := c.session
	if u.live == nil || c.behind() {
		return u.found
	}
	closed := len(s.Desk.Lines)
	now := c.clock.now()
	if closed == u.closed && (s.Desk.OpenLine() == nil || s.Ticks()-u.tick < lookTicks || now.Sub(u.wall) < lookWall) {
		return u.found
	}
	if s.Desk.OpenLine() == nil {
		u.live.Close()
	}
	u.closed, u.tick, u.wall = closed, s.Ticks(), now
	found := &Unseen{}
	for _, h := range u.live.Holidays() {
		found.Holidays++
		found.SquareMetres += h.SquareMetres
		found.Rows = append(found.Rows, coverage.Rows(h.Cells(), u.live.Cell()))
	}
	u.found = found
	return found
}
