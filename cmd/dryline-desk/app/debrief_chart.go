package app

import (
	"image"
	"math"

	"dryline/cmd/dryline-desk/look"
	"dryline/cmd/dryline-desk/panes"
	"dryline/sim/debrief"

	"github.com/hajimehoshi/ebiten/v2"
)

// truth draws the mosaic with what truly lies there and where it was marked.
func (d *Debrief) truth(g *Game, dst *ebiten.Image) {
	l := g.Look
	labels := panes.Chart(dst, &d.projection, d.mosaic, g.chartShade(d.brightness, d.mosaic), l, &d.plot)
	pane := dst.SubImage(d.chart).(*ebiten.Image)
	keep := func(x, y, s float64) {
		labels.Keep(image.Rect(int(x-s), int(y-s), int(x+s), int(y+s)))
	}
	hereX, hereY := d.projection.At(d.plot.FishX, d.plot.FishY)
	shown := len(d.plot.Fish) > 0
	if shown {
		keep(hereX, hereY, 12*l.Scale)
	}
	for _, f := range d.report.FalseContacts {
		if f.Verdict == debrief.Candidate {
			continue // nobody said it was anything
		}
		x, y := d.projection.At(f.X, f.Y)
		cross(pane, l, x, y)
		keep(x, y, markSize*l.Scale)
	}
	for i := range d.report.Targets {
		t := &d.report.Targets[i]
		along(pane, l, d.run(t))
		x, y := d.at(t)
		size := d.size(t, l)
		if t.Contact == nil {
			missed(pane, l, x, y, size)
			keep(x, y, size)
			continue
		}
		if t.East != nil && t.North != nil {
			mx, my := d.projection.At(t.X+*t.East, t.Y+*t.North)
			x, y := d.projection.At(t.X, t.Y)
			look.Stroke(pane, x, y, mx, my, 3.5*l.Scale, l.Panel)
			look.Stroke(pane, x, y, mx, my, 1.5*l.Scale, l.Mark)
			spot(pane, l, mx, my)
			keep(mx, my, markSize*l.Scale)
		}
		found(pane, l, x, y, size)
		keep(x, y, size)
	}
	for i := range d.report.Targets {
		t := &d.report.Targets[i]
		x, y := d.at(t)
		if !image.Pt(int(x), int(y)).In(d.chart) {
			continue
		}
		d.name(pane, l, t, x, y, d.size(t, l), &labels)
	}
	if shown { // where the fish was at the moment chosen
		look.Ring(pane, hereX, hereY, 10*l.Scale, 4*l.Scale, l.Panel)
		look.Ring(pane, hereX, hereY, 10*l.Scale, 2*l.Scale, l.Accent)
		look.Disc(pane, hereX, hereY, 3*l.Scale, l.Accent)
	}
	d.drawLegend(dst, l)
}

const (
	markSize  = 5.0 // half, of a mark, at scale 1
	leastSize = 7.0 // half, of what is drawn round an object
)

// run is where a pipeline runs, pixels x and y in turn; empty for an object.
func (d *Debrief) run(t *debrief.Target) []float64 {
	if t.Kind != "pipeline" {
		return nil
	}
	var line []float64
	for _, q := range d.pipelines[t.Name] {
		x, y := d.projection.At(q.X, q.Y)
		line = append(line, x, y)
	}
	return line
}

// along draws the run of a pipeline, broken so that what is seen of it shows.
func along(dst *ebiten.Image, l *look.Look, run []float64) {
	for i := 0; i+3 < len(run); i += 2 {
		look.Dashed(dst, run[i], run[i+1], run[i+2], run[i+3], 3.5*l.Scale, 10*l.Scale, l.Panel)
		look.Dashed(dst, run[i], run[i+1], run[i+2], run[i+3], 2*l.Scale, 10*l.Scale, l.Truth)
	}
}

// at is where the sign of an object stands: in the middle of it, and of a
// pipeline whose middle is not on the chart in the middle of the first stretch
// that is.
func (d *Debrief) at(t *debrief.Target) (x, y float64) {
	x, y = d.projection.At(t.X, t.Y)
	if image.Pt(int(x), int(y)).In(d.chart) {
		return x, y
	}
	run := d.run(t)
	for i := 0; i+3 < len(run); i += 2 {
		if from, to, ok := panes.Inside(run[i], run[i+1], run[i+2], run[i+3], d.chart); ok {
			m := (from + to) / 2
			return run[i] + m*(run[i+2]-run[i]), run[i+1] + m*(run[i+3]-run[i+1])
		}
	}
	return x, y
}

// size is half the size of what is drawn round an object: the object shows
// inside it. A pipeline has its run.
func (d *Debrief) size(t *debrief.Target, l *look.Look) float64 {
	if t.Kind == "pipeline" {
		return leastSize * l.Scale
	}
	return max(leastSize*l.Scale, t.Length/2*d.projection.PerM+3*l.Scale)
}

func found(dst *ebiten.Image, l *look.Look, x, y, size float64) {
	look.Ring(dst, x, y, size, 3.5*l.Scale, l.Panel)
	look.Ring(dst, x, y, size, 2*l.Scale, l.Truth)
}

func missed(dst *ebiten.Image, l *look.Look, x, y, size float64) {
	r := image.Rect(int(x-size), int(y-size), int(x+size), int(y+size))
	look.Frame(dst, r.Inset(-l.Px(1)), max(l.Px(4), 1), l.Panel)
	look.Frame(dst, r, max(l.Px(2), 1), l.Truth)
}

func spot(dst *ebiten.Image, l *look.Look, x, y float64) {
	look.Disc(dst, x, y, 4*l.Scale, l.Panel)
	look.Disc(dst, x, y, 2.8*l.Scale, l.Mark)
}

func cross(dst *ebiten.Image, l *look.Look, x, y float64) {
	s := markSize * l.Scale
	for _, stroke := range [][4]float64{{x - s, y - s, x + s, y + s}, {x - s, y + s, x + s, y - s}} {
		look.Stroke(dst, stroke[0], stroke[1], stroke[2], stroke[3], 4*l.Scale, l.Panel)
	}
	for _, stroke := range [][4]float64{{x - s, y - s, x + s, y + s}, {x - s, y + s, x + s, y - s}} {
		look.Stroke(dst, stroke[0], stroke[1], stroke[2], stroke[3], 2*l.Scale, l.Mark)
	}
}

// name letters an object beside what is drawn round it, with a line to it where
// the lettering had to move away.
func (d *Debrief) name(dst *ebiten.Image, l *look.Look, t *debrief.Target, x, y, size float64, labels *panes.Labels) {
	says := t.Name + ", missed"
	switch {
	case t.Contact != nil && t.Distance != nil:
		says = t.Name + ", found, " + t.Off()
	case t.Contact != nil:
		says = t.Name + ", found"
	}
	wide, tall := int(look.Wide(says, l.Small))+l.Px(4), int(look.Tall(l.Small))
	left, top := int(x+size+3*l.Scale), int(y)-tall/2
	at := labels.Place(image.Rect(left, top, left+wide, top+tall), d.chart)
	// From the nearest point of the lettering to the ring.
	nx := min(max(x, float64(at.Min.X)), float64(at.Max.X))
	ny := min(max(y, float64(at.Min.Y)), float64(at.Max.Y))
	if far := math.Hypot(nx-x, ny-y); far > size+6*l.Scale {
		sx, sy := x+(nx-x)*size/far, y+(ny-y)*size/far
		look.Stroke(dst, sx, sy, nx, ny, 3*l.Scale, l.Panel)
		look.Stroke(dst, sx, sy, nx, ny, 1.2*l.Scale, l.Truth)
	}
	label(dst, l, says, float64(at.Min.X+l.Px(2)), float64(at.Min.Y))
}

// entry is a sign of the chart and what it stands for.
type entry struct {
	says string
	draw func(dst *ebiten.Image, l *look.Look, x, y float64)
}

func legendEntries() []entry {
	return []entry{
		{"object, found", func(dst *ebiten.Image, l *look.Look, x, y float64) { found(dst, l, x, y, 5*l.Scale) }},
		{"object, missed", func(dst *ebiten.Image, l *look.Look, x, y float64) { missed(dst, l, x, y, 5*l.Scale) }},
		{"pipeline", func(dst *ebiten.Image, l *look.Look, x, y float64) {
			along(dst, l, []float64{x - 8*l.Scale, y, x + 8*l.Scale, y})
		}},
		{"where it was marked", func(dst *ebiten.Image, l *look.Look, x, y float64) {
			look.Stroke(dst, x-6*l.Scale, y+3*l.Scale, x+4*l.Scale, y-2*l.Scale, 1.5*l.Scale, l.Mark)
			spot(dst, l, x+4*l.Scale, y-2*l.Scale)
		}},
		{"mark where nothing lies", cross},
		{"fish at the moment chosen", func(dst *ebiten.Image, l *look.Look, x, y float64) {
			look.Ring(dst, x, y, 6*l.Scale, 2*l.Scale, l.Accent)
			look.Disc(dst, x, y, 2.5*l.Scale, l.Accent)
		}},
		{"vessel's track", func(dst *ebiten.Image, l *look.Look, x, y float64) {
			look.Stroke(dst, x-7*l.Scale, y, x+7*l.Scale, y, 2*l.Scale, l.Theme.Track)
		}},
		{"fish's track", func(dst *ebiten.Image, l *look.Look, x, y float64) {
			look.Stroke(dst, x-7*l.Scale, y, x+7*l.Scale, y, 2*l.Scale, l.Wake)
		}},
	}
}

// eachEntry lays the legend out in rows of a width from (0, 0) and returns its
// height.
func eachEntry(l *look.Look, width int, f func(e entry, x, y float64)) int {
	sign, gap, row := 22*l.Scale, 14*l.Scale, look.Tall(l.Small)+5*l.Scale
	x, y := 6*l.Scale, 5*l.Scale
	for _, e := range legendEntries() {
		wide := sign + look.Wide(e.says, l.Small)
		if x > 6*l.Scale && x+wide > float64(width)-6*l.Scale {
			x, y = 6*l.Scale, y+row
		}
		f(e, x, y)
		x += wide + gap
	}
	return int(y+row) + 1
}

func (d *Debrief) legendTall(l *look.Look, width int) int {
	return eachEntry(l, width, func(entry, float64, float64) {})
}

func (d *Debrief) drawLegend(dst *ebiten.Image, l *look.Look) {
	look.Fill(dst, d.legend, l.Panel)
	x0, y0 := float64(d.legend.Min.X), float64(d.legend.Min.Y)
	eachEntry(l, d.legend.Dx(), func(e entry, x, y float64) {
		e.draw(dst, l, x0+x+9*l.Scale, y0+y+look.Tall(l.Small)/2)
		look.Write(dst, e.says, l.Small, x0+x+22*l.Scale, y0+y, l.Ink, look.Left)
	})
}
