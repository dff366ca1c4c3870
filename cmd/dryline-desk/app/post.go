package app

import (
	"io"
	"slices"
	"time"

	"dryline/cmd/dryline-desk/crew"
	"dryline/sim/exercise"
	"dryline/sim/order"
)

// hands are the crew as the watch knows it: orders and time go in, and what a
// trainee may see comes out. The session is the crew's own.
type hands interface {
	Give(...order.Command)
	Pass(seconds float64, budget time.Duration)
	SetRate(rate float64, paused bool)
	View() *crew.View
	Rows([]crew.Ping) []crew.Ping
	Tiles(most int) []*crew.Tile
	Close()

	// For the journal.
	Name() string
	Files() []exercise.File
	Hurry()
	Written()
	Reached(tick int64) crew.Record
	Interrupted() crew.Record
	WriteLog(io.Writer) error
}

// post is shared by the parts of a watch: what is known of the exercise, the crew
// that takes orders, and what there is to see at the moment.
type post struct {
	brief *exercise.Brief
	crew  hands
	view  *crew.View
}

// lines are those of the exercise, unless they are set aside, and those that were added.
func (p *post) lines() []exercise.Line {
	if p.view.Own {
		return p.view.Added
	}
	return slices.Concat(p.brief.Lines, p.view.Added)
}

// toRun are those to be run, in the order of the plan and then as they were added.
func (p *post) toRun() []exercise.Line {
	return exercise.ToRun(p.view.Order, slices.Concat(p.brief.Lines, p.view.Added), len(p.brief.Lines))
}

// give passes orders on.
func (p *post) give(orders ...order.Command) { p.crew.Give(orders...) }
