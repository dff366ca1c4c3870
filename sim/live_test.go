package sim_test

import (
	"bytes"
	"testing"

	"dryline/sim/survey"
)

// Watching changes no product, shows every ping once and in order, and shows
// of a logged ping the row that is on the record.
func TestWatchChangesNothing(t *testing.T) {
	plain := tended(t, 500, nil)
	var pings, lit, logged int
	next := uint64(0)
	kept := map[uint64][]byte{}
	watched := tended(t, 500, map[int64]func(*session){0: func(s *session) {
		s.Desk.Watch(func(p survey.LivePing) {
			if p.Number != next {
				t.Errorf("ping %d is shown, want %d", p.Number, next)
			}
			next, pings = p.Number+1, pings+1
			if len(p.Rows) != 1 {
				t.Fatalf("ping %d has rows of %d channels, want 1", p.Number, len(p.Rows))
			}
			if n := len(p.Rows[0].Port); n == survey.RowBins {
				lit++
			} else if n != 0 {
				t.Errorf("ping %d has a row of %d bins", p.Number, n)
			}
			if p.Line != "" {
				logged++
				kept[p.Number] = append([]byte(nil), p.Rows[0].Starboard...)
			}
			if p.RangeScale != 50 {
				t.Errorf("ping %d is shown with a range scale of %g m", p.Number, p.RangeScale)
			}
		})
	}})
	same(t, "watched", plain, watched)
	for i, l := range watched.Desk.Lines {
		for j, row := range l.Rows[0] {
			if !bytes.Equal(row.Port, plain.Desk.Lines[i].Rows[0][j].Port) {
				t.Fatalf("line %s: row %d differs when watched", l.Name, j)
			}
			if shown, ok := kept[l.Pings[j].Number]; !ok || !bytes.Equal(shown, row.Starboard) {
				t.Fatalf("line %s: ping %d was not shown as it is on the record", l.Name, l.Pings[j].Number)
			}
		}
	}
	if uint64(pings) != watched.Sent() || logged != len(watched.Truth.Pings) || lit < pings*9/10 || logged == pings {
		t.Errorf("%d pings shown of %d, %d of %d logged, %d with rows", pings, watched.Sent(), logged, len(watched.Truth.Pings), lit)
	}
}
