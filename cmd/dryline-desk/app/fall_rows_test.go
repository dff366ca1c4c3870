package app

import (
	"image"
	"math/rand/v2"
	"testing"

	"dryline/cmd/dryline-desk/crew"
	"dryline/cmd/dryline-desk/panes"
	"dryline/sim/record"
)

// speckled is a ping of two channels with speckle about a level, exponential as of many scatterers.
func speckled(rng *rand.Rand, number uint64) *crew.Ping {
	p := &crew.Ping{Number: number, Height: 7, RangeScale: 75, Locked: true}
	for range 2 {
		var rows, plain [2][]uint8
		for side := range 2 {
			for range panes.RowBins {
				v := uint8(min(40+35*rng.ExpFloat64(), 255))
				rows[side], plain[side] = append(rows[side], v), append(plain[side], v/2)
			}
		}
		p.Rows, p.Plain, p.Echo = append(p.Rows, rows), append(p.Plain, plain), append(p.Echo, true)
	}
	return p
}

// Every row that was kept comes back within a step of its greys, whenever it was: from memory, where an hour at
// ten pings a second of two channels stays under a hundred megabytes, from a file, which leaves next to nothing
// in memory, and from both where the disk was full.
func TestRowsComeBack(t *testing.T) {
	t.Run("memory", func(t *testing.T) {
		if hour := rowsComeBack(t, nil); hour > 100e6 {
			t.Errorf("an hour takes %.0f MB, want 100 at most", hour/1e6)
		}
	})
	t.Run("file", func(t *testing.T) {
		file, err := record.OnDisk(t.TempDir())
		if err != nil {
			t.Fatal(err)
		}
		if hour := rowsComeBack(t, file); hour > 1e6 {
			t.Errorf("an hour takes %.0f MB beside the file, want next to nothing", hour/1e6)
		}
		if _, err := file.ReadAt(make([]byte, 1), 0); err == nil {
			t.Error("the file can be read after the store let go of it")
		}
	})
	t.Run("disk full", func(t *testing.T) { rowsComeBack(t, record.InMemoryUpTo(300_000)) })
}

// rowsComeBack returns how many bytes of memory an hour takes.
func rowsComeBack(t *testing.T, file record.Backing) float64 {
	rng := rand.New(rand.NewPCG(1, 2))
	s := newRowStore(2, file)
	defer s.close()
	var pings []*crew.Ping
	const rows = 5*chunkRows + 17
	for i := range rows {
		p := speckled(rng, uint64(i))
		if i == 70 {
			p.Rows, p.Plain, p.Echo = nil, nil, []bool{false, false}
		}
		pings = append(pings, p)
		s.add(p, 0.1)
	}
	for _, n := range []int{0, 63, 64, 70, 200, 5*chunkRows - 1, 5 * chunkRows, rows - 1, 3} {
		for channel := range 2 {
			levelled, plain, bottom := s.row(n, channel)
			if bottom < 0.099 || bottom > 0.101 {
				t.Errorf("row %d: bottom at %g of the range, want 0.1", n, bottom)
			}
			if len(pings[n].Rows) == 0 {
				if len(levelled[0])+len(plain[1]) > 0 {
					t.Errorf("row %d was not heard and comes back", n)
				}
				continue
			}
			for side := range 2 {
				for i, v := range pings[n].Rows[channel][side] {
					if d := int(v) - int(levelled[side][i]); d < -8 || d > 8 {
						t.Fatalf("row %d, bin %d: %d comes back as %d", n, i, v, levelled[side][i])
					}
					if d := int(pings[n].Plain[channel][side][i]) - int(plain[side][i]); d < -8 || d > 8 {
						t.Fatalf("row %d, bin %d as recorded: %d comes back as %d", n, i, pings[n].Plain[channel][side][i], plain[side][i])
					}
				}
			}
		}
	}
	return float64(s.long()-len(s.open)) / rows * 36000
}

// The whole session scrolls back: past what the live pictures have the rows are those that were kept, and P goes
// from line to line.
func TestScrollingBackToTheFirstRow(t *testing.T) {
	_, w := fallWatch(t, "first-line", 2)
	f := &w.fall
	rng := rand.New(rand.NewPCG(3, 4))
	number := f.history[len(f.history)-1].Number
	for i := range 2*panes.RingRows + 500 {
		p := *speckled(rng, number+1+uint64(i))
		p.Rows, p.Plain, p.Echo = p.Rows[:1], p.Plain[:1], p.Echo[:1]
		switch {
		case i >= 300 && i < 900:
			p.Line = "A"
		case i >= 2000 && i < 2600:
			p.Line = "B"
		}
		f.history = append(f.history, p)
		f.add(&p)
	}
	n := len(f.history)
	rows := int(float64(f.rect().Dy()) / f.part(f.rect()).PerRow)
	f.scroll(1e9)
	if got := n - 1 - int(f.looking.scrolled); got > rows+1 || !f.isBack(f.rect()) {
		t.Errorf("scrolled back as far as it goes the newest row shown is %d of %d, want one of the first %d", got, n, rows+1)
	}
	loaded := 0
	for _, c := range f.bygone.has {
		if c > 0 {
			loaded++
		}
	}
	if want := rows/chunkRows + 1; loaded < want || loaded > want+2 {
		t.Errorf("%d chunks are fetched for %d rows, want about %d", loaded, rows, want)
	}
	p, _, _, ok := f.echo(image.Pt(f.rect().Min.X+f.rect().Dx()*3/4, f.rect().Max.Y-3))
	if !ok || p.Number > f.history[0].Number+5 {
		t.Errorf("at the foot lies ping %v, want one of the first", p)
	}
	f.live()
	starts := []uint64{}
	for range 2 {
		f.lineStart(-1)
		foot := n - 1 - int(f.looking.scrolled) - rows + startsAt
		for k := foot - 3; k <= foot+3; k++ {
			if k > 0 && f.history[k].Line != "" && f.history[k-1].Line == "" {
				starts = append(starts, f.history[k].Number-number-1)
			}
		}
	}
	if len(starts) != 2 || starts[0] != 2000 || starts[1] != 300 {
		t.Errorf("it goes back to the starts at %v, want 2000 and 300", starts)
	}
	if len(f.spans) != 3 || f.spans[1].to-f.spans[1].from != 600 {
		t.Errorf("the strip has %v logged, want 600 rows from %d on", f.spans, number)
	}
	// The strip takes the person there: its middle is the middle of the session.
	f.goTo((f.stripRect().Min.Y + f.stripRect().Max.Y) / 2)
	if got := f.looking.scrolled + float64(rows)/2; got < 0.48*float64(n) || got > 0.52*float64(n) {
		t.Errorf("the middle of the strip shows row %.0f of %d", got, n)
	}
}
