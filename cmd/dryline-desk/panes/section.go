package panes

import (
	"fmt"
	"image"
	"image/color"
	"math"

	"dryline/cmd/dryline-desk/look"

	"github.com/hajimehoshi/ebiten/v2"
)

// Side holds what the view from the side shows. Distances run along the tow,
// astern of the vessel's origin; heights are over still water, metres.
type Side struct {
	Bow, Stern   float64 // of the vessel's ends, forward of her origin
	Draft        float64
	SheaveAft    float64 // of the sheave, astern of the origin
	SheaveUp     float64
	Heave, Pitch float64

	CableOut  float64 // by the counter
	FishAft   float64 // as the desk has it, astern of the origin
	FishDepth float64
	FishPitch float64
	Height    float64 // over the bottom; 0 if unknown
	Locked    bool
	Layback   float64 // from the sheave
	Slack     bool    // the cable hangs: next to no way on
	Knocked   string  // what the crew makes of it that the fish touched something; empty if it did not
	Aground   bool    // and is not free of it

	BandLow, BandHigh float64 // wanted height, metres
	RangeScale        float64

	Now     float64 // seconds
	Speed   float64 // through the water, m/s
	Sea     Crests
	HangsAt float64 // pixel across that the fish hangs over

	Truth *SideTruth // nil unless it may be seen
}

// Crests are the heights of the waves along the vessel, as her crew sees them: over still water, metres,
// the first From metres ahead of her origin and each Step farther astern.
type Crests struct {
	From, Step float64
	Up         []float64
}

// at is the height so far astern, metres; where it is not known that of the nearest place that is.
func (c *Crests) at(astern float64) float64 {
	n := len(c.Up)
	if n == 0 || c.Step <= 0 {
		return 0
	}
	k := min(max((astern+c.From)/c.Step, 0), float64(n-1))
	i := min(int(k), max(n-2, 0))
	if i+1 >= n {
		return c.Up[i]
	}
	return c.Up[i] + (k-float64(i))*(c.Up[i+1]-c.Up[i])
}

// SideTruth holds what the instruments do not know.
type SideTruth struct {
	Cable []float64                    // distance astern and height of its points, fish first
	Floor func(astern float64) float64 // height
}

// Section is the view from the side: it remembers the bottom the fish has
// passed over.
type Section struct {
	run    float64 // of the fish along its way, metres
	lastX  float64
	lastY  float64
	begun  bool
	bottom []sounding
	depth  float64 // shown at the lower edge, eased
	width  float64 // shown ahead of the fish, eased
	line   []float64
	puffs  puffs

	uniforms map[string]any // of the water
}

// sounding is the depth of the bottom where the fish was, and how bright the record has it, 0 to 1.
type sounding struct{ run, depth, tone float64 }

// Hear takes the fish's place, the depth of the bottom under it, and how bright the record has
// the ground there.
func (s *Section) Hear(x, y, depth, tone float64, locked bool) {
	if s.begun {
		s.run += math.Hypot(x-s.lastX, y-s.lastY)
	}
	s.begun, s.lastX, s.lastY = true, x, y
	if !locked || depth <= 0 {
		return
	}
	if n := len(s.bottom); n > 0 && s.run-s.bottom[n-1].run < 0.2 {
		return
	}
	s.bottom = append(s.bottom, sounding{s.run, depth, tone})
	if len(s.bottom) > 4000 {
		s.bottom = append(s.bottom[:0], s.bottom[2000:]...)
	}
}

// under is the last depth heard, 0 for none.
func (s *Section) under() float64 {
	if n := len(s.bottom); n > 0 {
		return s.bottom[n-1].depth
	}
	return 0
}

// below is the depth of the bottom under the fish as far as it is known: of what
// it lies on, or the last heard; 0 for none.
func (s *Section) below(v *Side) float64 {
	if v.Aground {
		return v.FishDepth + fishRadius
	}
	return s.under()
}

// fishRadius is that of a fish, metres.
const fishRadius = 0.15

// lost says that the bottom is not heard now, and what the last of it was.
func (s *Section) lost(v *Side) string {
	if v.Locked || v.Aground || len(s.bottom) == 0 {
		return ""
	}
	says := fmt.Sprintf("bottom lost, last %.0f m", s.under())
	if back := s.run - s.bottom[len(s.bottom)-1].run; back >= 10 {
		says += fmt.Sprintf(" deep %.0f m back", back)
	}
	return says
}

// frame is how distances and heights become pixels.
type frame struct {
	r          image.Rectangle
	origin     float64 // pixel of the vessel's origin
	sea        float64 // pixel of still water
	sx, sy     float64 // pixels a metre
	exaggerate float64
	craft      float64 // how many times its size the vessel is drawn, about her sheave
}

func (f *frame) x(astern float64) float64 { return f.origin - astern*f.sx }
func (f *frame) y(up float64) float64     { return f.sea - up*f.sy }

// At scale 1: how tall the air over the water is at least, and how long the vessel is drawn.
const (
	airTall    = 50.0
	leastCraft = 84.0
)

// fit chooses scales so that vessel, fish and bottom are in view, the fish over its pixel. The scale is
// the same both ways as long as there is room ahead of the fish for it.
func (s *Section) fit(v *Side, r image.Rectangle, scale float64) frame {
	deepest := max(s.below(v), v.FishDepth+max(v.Height, 2), 6)
	wantDepth := deepest*1.12 + 1
	wantWidth := v.FishAft + v.Bow + 6
	ease := func(have, want float64) float64 {
		if have == 0 || math.Abs(want-have) > 0.5*have {
			return want
		}
		return have + (want-have)*0.05
	}
	s.depth, s.width = ease(s.depth, wantDepth), ease(s.width, wantWidth)
	air := max(v.SheaveUp+2.5, (mast+0.2)*v.deck(), 5)
	// Over the water there is room for her mast and a line of lettering, whatever the scale.
	above := airTall * scale
	sy := min(float64(r.Dy())/(s.depth+air), (float64(r.Dy())-above)/s.depth)
	above = max(air*sy, above)
	hangs := v.HangsAt
	if room := float64(r.Max.X) - hangs; hangs <= float64(r.Min.X) || room < 0.15*float64(r.Dx()) {
		hangs = float64(r.Min.X) + 0.6*float64(r.Dx())
	}
	sx := min((float64(r.Max.X)-hangs)/max(s.width, wantWidth), sy)
	return frame{
		r: r, sx: sx, sy: sy, exaggerate: sy / sx,
		origin: hangs + v.FishAft*sx, sea: float64(r.Min.Y) + above, craft: max(1, min(leastCraft*scale/((v.Bow-v.Stern)*sx), 3)),
	}
}

// Draw draws the view.
func (s *Section) Draw(dst *ebiten.Image, r image.Rectangle, l *look.Look, v *Side) {
	pane := dst.SubImage(r).(*ebiten.Image)
	f := s.fit(v, r, l.Scale)
	s.water(pane, &f, l, v)
	s.floor(pane, &f, l, v)
	s.underfoot(pane, &f, l, v)
	s.band(pane, &f, l, v)
	s.truth(pane, &f, l, v)
	s.wake(pane, &f, l, v)
	s.cable(pane, &f, l, v)
	s.vessel(pane, &f, l, v)
	s.fish(pane, &f, l, v)
	s.puffs.draw(pane, s, &f, l, v)
	s.figures(pane, &f, l, v)
}

// floor draws the bottom as heard, and where nothing was heard yet the last
// depth, broken.
func (s *Section) floor(dst *ebiten.Image, f *frame, l *look.Look, v *Side) {
	if len(s.bottom) == 0 {
		y := float64(f.r.Max.Y) - look.Tall(l.Small) - 4*l.Scale
		look.Write(dst, "no bottom heard yet", l.Small, float64(f.r.Min.X)+8*l.Scale, y, l.Ink, look.Left)
		return
	}
	var line []float64
	var shades []color.RGBA
	for i := len(s.bottom) - 1; i >= 0; i-- {
		b := s.bottom[i]
		px := f.x(v.FishAft + s.run - b.run)
		if v.Aground && px > f.x(v.FishAft)-underHalf*l.Scale {
			continue // what it lies on is drawn by where it lies
		}
		if n := len(line); n > 1 && line[n-2]-px < 1 {
			continue // less than a pixel on
		}
		line, shades = append(line, px, f.y(-b.depth)), append(shades, ground(l, b.tone))
		if px < float64(f.r.Min.X) {
			break
		}
	}
	look.UnderShaded(dst, line, float64(f.r.Max.Y), shades)
	look.Trace(dst, line, 1.5*l.Scale, l.Ink)
	if v.Aground || len(line) == 0 {
		return
	}
	// Ahead of where it was last heard nothing is known.
	first, y := max(line[0], float64(f.r.Min.X)), line[1]
	look.Dashed(dst, first, y, float64(f.r.Max.X), y, l.Scale, 5*l.Scale, l.Soft)
	const says = "not heard yet"
	if room := float64(f.r.Max.X) - first; v.Locked && room > look.Wide(says, l.Small)+20*l.Scale {
		look.Write(dst, says, l.Small, float64(f.r.Max.X)-8*l.Scale, min(y+3*l.Scale, float64(f.r.Max.Y)-look.Tall(l.Small)), l.Ink, look.Right)
	}
}

// ground is the colour of a floor that the record has so bright.
func ground(l *look.Look, tone float64) color.RGBA {
	if tone >= OrdinaryEcho {
		return mixed(l.Ground, l.Air, min(1.1*(tone-OrdinaryEcho), 0.6))
	}
	return mixed(l.Ground, l.Dull, min(1.6*(OrdinaryEcho-tone), 0.6))
}

// underHalf is half of what is drawn of the bottom that the fish lies on, at
// scale 1.
const underHalf = 46.0

// underfoot draws what the fish lies on, as far as it is felt.
func (s *Section) underfoot(dst *ebiten.Image, f *frame, l *look.Look, v *Side) {
	if !v.Aground {
		return
	}
	x, y, half := f.x(v.FishAft), f.y(-s.below(v)), underHalf*l.Scale
	line := []float64{x - half, y + 3*l.Scale, x - half/2, y, x + half/2, y, x + half, y + 3*l.Scale}
	look.Under(dst, line, float64(f.r.Max.Y), l.Ground)
	look.Trace(dst, line, 1.5*l.Scale, l.Ink)
}

// band draws the wanted height over the bottom, where that is known.
func (s *Section) band(dst *ebiten.Image, f *frame, l *look.Look, v *Side) {
	floor := -s.below(v)
	if floor == 0 || v.BandHigh <= 0 || s.lost(v) != "" {
		return
	}
	x0, x1 := f.x(v.FishAft)-26*l.Scale, f.x(v.FishAft)+26*l.Scale
	y0, y1 := f.y(min(floor+v.BandHigh, 0)), f.y(min(floor+v.BandLow, 0))
	look.Fill(dst, image.Rect(int(x0), int(y0), int(x1), int(y1)), look.Fade(l.Band, 0.35))
	for _, y := range []float64{y0, y1} {
		y = math.Floor(y) + 0.5 // the middle of a row of pixels: an edge between two is a blur
		look.Stroke(dst, x0, y, x1, y, 1.5*l.Scale, l.Band)
	}
}

func (s *Section) truth(dst *ebiten.Image, f *frame, l *look.Look, v *Side) {
	t := v.Truth
	if t == nil {
		return
	}
	if t.Floor != nil {
		var line []float64
		for px := float64(f.r.Min.X); px <= float64(f.r.Max.X); px += 4 * l.Scale {
			line = append(line, px, f.y(t.Floor((f.origin-px)/f.sx)))
		}
		for i := 0; i+3 < len(line); i += 4 { // every other piece: dotted
			look.Stroke(dst, line[i], line[i+1], line[i+2], line[i+3], 2*l.Scale, l.Truth)
		}
	}
	var line []float64
	for i := 0; i+1 < len(t.Cable); i += 2 {
		line = append(line, f.x(t.Cable[i]), f.y(t.Cable[i+1]))
	}
	look.Trace(dst, line, 1.5*l.Scale, l.Truth)
}

// cable draws the cable from the sheave to where the desk has the fish, see
// [hang].
func (s *Section) cable(dst *ebiten.Image, f *frame, l *look.Look, v *Side) {
	up := (v.SheaveUp + v.Heave - v.SheaveAft*math.Sin(v.Pitch)) * f.craft
	floor := math.Inf(-1)
	if below := s.below(v); below > 0 && s.lost(v) == "" {
		floor = -below
	}
	s.line = hang(s.line[:0], v.SheaveAft, up, v.FishAft, -v.FishDepth, v.CableOut, v.Slack, floor)
	for i := 0; i < len(s.line); i += 2 {
		s.line[i], s.line[i+1] = f.x(s.line[i]), f.y(s.line[i+1])
	}
	look.Trace(dst, s.line, 1.8*l.Scale, l.Cable)
}

func mixed(a, b color.RGBA, t float64) color.RGBA {
	f := func(p, q uint8) uint8 { return uint8(float64(p) + t*(float64(q)-float64(p)) + 0.5) }
	return color.RGBA{f(a.R, b.R), f(a.G, b.G), f(a.B, b.B), 0xff}
}
