package debrief

import (
	"bytes"
	"strings"
	"testing"

	"dryline/sim/exercise"
)

// The debrief says what went wrong on purpose, when, how much and on which side, and
// nothing of what the crew did itself.
func TestDebriefTellsWhatWentWrongOnPurpose(t *testing.T) {
	ex := small(t)
	ex.Plan.TimeLimit = 40
	ex.Events = []exercise.Event{
		{Kind: exercise.Squall, At: 5, For: 10, Size: 20 * 1852.0 / 3600},
		{Kind: exercise.DeadChannel, At: 12, Side: exercise.StarboardSide},
		{Kind: exercise.CounterReset, At: 500},
		{Kind: exercise.Rubbed, At: 3, For: 4, Side: exercise.PortSide},
	}
	s := run(t, ex)
	r := report(s)
	if len(r.Events) != 2 {
		t.Fatalf("%+v", r.Events)
	}
	wind, dead := r.Events[0], r.Events[1]
	if wind.Says != "20 knots of wind more" || wind.From != 5 || wind.To == nil || *wind.To != 15 {
		t.Errorf("the squall: %+v", wind)
	}
	if dead.Says != "The starboard side hears nothing" || dead.To != nil {
		t.Errorf("the dead channel: %+v", dead)
	}
	var page bytes.Buffer
	if err := WriteHTML(&page, r, nil); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"What went wrong on purpose", "20 knots of wind more", "to the end</b> The starboard side hears nothing"} {
		if !strings.Contains(page.String(), want) {
			t.Errorf("the page does not say %q", want)
		}
	}
}
