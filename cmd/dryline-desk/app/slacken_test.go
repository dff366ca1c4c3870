package app

import (
	"strings"
	"testing"

	"dryline/scenarios"
)

// Hurried time slackens as the fish comes to the start of the line, once: hurried again it
// runs on.
func TestTimeSlackensAtTheStartOfALine(t *testing.T) {
	g := NewGame(&memory{}, false)
	g.Resize(1280, 720, 1)
	w := onTheLine(t, g)
	w.pace.set(10, false)
	reached := false
	for range 200 {
		w.crew.Pass(0.1, 1e12)
		w.view = w.crew.View()
		w.slackenTime(g, nil)
		if w.pace.rate == 1 {
			reached = true
			break
		}
	}
	if !reached || !strings.Contains(g.Notice, "start of A") {
		t.Fatalf("time runs at %g times; %q", w.pace.rate, g.Notice)
	}
	along, _ := w.helm.chosen().Track(false).Offset(w.view.Fix.X, w.view.Fix.Y)
	if along > 0 || along < -30 {
		t.Errorf("the fish is %.0f m along the line", along)
	}
	w.pace.set(10, false)
	if g.ageNotice(false); g.Notice != "" {
		t.Errorf("time is hurried again and it still says %q", g.Notice)
	}
	for range 20 {
		w.crew.Pass(0.1, 1e12)
		w.view = w.crew.View()
		w.slackenTime(g, nil)
	}
	if w.pace.rate != 10 {
		t.Errorf("hurried again it runs at %g times: %q", w.pace.rate, g.Notice)
	}
}

// onTheLine is a watch of the first exercise on its run-in.
func onTheLine(t *testing.T, g *Game) *Duty {
	t.Helper()
	ex, err := scenarios.Find("first-line")
	if err != nil {
		t.Fatal(err)
	}
	s, err := Start(g, ex)
	if err != nil {
		t.Fatal(err)
	}
	w := s.(*Duty)
	w.Build(g, g.area())
	return w
}
