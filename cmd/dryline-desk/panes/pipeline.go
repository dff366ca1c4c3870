package panes

import (
	"image"
	"image/color"
	"math"

	"dryline/cmd/dryline-desk/look"

	"github.com/hajimehoshi/ebiten/v2"
)

// Run is where a pipeline runs that is charted.
type Run struct {
	Name string
	Path []float64 // x and y in turn, metres
}

// ringEvery is how far apart the rings on a charted pipeline are, pixels at scale 1:
// what is charted is ringed.
const ringEvery = 44

// Charted draws a pipeline as a line with rings on it.
func Charted(dst *ebiten.Image, p *Projection, path []float64, l *look.Look, c color.RGBA) {
	step := ringEvery * l.Scale
	due := step / 2
	for i := 0; i+3 < len(path); i += 2 {
		ax, ay := p.At(path[i], path[i+1])
		bx, by := p.At(path[i+2], path[i+3])
		look.Stroke(dst, ax, ay, bx, by, 1.4*l.Scale, c)
		long := math.Hypot(bx-ax, by-ay)
		from, to, ok := Inside(ax, ay, bx, by, p.Pane)
		if ok { // rings far outside the pane are only counted
			for at := due + step*math.Ceil(max(from*long-due, 0)/step); at <= to*long; at += step {
				look.Ring(dst, ax+(bx-ax)*at/long, ay+(by-ay)*at/long, 3.2*l.Scale, 1.2*l.Scale, c)
			}
		}
		due += step*max(math.Ceil((long-due)/step), 0) - long
	}
}

// runNames letters charted pipelines beside the first stretch of theirs that has
// room for it.
func runNames(dst *ebiten.Image, p *Projection, l *look.Look, runs []Run, labels *Labels) {
	for _, run := range runs {
		wide, tall := look.Wide(run.Name, l.Small)+6*l.Scale, look.Tall(l.Small)+l.Scale
		for i := 0; i+3 < len(run.Path); i += 2 {
			ax, ay := p.At(run.Path[i], run.Path[i+1])
			bx, by := p.At(run.Path[i+2], run.Path[i+3])
			from, to, ok := Inside(ax, ay, bx, by, p.Pane)
			if !ok || run.Name == "" {
				continue
			}
			m := (from + to) / 2
			// To the right of the run, on the side where it is not.
			x, y := ax+m*(bx-ax)+wide/2+6*l.Scale, ay+m*(by-ay)
			if below := tall/2 + 4*l.Scale; (bx-ax)*(by-ay) < 0 {
				y += below
			} else {
				y -= below
			}
			r := image.Rect(int(x-wide/2), int(y-tall/2), int(x+wide/2), int(y+tall/2))
			if r.In(p.Pane) && labels.Try(r) {
				tag(dst, l, run.Name, x, y)
				break
			}
		}
	}
}
