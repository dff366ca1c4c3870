package seabed

import (
	"sync"
	"testing"
)

// A tile that several ask for at once is built once, by one of them, and what is built ahead
// along a line changes no answer.
func TestATileIsBuiltOnce(t *testing.T) {
	w, plain := New(ground(), 3), New(ground(), 3)
	var group sync.WaitGroup
	var asked [8][4]*tile
	for k := range asked {
		group.Go(func() {
			for n := range asked[k] {
				asked[k][n] = w.tileAt(n%2, n/2)
			}
		})
	}
	group.Wait()
	for k := range asked {
		if asked[k] != asked[0] {
			t.Fatalf("asker %d has other tiles than the first", k)
		}
	}
	for n := range asked[0] {
		plain.tileAt(n%2, n/2)
	}
	if len(w.underway) != 0 || len(w.order) != len(plain.order) {
		t.Errorf("%d tiles are kept and %d still being built, want %d and none", len(w.order), len(w.underway), len(plain.order))
	}
	ahead := New(ground(), 3)
	ahead.Build(5, 90, 100, 20)
	built := len(ahead.order)
	for f := 0.0; f <= 1; f += 0.25 {
		x, y := 5+95*f, 90-70*f
		if a, p := ahead.HeightAt(x, y), plain.HeightAt(x, y); a != p {
			t.Errorf("at %g, %g the floor built ahead is at %g, otherwise at %g", x, y, a, p)
		}
	}
	if built < 4 || len(ahead.order) != built {
		t.Errorf("%d tiles were built ahead and %d on demand along the line", built, len(ahead.order)-built)
	}
}
