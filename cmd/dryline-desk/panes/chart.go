package panes

import (
	"fmt"
	"image"
	"image/color"
	"math"

	"dryline/cmd/dryline-desk/look"
	"dryline/sim/survey/coverage"

	"github.com/hajimehoshi/ebiten/v2"
)

// Line is a planned line on the chart.
type Line struct {
	Name           string
	AX, AY, BX, BY float64
	Steered        bool // the autopilot is on it
	Logged         bool // it is in the bag
	Logging        bool // it is being logged now
}

// Spot is a contact on the chart.
type Spot struct {
	X, Y   float64
	Label  string
	Chosen bool
}

// Known is a thing that was charted before.
type Known struct {
	X, Y float64
	Name string
}

// Plot holds what the chart shows on top of the mosaic, metres.
type Plot struct {
	East, North    float64 // extent of the world
	GridEast       float64 // of the world's origin in the grid that people know
	GridNorth      float64
	Lines          []Line
	Vessel         []float64 // her track, x and y in turn
	Fish           []float64 // the fish's track
	X, Y           float64   // of the vessel
	Heading        float64   // grid bearing
	Length, Beam   float64
	FishX, FishY   float64
	FishHeading    float64
	Swath          float64 // to each side, 0 for none
	Spots          []Spot
	Ships          []Ship
	Buoys          []float64        // x and y in turn
	Charted        []Known          // what was charted before
	Pipelines      []Run            // charted before
	Unseen         [][]coverage.Row // ground that lines passed and no ping has seen, by holiday
	UnseenSays     string
	Looks          []Look    // from where the floor was looked at, in the order of time
	Measure        []float64 // a measure being taken, two points
	Way            []float64 // the turn being steered
	TrueX, TrueY   float64   // of the fish, if the truth may be seen
	TruthShown     bool
	NoCraft        bool // vessel and fish are not on it
	Depths         *Depths
	Scheme         *Scheme
	CursorOn       bool
	FigureOfCursor string
}

// Chart draws the chart: mosaic, if there is one, plan, tracks, vessel and fish. It returns what
// is lettered, for who letters more.
func Chart(dst *ebiten.Image, p *Projection, m *Mosaic, shade Shade, l *look.Look, v *Plot) Labels {
	pane := dst.SubImage(p.Pane).(*ebiten.Image)
	look.Fill(pane, p.Pane, l.Void)
	grid(pane, p, l, v)
	area(pane, p, l, v)
	if m != nil {
		m.Draw(pane, p, shade)
	}
	for _, rows := range v.Unseen {
		Hatch(pane, p, rows, l, 1.2*l.Scale)
	}
	looks(pane, p, l, v.Looks)
	v.Scheme.ground(pane, p, l)
	v.Depths.contours(pane, p, l)
	v.Scheme.draw(pane, p, l)
	swath(pane, p, l, v)
	for _, run := range v.Pipelines {
		Charted(pane, p, run.Path, l, l.Plan)
	}
	lines(pane, p, l, v)
	polyline(pane, p, v.Fish, 1.5*l.Scale, l.Wake)
	polyline(pane, p, v.Vessel, 1.5*l.Scale, l.Theme.Track)
	for _, k := range v.Charted {
		x, y := p.At(k.X, k.Y)
		look.Ring(pane, x, y, chartedRing*l.Scale, 1.2*l.Scale, l.Plan)
	}
	polyline(pane, p, v.Way, 2*l.Scale, l.Accent)
	if !v.NoCraft {
		craft(pane, p, l, v)
	}
	var labels Labels
	margins(pane, p, l, v, &labels)
	lineNames(pane, p, l, v, &labels)
	spots(pane, p, l, v, &labels)
	onWater(pane, p, l, v, &labels)
	if len(v.Measure) == 4 {
		ax, ay := p.At(v.Measure[0], v.Measure[1])
		bx, by := p.At(v.Measure[2], v.Measure[3])
		look.Stroke(pane, ax, ay, bx, by, 2*l.Scale, l.Mark)
		d := math.Hypot(v.Measure[2]-v.Measure[0], v.Measure[3]-v.Measure[1])
		tag(pane, l, fmt.Sprintf("%.1f m", d), bx+8*l.Scale, by-8*l.Scale)
	}
	areaLabel(pane, p, l, v, &labels)
	chartedNames(pane, p, l, v.Charted, &labels)
	runNames(pane, p, l, v.Pipelines, &labels)
	v.Scheme.keep(p, l, &labels)
	v.Depths.letter(pane, p, l, &labels)
	gridLabels(pane, p, l, v, &labels)
	return labels
}

// area frames the exercise's area.
func area(dst *ebiten.Image, p *Projection, l *look.Look, v *Plot) {
	x0, y1 := p.At(0, 0)
	x1, y0 := p.At(v.East, v.North)
	for _, s := range [4][4]float64{{x0, y0, x1, y0}, {x0, y1, x1, y1}, {x0, y0, x0, y1}, {x1, y0, x1, y1}} {
		from, to, ok := Inside(s[0], s[1], s[2], s[3], p.Pane)
		if !ok {
			continue
		}
		dx, dy := s[2]-s[0], s[3]-s[1]
		look.Dashed(dst, s[0]+from*dx, s[1]+from*dy, s[0]+to*dx, s[1]+to*dy, 1.3*l.Scale, 3*l.Scale, l.Soft)
	}
}

// areaLabel says what the frame is, at the first of its corners that shows, or
// in the middle of what shows of a side.
func areaLabel(dst *ebiten.Image, p *Projection, l *look.Look, v *Plot, labels *Labels) {
	const says = "area"
	wide, tall := look.Wide(says, l.Small)/2+4*l.Scale, look.Tall(l.Small)/2+l.Scale
	put := func(x, y float64) bool {
		r := image.Rect(int(x-wide), int(y-tall), int(x+wide), int(y+tall))
		if !r.In(p.Pane) || !labels.Try(r) {
			return false
		}
		tag(dst, l, says, x, y)
		return true
	}
	corners := [4][2]float64{{0, v.North}, {v.East, v.North}, {v.East, 0}, {0, 0}}
	inward := [4][2]float64{{1, 1}, {-1, 1}, {-1, -1}, {1, -1}} // of the corners, in pixels
	for i, q := range corners {
		x, y := p.At(q[0], q[1])
		if put(x+inward[i][0]*(wide+2*l.Scale), y+inward[i][1]*(tall+2*l.Scale)) {
			return
		}
	}
	for i, q := range corners {
		ax, ay := p.At(q[0], q[1])
		bx, by := p.At(corners[(i+1)%4][0], corners[(i+1)%4][1])
		if from, to, ok := Inside(ax, ay, bx, by, p.Pane); ok {
			m := (from + to) / 2
			if put(ax+m*(bx-ax), ay+m*(by-ay)) {
				return
			}
		}
	}
}

func polyline(dst *ebiten.Image, p *Projection, points []float64, width float64, c color.RGBA) {
	// Points closer than two pixels are left out: a long track stays cheap.
	var line []float64
	lx, ly := math.Inf(1), math.Inf(1)
	for i := 0; i+1 < len(points); i += 2 {
		x, y := p.At(points[i], points[i+1])
		if math.Abs(x-lx)+math.Abs(y-ly) < 2 && i+3 < len(points) {
			continue
		}
		lx, ly = x, y
		line = append(line, x, y)
	}
	look.Trace(dst, line, width, c)
}

func swath(dst *ebiten.Image, p *Projection, l *look.Look, v *Plot) {
	if v.Swath <= 0 {
		return
	}
	sin, cos := math.Sincos(v.FishHeading)
	px, py := p.At(v.FishX+cos*v.Swath, v.FishY-sin*v.Swath)
	sx, sy := p.At(v.FishX-cos*v.Swath, v.FishY+sin*v.Swath)
	look.Stroke(dst, px, py, sx, sy, 2*l.Scale, look.Fade(l.Accent, 0.8))
}

func lines(dst *ebiten.Image, p *Projection, l *look.Look, v *Plot) {
	for _, line := range v.Lines {
		ax, ay := p.At(line.AX, line.AY)
		bx, by := p.At(line.BX, line.BY)
		width := 1.2 * l.Scale
		switch {
		case line.Logging:
			look.Stroke(dst, ax, ay, bx, by, 2.5*l.Scale, l.Accent)
		case line.Steered:
			look.Dashed(dst, ax, ay, bx, by, 2*width, 9*l.Scale, l.Accent)
		case line.Logged:
			look.Stroke(dst, ax, ay, bx, by, width, look.Fade(l.Plan, 0.6))
		default:
			look.Dashed(dst, ax, ay, bx, by, width, 6*l.Scale, l.Plan)
		}
	}
}

// lineNames letters the lines at both ends, or where they leave the pane.
func lineNames(dst *ebiten.Image, p *Projection, l *look.Look, v *Plot, labels *Labels) {
	for _, line := range v.Lines {
		if line.Name == "" {
			continue
		}
		ax, ay := p.At(line.AX, line.AY)
		bx, by := p.At(line.BX, line.BY)
		from, to, ok := Inside(ax, ay, bx, by, p.Pane.Inset(l.Px(20)))
		if !ok {
			continue
		}
		wide, tall := look.Wide(line.Name, l.Small)+6*l.Scale, look.Tall(l.Small)+l.Scale
		dx, dy := unit(bx-ax, by-ay)
		for i, share := range []float64{from, to} {
			x, y := ax+share*(bx-ax), ay+share*(by-ay)
			if share == float64(i) { // its very end: the name stands beyond it
				out := float64(2*i-1) * 12 * l.Scale
				x, y = x+out*dx, y+out*dy
			}
			r := image.Rect(int(x-wide/2), int(y-tall/2), int(x+wide/2), int(y+tall/2))
			if !labels.free(r) {
				continue
			}
			labels.Keep(r)
			tag(dst, l, line.Name, x, y)
		}
	}
}

func unit(x, y float64) (float64, float64) {
	if d := math.Hypot(x, y); d > 0 {
		return x / d, y / d
	}
	return 0, 0
}

// tag letters a word on a small ground, its middle at (x, y).
func tag(dst *ebiten.Image, l *look.Look, s string, x, y float64) {
	w, h := look.Wide(s, l.Small), look.Tall(l.Small)
	look.Fill(dst, image.Rect(int(x-w/2-3*l.Scale), int(y-h/2), int(x+w/2+3*l.Scale), int(y+h/2+l.Scale)), look.Fade(l.Panel, 0.85))
	look.Write(dst, s, l.Small, x, y-h/2, l.Ink, look.Middle)
}

// craft draws the vessel to scale, though never too small to see, and the fish.
func craft(dst *ebiten.Image, p *Projection, l *look.Look, v *Plot) {
	x, y := p.At(v.X, v.Y)
	long, wide := max(v.Length*p.PerM, 16*l.Scale), max(v.Beam*p.PerM, 7*l.Scale)
	sin, cos := math.Sincos(v.Heading)
	put := func(ahead, right float64) (float64, float64) {
		return x + ahead*sin + right*cos, y - ahead*cos + right*sin
	}
	var hull []float64
	for _, q := range [][2]float64{{0.5, 0}, {0.2, 0.5}, {-0.5, 0.42}, {-0.5, -0.42}, {0.2, -0.5}} {
		px, py := put(q[0]*long, q[1]*wide)
		hull = append(hull, px, py)
	}
	fx, fy := p.At(v.FishX, v.FishY)
	sx, sy := put(-0.5*long, 0)
	look.Stroke(dst, sx, sy, fx, fy, l.Scale, l.Cable)
	look.Shape(dst, hull, l.Hull)
	for i := 0; i < len(hull); i += 2 {
		j := (i + 2) % len(hull)
		look.Stroke(dst, hull[i], hull[i+1], hull[j], hull[j+1], l.Scale, l.Panel)
	}
	look.Disc(dst, fx, fy, 5*l.Scale, l.Panel)
	look.Disc(dst, fx, fy, 3.6*l.Scale, l.Theme.Fish)
	if v.TruthShown {
		tx, ty := p.At(v.TrueX, v.TrueY)
		look.Ring(dst, tx, ty, 7*l.Scale, 1.6*l.Scale, l.Truth)
	}
}

func spots(dst *ebiten.Image, p *Projection, l *look.Look, v *Plot, labels *Labels) {
	for _, s := range v.Spots {
		x, y := p.At(s.X, s.Y)
		if !image.Pt(int(x), int(y)).In(p.Pane) {
			continue
		}
		r := 6 * l.Scale
		if s.Chosen {
			look.Frame(dst, image.Rect(int(x-r*1.8), int(y-r*1.8), int(x+r*1.8), int(y+r*1.8)), max(l.Px(2), 1), l.Ink)
		}
		look.Ring(dst, x, y, r, 2.5*l.Scale, l.Panel)
		look.Ring(dst, x, y, r, 1.6*l.Scale, l.Mark)
		w, h := look.Wide(s.Label, l.Small)+6*l.Scale, look.Tall(l.Small)
		left, top := int(x+r+2*l.Scale), int(y-r-h/2)
		at := labels.Place(image.Rect(left, top, left+int(w), top+int(h)), p.Pane)
		tag(dst, l, s.Label, float64(at.Min.X+at.Max.X)/2, float64(at.Min.Y+at.Max.Y)/2)
	}
}

// margins letters scale, north and cursor, and keeps their places.
func margins(dst *ebiten.Image, p *Projection, l *look.Look, v *Plot, labels *Labels) {
	put := func(s string, x, y float64) {
		w, h := look.Wide(s, l.Small)/2+5*l.Scale, look.Tall(l.Small)/2+2*l.Scale
		labels.Keep(image.Rect(int(x-w), int(y-h), int(x+w), int(y+h)))
		tag(dst, l, s, x, y)
	}
	left, bottom := float64(p.Pane.Min.X)+10*l.Scale, float64(p.Pane.Max.Y)-10*l.Scale
	step := nice(70 * l.Scale / p.PerM)
	look.Stroke(dst, left, bottom, left+step*p.PerM, bottom, 5*l.Scale, l.Panel)
	look.Stroke(dst, left, bottom, left+step*p.PerM, bottom, 3*l.Scale, l.Ink)
	labels.Keep(image.Rect(int(left), int(bottom-8*l.Scale), int(left+step*p.PerM+4*l.Scale), p.Pane.Max.Y))
	label := fmt.Sprintf("%g m", step)
	put(label, left+0.5*look.Wide(label, l.Small)+2*l.Scale, bottom-12*l.Scale)
	nx, ny := float64(p.Pane.Max.X)-18*l.Scale, float64(p.Pane.Min.Y)+30*l.Scale
	look.Shape(dst, []float64{nx, ny - 18*l.Scale, nx + 5*l.Scale, ny, nx - 5*l.Scale, ny}, l.Ink)
	labels.Keep(image.Rect(int(nx-7*l.Scale), int(ny-18*l.Scale), int(nx+7*l.Scale), int(ny)))
	put("N", nx, ny+8*l.Scale)
	foot := bottom - 4*l.Scale
	if v.CursorOn && v.FigureOfCursor != "" {
		put(v.FigureOfCursor, float64(p.Pane.Max.X)-0.5*look.Wide(v.FigureOfCursor, l.Small)-8*l.Scale, foot)
		foot -= look.Tall(l.Small) + 6*l.Scale
	}
	if len(v.Unseen) > 0 && v.UnseenSays != "" {
		put(v.UnseenSays, float64(p.Pane.Max.X)-0.5*look.Wide(v.UnseenSays, l.Small)-8*l.Scale, foot)
	}
}

// nice is the round number at or below a value: 1, 2 or 5 times a power of ten.
func nice(v float64) float64 {
	ten := math.Pow(10, math.Floor(math.Log10(max(v, 1e-9))))
	for _, m := range []float64{5, 2} {
		if v >= m*ten {
			return m * ten
		}
	}
	return ten
}
