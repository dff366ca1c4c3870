package app

import (
	"math"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"dryline/scenarios"
	"dryline/sim"
	"dryline/sim/exercise"
	"dryline/sim/house"
	"dryline/sim/order"
	"dryline/sim/survey"

	"github.com/hajimehoshi/ebiten/v2"
)

func exerciseNamed(t testing.TB, name string) *exercise.Exercise {
	t.Helper()
	ex, err := scenarios.Find(name)
	if err != nil {
		t.Fatal(err)
	}
	return ex
}

// Nothing that the sheet holds leads to the truth by its type.
func TestTheSheetDoesNotReachTheTruth(t *testing.T) {
	for _, from := range []reflect.Type{reflect.TypeFor[mobilisation](), reflect.TypeFor[prose](), reflect.TypeFor[chapter]()} {
		if way := house.Reaches(from, house.Truths); way != "" {
			t.Errorf("%s", way)
		}
	}
	var held []string
	for i := range reflect.TypeFor[Prepare]().NumField() {
		f := reflect.TypeFor[Prepare]().Field(i)
		if f.Type.Kind() != reflect.Func && house.Reaches(f.Type, house.Truths) != "" { // functions take the window, which may show anything
			held = append(held, f.Name)
		}
	}
	if len(held) > 0 {
		t.Errorf("the screen reaches the truth by %v", held)
	}
}

// Where antenna and sheave truly are changes no word of the sheet and no figure: it is the
// same for a vessel on which they stand elsewhere.
func TestNothingOnTheSheetComesOfWhereThingsTrulyAre(t *testing.T) {
	for _, info := range scenarios.Embedded() {
		b := exerciseNamed(t, info.Name).Brief()
		says := func() string {
			var text strings.Builder
			for _, c := range newSheet(b).sentences(nil, nil) {
				for _, p := range c.pieces {
					text.WriteString(p.words + " ")
					if p.figure != nil {
						text.WriteString(p.figure.text + " ")
					}
				}
			}
			return text.String()
		}
		one := says()
		depth, layback, _ := newSheet(b).placed()
		for _, o := range []*float64{&b.Vessel.Antenna.Forward, &b.Vessel.Sheave.Forward, &b.Vessel.Sheave.Up, &b.Vessel.Sheave.Starboard} {
			*o += 3.7
		}
		if d2, l2, _ := newSheet(b).placed(); one != says() || d2 != depth || l2 != layback {
			t.Errorf("%s: the sheet knows where antenna and sheave are", info.Name)
		}
	}
}

// What was not touched orders nothing, in every exercise; what was typed is ordered once, and what
// cannot be is refused in one line that says what is allowed.
func TestWhatIsTypedIsOrdered(t *testing.T) {
	for _, info := range scenarios.Embedded() {
		s := newSheet(exerciseNamed(t, info.Name).Brief())
		if o, f := s.orders(), s.faults(); len(o) > 0 || len(f) > 0 {
			t.Errorf("%s: as it is given the sheet orders %v with faults %q", info.Name, o, f)
		}
	}
	s := newSheet(exerciseNamed(t, "hidden-offset").Brief())
	offset := s.of(order.TowOffset, "")
	for typed, fault := range map[string]string{
		"12.4": "", " -3,5 ": "", "17.3": "",
		"201":  "Sheave aft of the antenna: 201 m is out of range; -200 to 200 m are allowed.",
		"":     `Sheave aft of the antenna: "" is no number; -200 to 200 m are allowed.`,
		"NaN":  `Sheave aft of the antenna: "NaN" is no number; -200 to 200 m are allowed.`,
		"1e99": "Sheave aft of the antenna: 1e+99 m is out of range; -200 to 200 m are allowed.",
	} {
		offset.text = typed
		if got := strings.Join(s.faults(), "\n"); got != fault {
			t.Errorf("%q: fault %q, want %q", typed, got, fault)
		}
	}
	offset.text = "12.4"
	s.of(order.Gain, "450").text = "-6"
	s.of(order.SoundSpeed, "").text = "1494.6"
	s.of(order.MosaicCell, "").text = "0.5"
	s.method = survey.ByHeading
	want := []order.Command{
		{Do: order.TowOffset, Value: 12.4}, {Do: order.SoundSpeed, Value: 1494.6}, {Do: order.Gain, Text: "450", Value: -6},
		{Do: order.MosaicCell, Value: 0.5}, {Do: order.PositionBy, Method: survey.ByHeading},
	}
	if got := s.orders(); !slices.Equal(got, want) {
		t.Errorf("got %+v, want %+v", got, want)
	}
	s.nudge(offset, -1)
	if offset.text != "12.3" {
		t.Errorf("a step down from 12.4 is %s", offset.text)
	}
	offset.text = "-200"
	s.nudge(offset, -1)
	if offset.text != "-200.0" {
		t.Errorf("a step below what is allowed is %s", offset.text)
	}
}

// Every figure of the sheet is an order with limits, and the order holds to them.
func TestTheSheetHoldsToTheOrders(t *testing.T) {
	b := exerciseNamed(t, "disused-anchorage").Brief()
	for _, f := range newSheet(b).figures {
		low, high, ok := order.Limits(b, f.do)
		if !ok {
			t.Fatalf("%s has no limits", f.name)
		}
		for _, v := range []float64{low - 1, high + 1} {
			o := order.Command{Do: f.do, Text: f.channel, Value: v}
			if o.Check(b) == nil {
				t.Errorf("%s: %g is beyond its limits and is taken", f.name, v)
			}
		}
	}
}

// A wrong figure has the desk place the fish wrong by what geometry says, while vessel and fish are where
// they are: an offset by itself along the track, a factor or a height by the change of the chord's horizontal
// part (IHO C-13, chapter 4, 2.3.11.1: the fish is the horizontal part of the wire behind the sheave).
func TestAWrongFigurePlacesTheFishWrong(t *testing.T) {
	fly := func(do order.Do, by float64) (*sim.Session, survey.Fix) {
		ex := exerciseNamed(t, "first-line")
		p := newSheet(ex.Brief())
		if f := p.of(do, ""); f != nil {
			f.text = f.write(f.given + by)
		}
		s, err := sim.New(ex, 3)
		if err != nil {
			t.Fatal(err)
		}
		for _, o := range p.orders() {
			if err := s.Give(o); err != nil {
				t.Fatal(err)
			}
		}
		s.Advance(200)
		return s, s.Passage.Fix()
	}
	right, is := fly("", 0)
	d, r := right.Exercise.Desk, right.Reading()
	level := func(factor, sheave float64) float64 {
		return math.Sqrt(math.Pow(factor*r.CableOut, 2) - math.Pow(r.FishDepth+sheave, 2))
	}
	as := level(d.CatenaryFactor, d.SheaveHeight)
	for _, row := range []struct {
		do             order.Do
		by             float64
		astern, beside float64
	}{
		{order.TowOffset, 4.3, 4.3, 0},
		{order.Factor, -0.1, level(d.CatenaryFactor-0.1, d.SheaveHeight) - as, 0},
		{order.SheaveHeight, 2.5, level(d.CatenaryFactor, d.SheaveHeight+2.5) - as, 0},
		{order.TowSide, 1.5, 0, 1.5},
	} {
		wrong, has := fly(row.do, row.by)
		if a, b := right.Scene(), wrong.Scene(); a.FishX != b.FishX || a.FishY != b.FishY || a.X != b.X || a.Y != b.Y {
			t.Fatalf("%s: what is so has moved", row.do)
		}
		sin, cos := math.Sincos(is.Course)
		dx, dy := has.X-is.X, has.Y-is.Y
		astern, beside := -(dx*sin + dy*cos), dx*cos-dy*sin
		// Offsets turn with the heading, the layback with the track: a few degrees of crab are within this.
		if math.Abs(astern-row.astern) > 0.15 || math.Abs(beside-row.beside) > 0.3 {
			t.Errorf("%s %+g: the fish is placed %.2f m astern and %.2f m to starboard of where it was, want %.2f and %.2f", row.do, row.by, astern, beside, row.astern, row.beside)
		}
		if math.Hypot(row.astern, row.beside) < 0.5 {
			t.Errorf("%s: %.2f m are no test of it", row.do, math.Hypot(row.astern, row.beside))
		}
	}
}

// The tab key comes to every figure, on whichever page of the sheet it stands, and back.
func TestTabReachesEveryFigure(t *testing.T) {
	g := NewGame(&memory{}, false)
	p := NewPrepare(exerciseNamed(t, "disused-anchorage"), NewChoose())
	g.next = p
	g.Resize(1280, 720, 1.05)
	dst := ebiten.NewImage(1280, 720)
	defer dst.Deallocate()
	frame(g, dst)
	n := len(p.sheet.figures)
	for _, by := range []int{1, -1} {
		var came []*entered
		for range n {
			p.next(g, by)
			g.ui.Update()
			f := p.typing()
			if f == nil || slices.Contains(came, f) {
				t.Fatalf("by %d: after %d figures the keys go to %v", by, len(came), f)
			}
			came = append(came, f)
			frame(g, dst)
		}
	}
	t.Logf("%d figures on %d pages", n, p.prose.pages)
}

// What the sheet says of the water is worked out here from the readings that the brief of the session has: the
// mean is the depth over the time that sound takes down it, a centimetre at a time, and it is as near to the water's own
// as one reading is stated to be. The sheet takes the cast of the seed that the watch is begun with.
func TestTheSheetSaysWhatTheCastSays(t *testing.T) {
	for _, name := range []string{"sloping-bank", "layered-water"} {
		ex := exerciseNamed(t, name)
		g := NewGame(&memory{}, false)
		g.Seed = 77
		p := NewPrepare(ex, NewChoose())
		g.next = p
		g.Resize(1280, 720, 1)
		dst := ebiten.NewImage(1280, 720)
		frame(g, dst)
		dst.Deallocate()
		s, err := sim.New(ex, 77)
		if err != nil {
			t.Fatal(err)
		}
		c := s.Brief.Cast
		water, err := ex.Sea.Water.Profile()
		if err != nil {
			t.Fatal(err)
		}
		read := func(depth float64) float64 { // straight from reading to reading
			i := int(depth / c.Step)
			if i+1 >= len(c.Speed) {
				return c.Speed[len(c.Speed)-1]
			}
			return c.Speed[i] + (c.Speed[i+1]-c.Speed[i])*(depth/c.Step-float64(i))
		}
		mean := func(speed func(float64) float64, from, to float64) float64 {
			time, n := 0.0, 5000
			for i := range n {
				time += (to - from) / float64(n) / speed(from+(float64(i)+0.5)*(to-from)/float64(n))
			}
			return (to - from) / time
		}
		says := p.sheet.castSays()
		number := func(pattern string) float64 {
			found := regexp.MustCompile(pattern).FindStringSubmatch(says)
			if found == nil {
				t.Fatalf("%s: %q does not match %q", name, says, pattern)
			}
			v, err := strconv.ParseFloat(found[1], 64)
			if err != nil {
				t.Fatal(err)
			}
			return v
		}
		h := ex.Plan.Altitude
		for what, row := range map[string][2]float64{
			`has ([0-9.]+) m/s at the surface`: {c.Speed[0], water(0)},
			`([0-9.]+) m/s in the mean`:        {mean(read, 0, c.Floor), mean(water, 0, c.Floor)},
			`looks through, ([0-9.]+) m/s`:     {mean(read, c.Floor-h, c.Floor), mean(water, c.Floor-h, c.Floor)},
		} {
			got := number(what)
			if math.Abs(got-row[0]) > 0.051 {
				t.Errorf("%s: %s: %.1f m/s, want %.2f", name, what, got, row[0])
			}
			if math.Abs(got-row[1]) > 2*exercise.CastError {
				t.Errorf("%s: %s: %.1f m/s, and the water has %.2f", name, what, got, row[1])
			}
		}
		bent := math.Abs(number(`has ([0-9.]+) m/s at`)-number(`looks through, ([0-9.]+) m/s`)) > 5
		if bent != (len(ex.Sea.Water.Cast) > 0) {
			t.Errorf("%s: layers %v, and the sheet says %q", name, !bent, says)
		}
	}
}

// Speeds lie within their axis, which goes by even steps and leaves room for the scatter of a straight cast.
func TestSpeedAxis(t *testing.T) {
	for _, all := range [][]float64{{1500, 1500}, {1494.6, 1494.3, 1500}, {1489, 1507.3, 1488.2}, {1350, 1650}} {
		low, high, step := speedAxis(all)
		n := (high - low) / step
		if low > slices.Min(all) || high < slices.Max(all) || n < 2 || n > 5 || math.Mod(low, step) != 0 || math.Abs(n-math.Round(n)) > 1e-9 {
			t.Errorf("%v: from %g to %g by %g", all, low, high, step)
		}
	}
}
