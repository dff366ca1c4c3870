package app

import (
	"image"
	"testing"
	"time"

	"dryline/sim/coach"

	"github.com/hajimehoshi/ebiten/v2"
)

// Notices are sentences.
func TestNoticesAreSentences(t *testing.T) {
	for _, row := range []struct{ says, want string }{
		{"a line is logged: stop the log first", "A line is logged: stop the log first."},
		{"sim: the exercise is over", "The exercise is over."},
		{"Once more ends it.", "Once more ends it."},
		{"élan", "Élan."},
		{"", ""},
	} {
		if got := sentence(row.says); got != row.want {
			t.Errorf("%q: got %q, want %q", row.says, got, row.want)
		}
	}
}

// An alarm outranks what is under the pointer, and a notice but for its first
// moment.
func TestStripShowsWhatIsUrgent(t *testing.T) {
	g, w := fallWatch(t, "first-line", 2)
	w.side.tab = tabSonar
	g.screen = w
	g.ui.Container = w.Build(g, g.area())
	dst := ebiten.NewImage(1280, 720)
	defer dst.Deallocate()
	for _, row := range []struct {
		name, notice, hover string
		age                 time.Duration
		severity            coach.Severity
		want                string
	}{
		{"a note", "", "", 0, coach.Note, "Note: Mind it."},
		{"a note, the pointer on a control", "", "It hauls in.", 0, coach.Note, "It hauls in."},
		{"an alarm, the pointer on a control", "", "It hauls in.", 0, coach.Alarm, "Alarm: Mind it."},
		{"a caution and a notice", "No.", "", 8 * time.Second, coach.Caution, "No."},
		{"an alarm and a fresh notice", "No.", "", time.Second / 60, coach.Alarm, "No."},
		{"an alarm and a notice", "No.", "", 8 * time.Second, coach.Alarm, "Alarm: Mind it."},
	} {
		v := *w.view
		v.Hints = []coach.Hint{{Severity: row.severity, Text: "Mind it."}}
		g.say(row.notice)
		w.view, g.noticeAge, g.hover = &v, row.age, row.hover
		says := ""
		watched(g, dst, func(s string, at image.Rectangle) {
			if at.Min.Y >= g.area().Max.Y {
				says = s
			}
		})
		if says != row.want {
			t.Errorf("%s: the strip says %q, want %q", row.name, says, row.want)
		}
	}
}

// What was begun with one contact is not continued with another, and without
// one nothing is begun.
func TestNothingIsBegunWithoutAContact(t *testing.T) {
	g, w := fallWatch(t, "first-line", 5)
	p := &w.side.contacts
	begin := func() { w.onContact(g, func(p *contactsPage) { p.editing, p.classing = true, true }) }
	w.contacts.chosen = 0
	begin()
	if p.editing || p.classing || g.Notice == "" || w.side.tab == tabContacts {
		t.Errorf("without a contact: name %v, class %v, notice %q; want neither and a word why", p.editing, p.classing, g.Notice)
	}
	w.contacts.chosen = 1
	begin()
	if !p.editing || !p.classing || w.side.tab != tabContacts {
		t.Error("with a contact chosen nothing is begun")
	}
	w.contacts.chosen = 2
	p.settle(w.Watch)
	if p.editing || p.classing {
		t.Error("it is continued with the next contact")
	}
	begin()
	w.contacts.drop()
	p.settle(w.Watch)
	if p.editing || p.classing {
		t.Error("it is continued when the contact is dropped")
	}
}
