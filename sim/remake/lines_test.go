package remake_test

import (
	"bytes"
	"math"
	"slices"
	"testing"

	"dryline/seabed"
	"dryline/sim"
	"dryline/sim/exercise"
	"dryline/sim/order"
	"dryline/sim/record"
	"dryline/sim/remake"
	"dryline/sim/simtest"
	"dryline/sim/survey"
	"dryline/sonar"
	"dryline/sonar/mosaic"
	"dryline/sonar/waterfall"
	"dryline/vessel/sea"

	"github.com/google/go-cmp/cmp"
)

var ballAt = seabed.Point{X: 132, Y: 290}

// ball is a session along one short line over a smooth floor with a ball, and its
// record; deeds are done at ticks.
func ball(t *testing.T, change func(*exercise.Exercise), deeds map[int64]order.Command) (*sim.Session, *record.Store) {
	t.Helper()
	ex := simtest.Ball(t, ballAt, false)
	change(ex)
	s, err := sim.New(ex, 1)
	if err != nil {
		t.Fatal(err)
	}
	store := record.New(record.InMemory())
	t.Cleanup(func() { store.Close() })
	sim.KeepLogged(s, store)
	s.AttachMate()
	for !s.Done() {
		if c, ok := deeds[s.Ticks()]; ok {
			simtest.Give(t, s, c)
		}
		s.Advance(100)
	}
	return s, store
}

// remade paints the survey as it stands.
func remade(t *testing.T, s *sim.Session, store *record.Store) *mosaic.Mosaic {
	t.Helper()
	d := s.Desk
	work := remake.Work{Record: store, Lines: d.LatestLines(), Prior: s.Prior(0)}
	var r survey.Review
	if d.Worked != nil {
		r, work.Stretch, work.Levelling = d.Worked.Review, d.Worked.Stretch, d.Worked.Review.Levelling
	}
	set := d.Reviewed(&r, math.Inf(1))
	x, y := s.Exercise.Place.Grid.Whole(set.MosaicCell)
	m, err := d.NewMosaic(&r, x, y)
	if err != nil {
		t.Fatal(err)
	}
	if err := work.Mosaic(m); err != nil {
		t.Fatal(err)
	}
	return m
}

// shown paints one run alone.
func shown(t *testing.T, s *sim.Session, store *record.Store, run int) *mosaic.Mosaic {
	t.Helper()
	m, err := s.Desk.BlankMosaic()
	if err != nil {
		t.Fatal(err)
	}
	work := remake.Work{Record: store, Lines: s.Desk.Lines, Prior: s.Prior(0), Hide: func(i int) bool { return i != run }}
	if err := work.Mosaic(m); err != nil {
		t.Fatal(err)
	}
	return m
}

// exact is the factor that the tow of the small exercise truly has.
func exact(t *testing.T) float64 {
	ex := simtest.Small(t)
	simtest.Exact(ex)
	return ex.Desk.CatenaryFactor
}

// echo is the centroid of what is much brighter than the floor within reach of the
// ball.
func echo(t *testing.T, m *mosaic.Mosaic) (x, y float64) {
	t.Helper()
	x, y, ok := bright(m)
	if !ok {
		t.Fatal("nothing bright near the ball")
	}
	return x, y
}

func bright(m *mosaic.Mosaic) (x, y float64, ok bool) {
	const reach, cell = 9.0, 0.125
	sum := 0.0
	for j := -reach; j <= reach; j += cell {
		for i := -reach; i <= reach; i += cell {
			if v, looks := m.At(ballAt.X+i, ballAt.Y+j); looks > 0 && v > 4 {
				w := float64(v)
				x, y, sum = x+w*(ballAt.X+i), y+w*(ballAt.Y+j), sum+w
			}
		}
	}
	return x / sum, y / sum, sum > 0
}

// What was set wrong in the watch and is put right after it brings the object to
// where it truly lies, within two cells of the mosaic; as it was set it lay elsewhere.
// A contact marked on the wrong record goes there with it.
func TestPutRightAfterTheWatch(t *testing.T) {
	right := simtest.Small(t)
	simtest.Exact(right)
	for _, test := range []struct {
		name  string
		wrong func(*exercise.Exercise)
		mend  []order.Command
	}{
		{"factor", func(ex *exercise.Exercise) { ex.Desk.CatenaryFactor = 0.75 }, []order.Command{{Do: order.ReworkFactor, Value: right.Desk.CatenaryFactor}}},
		{"tow offset", func(ex *exercise.Exercise) { ex.Desk.AntennaToTow += 4 }, []order.Command{{Do: order.ReworkTowOffset, Value: right.Desk.AntennaToTow}}},
		{"tow side", func(ex *exercise.Exercise) { ex.Desk.TowToStarboard = 2 }, []order.Command{{Do: order.ReworkTowSide, Value: 0}}},
		{"sound speed", func(ex *exercise.Exercise) { ex.Desk.SoundSpeed = 1430 }, []order.Command{{Do: order.ReworkSoundSpeed, Value: right.Desk.SoundSpeed}}},
		{"swath and layback by the course in a cross current", func(ex *exercise.Exercise) {
			current, err := sea.NewProfile([]sea.Current{{Speed: 0.4, Set: math.Pi / 2}})
			if err != nil {
				t.Fatal(err)
			}
			ex.Sea.Current = current
		}, []order.Command{{Do: order.ReworkSwath, Text: "fish"}, {Do: order.ReworkPosition, Method: survey.ByHeading}}},
	} {
		s, store := ball(t, test.wrong, nil)
		x, y := echo(t, remade(t, s, store))
		before := math.Hypot(x-ballAt.X, y-ballAt.Y)
		line := s.Desk.Lines[0]
		see, ok := line.Sighting(x, y)
		if !ok {
			t.Fatalf("%s: the echo is on no ping", test.name)
		}
		simtest.Give(t, s, order.Command{Do: order.Mark, X: x, Y: y, Ping: line.Pings[see.Index].Number})
		marked := s.Desk.LastContact()
		simtest.Give(t, s, append(test.mend, order.Command{Do: order.Rework})...)
		x, y = echo(t, remade(t, s, store))
		after := math.Hypot(x-ballAt.X, y-ballAt.Y)
		const cells = 2
		cell := s.Exercise.Desk.MosaicCell
		if after > cells*cell || before < cells*cell {
			t.Errorf("%s: the ball lay %.2f m off and lies %.2f m off, want more than %g and at most that", test.name, before, after, cells*cell)
		}
		i := slices.IndexFunc(s.Desk.Contacts, func(c survey.Contact) bool { return c.Number == marked })
		if c := s.Desk.Contacts[i]; math.Hypot(c.X-x, c.Y-y) > cell {
			t.Errorf("%s: the contact lies %.2f m from the echo it was marked on", test.name, math.Hypot(c.X-x, c.Y-y))
		}
		t.Logf("%s: %.2f m, then %.2f m", test.name, before, after)
	}
}

// Worked up again with nothing changed, the survey stands as in the watch to the byte,
// with what was set anew in the middle of it.
func TestWorkedUpAsItWas(t *testing.T) {
	s, store := ball(t, func(*exercise.Exercise) {}, map[int64]order.Command{
		500: {Do: order.Factor, Value: 0.9}, 900: {Do: order.TowOffset, Value: 7},
	})
	before := remade(t, s, store)
	contacts := slices.Clone(s.Desk.Contacts)
	simtest.Give(t, s, order.Command{Do: order.Rework})
	lines := s.Desk.LatestLines()
	if lines[0] == s.Desk.Lines[0] {
		t.Fatal("nothing was worked up")
	}
	if d := cmp.Diff(lines[0].Pings, s.Desk.Lines[0].Pings); d != "" {
		t.Errorf("pings differ:\n%s", d)
	}
	if d := cmp.Diff(s.Desk.Contacts, contacts); d != "" || len(contacts) == 0 {
		t.Errorf("%d contacts moved:\n%s", len(contacts), d)
	}
	a, _ := before.Render(waterfall.Tone)
	b, ok := remade(t, s, store).Render(waterfall.Tone)
	if !ok || !bytes.Equal(a.Gray.Pix, b.Gray.Pix) || !bytes.Equal(a.Looks, b.Looks) || a.MinX != b.MinX || a.MaxY != b.MaxY {
		t.Error("the mosaics differ")
	}
}

// Putting the bottom right moves the ground as Pythagoras says: a first return taken
// for h instead of H lays what is R off at sqrt(R^2 - h^2) instead of sqrt(R^2 - H^2),
// on either side and only between the pings of the piece.
func TestCorrectedBottomMovesTheGround(t *testing.T) {
	s, _ := ball(t, func(*exercise.Exercise) {}, nil)
	line := s.Desk.Lines[0]
	from, to := 300, 600
	const shallow = 1.5
	simtest.Give(t, s,
		order.Command{Do: order.BottomAt, Ping: line.Pings[0].Number, Ping2: line.Pings[100].Number, Value: 9},
		order.Command{Do: order.UndoBottom},
		order.Command{Do: order.BottomAt, Ping: line.Pings[from].Number, Ping2: line.Pings[to].Number, Value: shallow},
		order.Command{Do: order.UndoBottom}, order.Command{Do: order.RedoBottom}, order.Command{Do: order.Rework})
	worked := s.Desk.LatestLines()[0]
	for _, i := range []int{0, 100, from - 1, from, (from + to) / 2, to, to + 1} {
		was, is := &line.Pings[i], &worked.Pings[i]
		want := was.Height
		if i >= from && i <= to {
			want = shallow
		}
		for _, slant := range []float64{12, 30, 49} {
			for side, starboard := range map[float64]bool{1: true, -1: false} {
				ax, ay, _ := was.GroundAt(starboard, slant)
				bx, by, ok := is.GroundAt(starboard, slant)
				sin, cos := math.Sincos(was.Fix.Heading)
				moved := (bx-ax)*cos - (by-ay)*sin // to the right
				out := side * (math.Sqrt(slant*slant-want*want) - math.Sqrt(slant*slant-was.Height*was.Height))
				if !ok || math.Abs(moved-out) > 1e-9 || math.Abs((bx-ax)*sin+(by-ay)*cos) > 1e-9 {
					t.Errorf("ping %d, %g m, starboard %v: moved %.4f m, want %.4f", i, slant, starboard, moved, out)
				}
			}
		}
		note := worked.Bottom[i]
		if byHand := i >= from && i <= to; (note.By == survey.BottomHand) != byHand || byHand == (note.Quality > 0.5) {
			t.Errorf("ping %d: %+v; want what was corrected told, and a bottom in the water graded poor", i, note)
		}
	}
}

// Gain that lets noise pass for the bottom is told by the grade of every ping; the
// altimeter then gives the height back.
func TestPoorBottomIsGradedPoor(t *testing.T) {
	s, _ := ball(t, func(*exercise.Exercise) {}, nil)
	simtest.Give(t, s, order.Command{Do: order.BottomBy, Text: "450", Method: "altimeter"}, order.Command{Do: order.Rework})
	for i, n := range s.Desk.LatestLines()[0].Bottom {
		p := &s.Desk.LatestLines()[0].Pings[i]
		if p.Fix.Altitude > 0 && (n.By != survey.BottomAltimeter || p.Height != p.Fix.Altitude) {
			t.Fatalf("ping %d: %+v at %.2f m, the altimeter says %.2f", i, n, p.Height, p.Fix.Altitude)
		}
	}
	simtest.Give(t, s, order.Command{Do: order.BottomBy, Text: "450", Method: "first_return"}, order.Command{Do: order.Rework})
	for i, p := range s.Desk.LatestLines()[0].Pings {
		if was := s.Desk.Lines[0].Pings[i].Height; i > 10 && math.Abs(p.Height-was) > 0.3 {
			t.Fatalf("ping %d: tracked at %.2f m, in the watch at %.2f", i, p.Height, was)
		}
	}
	noisy, _ := ball(t, func(ex *exercise.Exercise) {
		ex.Sonar.Channels[0].NoiseFigure += 62 // as much as hides the floor
	}, nil)
	simtest.Give(t, noisy, order.Command{Do: order.Rework})
	good, poor := grade(s), grade(noisy)
	if good < 0.7 || poor > 0.35 {
		t.Errorf("mean grade %.2f of a clear bottom and %.2f of one that noise covers, want above 0.7 and below 0.35", good, poor)
	}
	t.Logf("mean grade %.2f clear, %.2f in noise", good, poor)
}

// A school and kelp between fish and floor answer before it does: the pings over them are
// graded poorer than those over bare sand, by what stands in the record and by the floor
// either side. The altimeter is fooled as well.
func TestWhatFoolsTheTrackerIsGradedPoor(t *testing.T) {
	for _, test := range []struct {
		name   string
		change func(*exercise.Exercise)
	}{
		{"a school", func(ex *exercise.Exercise) {
			ex.Sonar.Effects.Schools = []sonar.School{{X: 100, Y: 300, Depth: 11.5, Length: 24, Width: 14, Height: 2.5, Density: 30, Fish: 0.3}}
		}},
		{"kelp", func(ex *exercise.Exercise) {
			ex.Sonar.Effects.Kelp = []sonar.Kelp{{
				Area:   seabed.Area{Polygon: []seabed.Point{{X: 80, Y: 288}, {X: 120, Y: 288}, {X: 120, Y: 312}, {X: 80, Y: 312}}},
				Height: 3, Radius: 0.3, Density: 2, Through: 0.7,
			}}
		}},
	} {
		s, _ := ball(t, func(ex *exercise.Exercise) {
			ex.Plan.CableOut = 13
			test.change(ex)
		}, nil)
		simtest.Give(t, s, order.Command{Do: order.Rework})
		line := s.Desk.LatestLines()[0]
		over, bare, n, m := 0.0, 0.0, 0.0, 0.0
		for i, note := range line.Bottom {
			switch y := line.Pings[i].Fix.Y; {
			case y > 295 && y < 305:
				over, n = over+note.Quality, n+1
			case y < 270 || y > 330:
				bare, m = bare+note.Quality, m+1
			}
		}
		t.Logf("%s: %.2f over it, %.2f over sand", test.name, over/n, bare/m)
		if over/n > 0.6 || bare/m < 0.85 {
			t.Errorf("%s: graded %.2f over it and %.2f over sand, want at most 0.6 and at least 0.85", test.name, over/n, bare/m)
		}
	}
}

func grade(s *sim.Session) float64 {
	sum := 0.0
	notes := s.Desk.LatestLines()[0].Bottom
	for _, n := range notes {
		sum += n.Quality
	}
	return sum / float64(len(notes))
}

// A survey that was sailed with a wrong factor, offset and cell and is worked up with the
// right ones gives the mosaic of the same orders with the desk set right from the start,
// to the byte: the desk has no hand in how she sails.
func TestRemadeIsWhatWouldHaveBeenPainted(t *testing.T) {
	wrong := func(ex *exercise.Exercise) {
		ex.Desk.CatenaryFactor, ex.Desk.AntennaToTow, ex.Desk.MosaicCell, ex.Desk.CourseTime = 0.8, 4, 0.5, 20
		ex.Desk.Combine = mosaic.Latest
	}
	sailed, store := ball(t, wrong, nil)
	right := simtest.Small(t)
	simtest.Exact(right)
	again, err := sim.New(func() *exercise.Exercise {
		ex := *sailed.Exercise
		ex.Desk = right.Desk
		return &ex
	}(), 1)
	if err != nil {
		t.Fatal(err)
	}
	kept := record.New(record.InMemory())
	t.Cleanup(func() { kept.Close() })
	sim.KeepLogged(again, kept)
	if err := again.Follow(sailed.Commands, sailed.Ticks(), nil); err != nil {
		t.Fatal(err)
	}
	simtest.Give(t, sailed,
		order.Command{Do: order.ReworkFactor, Value: right.Desk.CatenaryFactor}, order.Command{Do: order.ReworkTowOffset, Value: right.Desk.AntennaToTow},
		order.Command{Do: order.ReworkCell, Value: right.Desk.MosaicCell}, order.Command{Do: order.ReworkCourseTime, Value: right.Desk.CourseTime},
		order.Command{Do: order.ReworkCombine, Text: string(right.Desk.Combine)}, order.Command{Do: order.Rework})
	a, _ := remade(t, sailed, store).Render(waterfall.Tone)
	b, ok := remade(t, again, kept).Render(waterfall.Tone)
	if !ok || !bytes.Equal(a.Gray.Pix, b.Gray.Pix) || a.MinX != b.MinX || a.MaxY != b.MaxY || a.Cell != b.Cell {
		t.Errorf("remade it is %v from (%g, %g), painted at once %v from (%g, %g), and the cells differ", a.Gray.Rect, a.MinX, a.MaxY, b.Gray.Rect, b.MinX, b.MaxY)
	}
	if n := again.Desk.Lines[0].Pings; len(n) == 0 || sailed.Desk.Lines[0].Pings[10].Fix.X == 0 {
		t.Error("nothing was logged")
	}
}

// How the record is levelled, which looks are combined how, which channel's cells and
// which runs are painted all show in the picture; a run that is hidden or rejected is not
// there.
func TestWhatIsChosenShows(t *testing.T) {
	s, store := ball(t, func(ex *exercise.Exercise) {
		ex.Plan.Order = []exercise.Run{{Line: 0}, {Line: 0, Reversed: true}}
	}, nil)
	plain := remade(t, s, store)
	before, _ := plain.Render(waterfall.Tone)
	for _, c := range []order.Command{
		{Do: order.ReworkLevel, Text: "line"}, {Do: order.ReworkLevel, Text: "papers"}, {Do: order.ReworkCombine, Text: "strongest"},
		{Do: order.ReworkCombine, Text: "best"}, {Do: order.ReworkCombine, Text: "latest"}, {Do: order.ReworkCell, Value: 0.5}, {Do: order.ReworkSwath, Text: "vessel"},
	} {
		was := s.Desk.Review.Clone()
		simtest.Give(t, s, c, order.Command{Do: order.Rework})
		after, ok := remade(t, s, store).Render(waterfall.Tone)
		if !ok || bytes.Equal(before.Gray.Pix, after.Gray.Pix) {
			t.Errorf("%+v shows nowhere", c)
		}
		s.Desk.Review = was
	}
	x, y := ballAt.X, ballAt.Y
	for _, c := range []order.Command{{Do: order.ShowLine, Number: 2}, {Do: order.RejectLine, Number: 2, Reason: "turned"}} {
		was := s.Desk.Review.Clone()
		simtest.Give(t, s, c, order.Command{Do: order.Rework})
		review := s.Desk.Worked.Review
		m, err := s.Desk.BlankMosaic()
		if err != nil {
			t.Fatal(err)
		}
		work := remake.Work{Record: store, Lines: s.Desk.LatestLines(), Prior: s.Prior(0), Hide: func(i int) bool { return !review.Paints(i + 1) }}
		if err := work.Mosaic(m); err != nil {
			t.Fatal(err)
		}
		_, two := plain.At(x, y)
		if _, looks := m.At(x, y); looks != 1 || two != 2 {
			t.Errorf("%s: %d looks of %d are left", c.Do, looks, two)
		}
		s.Desk.Review = was
	}
}
