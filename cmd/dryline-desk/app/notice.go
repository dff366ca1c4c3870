package app

import "time"

const (
	noticeStays = 12 * time.Second // how long a notice is shown
	// noticeFirst is how long a notice is shown in place of an alarm, for whoever was
	// just refused something has to see why.
	noticeFirst = 2 * time.Second
)

// say has a notice shown at the foot.
func (g *Game) say(says string) { g.sayWhile(says, nil) }

// sayWhile has a notice shown at the foot for as long as what it is about is so,
// though no longer than any other.
func (g *Game) sayWhile(says string, so func() bool) {
	g.Notice, g.noticeSo = sentence(says), so
	g.noticed, g.noticeAge = g.Notice, 0
}

// sayThen has a notice shown with the screen that comes next: others are of the
// screen that goes, and go with it.
func (g *Game) sayThen(says string) { g.parting = sentence(says) }

// ageNotice lets a notice go when it has been shown long enough, when it is no
// longer so, or when it is sent away.
func (g *Game) ageNotice(away bool) {
	if g.Notice != g.noticed { // it was set from outside
		g.sayWhile(g.Notice, nil)
	}
	g.noticeAge += g.passed
	if g.noticeAge > noticeStays || away || g.noticeSo != nil && !g.noticeSo() {
		g.Notice = ""
	}
}

// changeNotice lets the notice go that is of the screen before, and shows what
// was to be said after it.
func (g *Game) changeNotice() {
	g.Notice, g.noticeSo = "", nil
	if g.parting != "" {
		g.say(g.parting)
	}
	g.parting = ""
}
