package debrief

import (
	"math"
	"testing"

	"dryline/seabed"
	"dryline/sim/survey"
)

// A pipeline under the survey is lit, matched along its whole length and
// measured square to it.
func TestPipelineIsATarget(t *testing.T) {
	ex := oneLine(small(t))
	ex.Seabed.Pipelines = []seabed.Pipeline{{
		Name: "main", Path: []seabed.Point{{X: 115, Y: 230}, {X: 145, Y: 270}, {X: 145, Y: 350}}, Diameter: 0.5, Charted: true,
		Spans: []seabed.Span{{From: 80, To: 100, Height: 0.6}},
	}}
	s := run(t, ex)
	s.Desk.Contacts = []survey.Contact{
		{Number: 1, X: 147, Y: 330, Length: 4},
		{Number: 2, X: 130 + 4, Y: 250 - 3, Length: 4}, // 5 m square off the first leg
		{Number: 3, X: 145, Y: 358.5, Length: 4},       // 8.5 m past its end
		{Number: 4, X: 131, Y: 300, Length: 2},         // on the block
	}
	for i := range s.Desk.Contacts {
		s.Desk.Contacts[i].ByHand = true
	}
	s.Exercise.Score.ContactWithin = 8
	r := report(s)
	if len(r.Targets) != 2 {
		t.Fatalf("got %d targets, want the block and the pipeline", len(r.Targets))
	}
	p := r.Targets[1]
	if p.Name != "main" || p.Kind != "pipeline" || !p.Charted || p.Length != 130 || p.Height != 0.5 {
		t.Errorf("got %+v, want the pipeline of 130 m", p)
	}
	if !p.ThreePings || p.BestLine != "L1" || p.BestPings < 100 {
		t.Errorf("got %d pings on %q, want a line's worth", p.BestPings, p.BestLine)
	}
	if len(p.Contacts) != 2 || p.Contact == nil || *p.Contact != 1 || math.Abs(*p.Distance-2) > 1e-9 || *p.East != 2 || *p.North != 0 {
		t.Errorf("got %+v, want contacts 1 and 2, the first 2 m east", p)
	}
	if len(r.FalseContacts) != 1 || r.FalseContacts[0].Number != 3 {
		t.Errorf("got %+v, want the mark past its end alone", r.FalseContacts)
	}
	for _, seen := range s.Truth.Seen[1] {
		if seen.Range < 10 || seen.Range > 60 {
			t.Fatalf("seen at %.1f m, want 15 to 50 m off the line", seen.Range)
		}
	}
}
