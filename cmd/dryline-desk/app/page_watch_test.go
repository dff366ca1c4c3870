package app

import (
	"fmt"
	"image"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"dryline/cmd/dryline-desk/panes"
	"dryline/sim/coach"
	"dryline/sim/order"
	"dryline/sim/passage"

	"github.com/hajimehoshi/ebiten/v2"
)

// A line is done when nearly all of it is logged, not when its log was on once.
func TestLinesAreDoneByWhatIsLogged(t *testing.T) {
	_, w := fallWatch(t, "first-line", 2)
	for _, row := range []struct {
		name    string
		shares  map[string]float64
		closed  []string
		logging string
		says    string
		left    []string
	}{
		{"none", nil, nil, "", "A to do; B to do", []string{"A", "B"}},
		{"one barely", map[string]float64{"A": 0.004}, []string{"A"}, "", "A 0 %; B to do", []string{"A (0 % logged)", "B"}},
		{"one in part", map[string]float64{"A": 0.6}, []string{"A"}, "", "A 60 %; B to do", []string{"A (60 % logged)", "B"}},
		{"nearly, and never more than it is", map[string]float64{"A": 0.979}, []string{"A"}, "", "A 97 %; B to do", []string{"A (97 % logged)", "B"}},
		{"one whole, one under way", map[string]float64{"A": 0.98, "B": 0.3}, []string{"A"}, "B", "A done; B logging, 30 %", []string{"B (30 % logged)"}},
		{"both", map[string]float64{"A": 1, "B": 1}, []string{"A", "B"}, "", "A done; B done", nil},
	} {
		v := *w.view
		v.Shares, v.Lines, v.Bridge.Logging = row.shares, row.closed, row.logging
		w.view = &v
		if says := w.linesSay(); !strings.HasPrefix(says, row.says+". ") {
			t.Errorf("%s: %q, want %q", row.name, says, row.says)
		}
		if left := w.linesLeft(); !slices.Equal(left, row.left) {
			t.Errorf("%s: left %q, want %q", row.name, left, row.left)
		}
	}
}

// said collects the remarks of the page of the watch.
func (w *Duty) said(g *Game) (all string) {
	for _, m := range w.remarks(g) {
		all += m.text + "\n"
	}
	return all
}

// She runs along the line by hand, a decimetre off it, and the log is off: the coach
// looks at where she is, not at what the helm was told.
func TestTheCoachSeesALineRunByHand(t *testing.T) {
	g, w, h := begun(t, newShelf())
	line := w.brief.Lines[0]
	for range 30 { // the autopilot finds the line
		h.update(t, g, time.Second/2)
	}
	w.give(order.Command{Do: order.SteerHeading, Value: line.Track(false).Bearing()})
	w.pace.set(5, false)
	for range 400 {
		h.update(t, g, time.Second/10)
		along, _ := line.Track(false).Offset(w.view.Fix.X, w.view.Fix.Y)
		if along < 0 {
			continue
		}
		if along > 30 {
			break
		}
		if _, off := line.Track(false).Offset(w.view.Fix.VesselX, w.view.Fix.VesselY); math.Abs(off) > 3 {
			t.Fatalf("she is %.1f m off the line", off)
		}
	}
	if says := w.said(g); !strings.Contains(says, "past the start of line A and nothing is logged") {
		t.Errorf("the page says %q; want that nothing is logged", says)
	}
}

// Whatever is done to her, all is never well beside a dial that is not calm, and a
// dial past its limit is spoken of.
func TestAllIsWellOnlyWhenEveryDialIsCalm(t *testing.T) {
	g, w, h := begun(t, newShelf())
	line := w.brief.Lines[0]
	bearing := line.Track(false).Bearing()
	states := map[panes.State]int{}
	well := 0
	for n, o := range []order.Command{
		{Do: order.Cable, Value: 60}, {Do: order.LogOn, Line: "A"}, {Do: order.SteerHeading, Value: bearing + 0.05}, {Do: order.Speed, Value: 4},
		{Do: order.Cable, Value: 6}, {Do: order.LogOff}, {Do: order.Speed, Value: 2}, {Do: order.Turn, Line: "B", Reversed: true, Pattern: w.brief.Plan.Turn},
		{Do: order.Cable, Value: 16}, {Do: order.Range, Value: 40},
	} {
		w.give(o)
		w.pace.set(10, false)
		for range 60 {
			h.update(t, g, time.Second/10)
			says, names := w.said(g), []string{}
			for _, d := range w.dials.dials {
				states[d.State]++
				if d.State != panes.Calm {
					names = append(names, strings.ToLower(d.Name))
				}
			}
			if strings.Contains(says, "All well") {
				if well++; len(names) > 0 {
					t.Fatalf("after order %d all is said to be well beside %v", n, names)
				}
			}
			if len(w.view.Hints) == 0 {
				for _, name := range names {
					if !strings.Contains(says, name) {
						t.Fatalf("after order %d %q is not spoken of: %q", n, name, says)
					}
				}
			}
		}
	}
	if states[panes.Beyond] < 20 || states[panes.Watch] == 0 || states[panes.Unknown] == 0 || well < 5 {
		t.Errorf("dials stood %v, and all was well %d times: too little of each", states, well)
	}
}

// However much there is to say, the lines and the first hint are on the page,
// headings stand with their texts, and what found no room is counted.
func TestWatchPageCutsTheLeast(t *testing.T) {
	g, w := fallWatch(t, "first-line", 2)
	g.screen = w
	g.ui.Container = w.Build(g, g.area())
	dst := ebiten.NewImage(1280, 720)
	defer dst.Deallocate()
	long := strings.Repeat("Something to heed about the tow. ", 5)
	type row struct {
		name           string
		hints, mishaps int
		text           string
		more           string
		any            bool // whatever it ends in
	}
	rows := []row{
		{"little", 1, 1, "Mind the winch.", "", false},
		{"much", 4, 3, long, "more", false},
		{"one that fills it", 1, 2, strings.Repeat(long, 5), "2 more", false},
	}
	for n := 3; n < 40; n++ { // that what is left out is counted in sight, whatever fits before it
		rows = append(rows, row{fmt.Sprintf("three hints of %d words", n), 3, 6, strings.Join(strings.Fields(strings.Repeat(long, 3))[:n], " "), "", true})
	}
	for _, row := range rows {
		v := *w.view
		v.Hints, v.Bridge.Alarms = nil, nil
		for range row.hints {
			v.Hints = append(v.Hints, coach.Hint{Severity: coach.Caution, Text: row.text})
		}
		for range row.mishaps {
			v.Bridge.Alarms = append(v.Bridge.Alarms, passage.Alarm{What: passage.Slipped, Says: "the brake slipped"})
		}
		v.Lines = []string{"A"}
		w.view = &v
		var said []string
		watched(g, dst, func(s string, at image.Rectangle) {
			if !at.Min.In(w.at.side) {
				return
			}
			said = append(said, s)
			if at.Min.In(w.side.body) && !at.In(w.side.body) {
				t.Errorf("%s: %q at %v is cut by the panel %v", row.name, s, at, w.side.body)
			}
		})
		body := said[slices.Index(said, "Lines"):]
		all := strings.Join(body, " ")
		if !strings.Contains(all, "minutes left") || !strings.Contains(all, strings.Join(strings.Fields(row.text)[:3], " ")) {
			t.Errorf("%s: %q; want the minutes left and the first hint", row.name, body)
		}
		for i, s := range body {
			if (s == "Caution" || s == "Mishaps") && (i+1 == len(body) || strings.HasSuffix(body[i+1], "more")) {
				t.Errorf("%s: %q stands without its text: %q", row.name, s, body)
			}
		}
		if got := body[len(body)-1]; !row.any && (strings.Contains(got, "more") != (row.more != "") || !strings.HasSuffix(got, row.more)) {
			t.Errorf("%s: it ends in %q, want %q", row.name, got, row.more)
		}
	}
}
