package app

import (
	"errors"
	"strings"
	"testing"
	"time"

	"dryline/sim/order"
)

// A notice goes with what it is about, whatever that is, and with its screen.
func TestNoticesEndInTime(t *testing.T) {
	s := newShelf()
	g, w, h := begun(t, s)
	shows := func(when, want string) {
		t.Helper()
		if want == "" && g.Notice != "" || !strings.Contains(g.Notice, want) {
			t.Errorf("%s: %q is shown, want %q", when, g.Notice, want)
		}
	}
	step := func() { h.update(t, g, time.Second/10) }
	w.pace.set(1, true)

	w.end(g)
	step()
	shows("asked whether to end", "ends the exercise for good")
	for range 50 {
		step()
	}
	shows("five seconds later", "")

	w.give(order.Command{Do: order.LogOn, Line: "A"})
	step()
	w.rangeScale(1)
	step()
	shows("a range scale with the log on", "stop the log first")
	step()
	shows("and then", "stop the log first")
	w.helm.toggleLog()
	step()
	step()
	shows("the log off", "")

	w.onContact(g, func(*contactsPage) {})
	step()
	shows("no contact", "No contact is chosen")
	w.give(order.Command{Do: order.Mark, X: 150, Y: 210})
	w.contacts.chosen = 1
	step()
	step()
	shows("a contact", "")

	// Left, its last word is on the next screen, and on no other.
	w.end(g)
	step()
	g.Go(NewChoose())
	step()
	shows("left", "is kept in first-line-3-watch.jsonl")
	again, err := Resume(g, part, s.logs[part])
	if err != nil {
		t.Fatal(err)
	}
	g.Go(again)
	step()
	step()
	step()
	shows("back where it was", "Space starts it again")
	if again.(*Duty).view.Restored < 1 {
		t.Fatal("it is not back")
	}

	// Ended while time stands still: nothing on the debrief of what Space would do.
	again.(*Duty).give(order.Command{Do: order.Finish})
	for range 3 {
		step()
	}
	desk, ok := g.screen.(*Desk)
	if !ok {
		t.Fatalf("%T, want the desk", g.screen)
	}
	shows("on the desk", "")
	desk.askToHandIn(g)
	step()
	shows("asked whether to hand in", "hands it in for good")
	desk.askToHandIn(g)
	for range 8 {
		step()
	}
	if _, ok := g.screen.(*Debrief); !ok {
		t.Fatalf("%T, want the debrief", g.screen)
	}
	shows("on the debrief", "")

	resumeFrom(g, "", "letter.jsonl", []byte("Dear harbour master,\n"), nil)
	step()
	shows("a letter", "letter.jsonl cannot be resumed")
	g.Go(NewChoose())
	step()
	step()
	shows("elsewhere", "")

	// What stays so is said no longer than anything.
	g.sayWhile("So it is", func() bool { return true })
	for range 119 {
		step()
	}
	shows("for a while", "So it is.")
	step()
	step()
	shows("after twelve seconds", "")
}

// Settings that cannot be kept are said to be so until they can.
func TestUnkeptSettingsAreSaidWhileTheyAre(t *testing.T) {
	m := &stubborn{}
	g := NewGame(m, false)
	h := handed(g)
	g.Resize(1280, 720, 1)
	g.Go(NewChoose())
	h.update(t, g, 0)
	m.full = true
	g.Change(func(s *Settings) { s.Theme = "night" })
	h.update(t, g, time.Second)
	if !strings.Contains(g.Notice, "The settings could not be saved") {
		t.Errorf("%q is shown", g.Notice)
	}
	m.full = false
	g.Change(func(s *Settings) { s.Theme = "day" })
	h.update(t, g, time.Second)
	if g.Notice != "" {
		t.Errorf("kept, %q is shown", g.Notice)
	}
}

// stubborn is a store that keeps no settings while it is full.
type stubborn struct {
	memory
	full bool
}

func (s *stubborn) KeepSettings(b []byte) error {
	if s.full {
		return errors.New("no room")
	}
	return s.memory.KeepSettings(b)
}
