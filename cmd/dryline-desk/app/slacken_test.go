package app

import (
	"math/rand/v2"
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

// However place and speed are measured, time slackens once at the start of a line and once at its end, and again when she
// turns back for another run at it.
func TestTimeSlackensHoweverSpeedIsMeasured(t *testing.T) {
	g := NewGame(&memory{}, false)
	g.Resize(1280, 720, 1)
	w := onTheLine(t, g)
	line := w.helm.chosen()
	track := line.Track(w.helm.reversed)
	for seed := range uint64(40) {
		rng := rand.New(rand.NewPCG(seed, 9))
		w.slacken = slacken{}
		starts, ends := 0, 0
		run := func(step float64) {
			for along := -60.0; along < track.Length()+30; along += step {
				v := *w.view
				share := (along + 0.1*rng.NormFloat64()) / track.Length()
				v.Fix.X, v.Fix.Y = track.AX+share*(track.BX-track.AX), track.AY+share*(track.BY-track.AY)
				v.Fix.Speed = 2.1 + 0.15*rng.NormFloat64()
				if v.Bridge.Logging = ""; along > 3 {
					v.Bridge.Logging = line.Name
				}
				w.view = &v
				switch says := w.slacken.ends(w.Watch); {
				case strings.Contains(says, "start"):
					starts++
				case strings.Contains(says, "end"):
					ends++
				}
			}
		}
		run(0.7) // twenty times the pace of the water, sixty times a second
		run(0.04)
		if starts != 2 || ends != 2 {
			t.Fatalf("seed %d: on two runs time slackens %d times at the start and %d at the end, want 2 and 2", seed, starts, ends)
		}
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
