package mosaic

import "testing"

// Tiles told as they are painted add up to the mosaic, and only those that
// changed are told again.
func TestFreshTilesAddUpToTheMosaic(t *testing.T) {
	m, err := New(0.5, Best)
	if err != nil {
		t.Fatal(err)
	}
	told := map[[2]int]*Tile{}
	take := func() (n int) {
		m.Fresh(func(tile *Tile) {
			copied := *tile
			told[[2]int{tile.I, tile.J}] = &copied
			n++
		})
		return n
	}
	for i := range 300 {
		m.put(float64(i)-150, float64(i)/3, float32(i%7), 1)
	}
	if take() < 2 {
		t.Error("want several tiles for a line across them")
	}
	if n := take(); n != 0 {
		t.Errorf("%d tiles told twice", n)
	}
	m.put(3, 3, 9, 1) // into a tile painted before
	if n := take(); n != 1 {
		t.Errorf("%d tiles told after one cell, want 1", n)
	}
	m.EndLook()
	take()
	cells := 0
	m.each(func(i, j int, v float32, looks int) {
		cells++
		tile := told[[2]int{i &^ tileMask, j &^ tileMask}]
		if tile == nil {
			t.Fatalf("cell %d, %d is in no tile", i, j)
		}
		n := (j&tileMask)<<tileShift | i&tileMask
		if tile.Value[n] != v || int(tile.Looks[n]) != looks {
			t.Fatalf("cell %d, %d: got %g of %d looks, want %g of %d", i, j, tile.Value[n], tile.Looks[n], v, looks)
		}
	})
	if cells == 0 {
		t.Fatal("nothing painted")
	}
}
