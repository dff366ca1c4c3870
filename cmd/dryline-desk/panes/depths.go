package panes

import (
	"image"
	"math"
	"strconv"

	"dryline/cmd/dryline-desk/look"

	"github.com/hajimehoshi/ebiten/v2"
)

// Depths are the soundings of a chart on a grid, and contours that are drawn by them and by nothing else.
type Depths struct {
	X0, Y0, Step float64 // of the first, and from one to the next, metres
	NX, NY       int
	Depth        []float64 // row by row from the south, metres

	Every float64 // from contour to contour, metres
	lines []contour
}

// contour is one of a depth: separate strokes, two points x, y each, metres.
type contour struct {
	depth  float64
	pieces []float64
}

// NewDepths draws the contours of soundings, as many as can be read, and none closer than twice what the soundings
// may be wrong by, in 95 of 100: they would follow the errors.
func NewDepths(x0, y0, step float64, nx, ny int, depth []float64, wrong float64) *Depths {
	d := &Depths{X0: x0, Y0: y0, Step: step, NX: nx, NY: ny, Depth: depth}
	low, high := math.Inf(1), math.Inf(-1)
	for _, z := range depth {
		low, high = min(low, z), max(high, z)
	}
	if !(high > low) || high-low < 4*wrong {
		return d // they would follow nothing but errors
	}
	d.Every = max(nice((high-low)/4), 0.5)
	for d.Every < 2*wrong {
		d.Every *= 2
	}
	for at := math.Ceil(low/d.Every) * d.Every; at <= high; at += d.Every {
		if pieces := d.trace(at); len(pieces) > 0 {
			d.lines = append(d.lines, contour{at, pieces})
		}
	}
	return d
}

// trace cuts every cell into four triangles about its middle, in which the depth is even, and puts the strokes
// of one depth together.
func (d *Depths) trace(level float64) (pieces []float64) {
	type corner struct{ x, y, z float64 }
	for j := range d.NY - 1 {
		for i := range d.NX - 1 {
			at := func(di, dj int) corner {
				return corner{d.X0 + float64(i+di)*d.Step, d.Y0 + float64(j+dj)*d.Step, d.Depth[(j+dj)*d.NX+i+di]}
			}
			round := [4]corner{at(0, 0), at(1, 0), at(1, 1), at(0, 1)}
			mid := corner{(round[0].x + round[2].x) / 2, (round[0].y + round[2].y) / 2, (round[0].z + round[1].z + round[2].z + round[3].z) / 4}
			for k, a := range round {
				triangle := [3]corner{a, round[(k+1)%4], mid}
				n := len(pieces)
				for e, p := range triangle {
					q := triangle[(e+1)%3]
					if (p.z < level) != (q.z < level) {
						t := (level - p.z) / (q.z - p.z)
						pieces = append(pieces, p.x+t*(q.x-p.x), p.y+t*(q.y-p.y))
					}
				}
				if len(pieces)-n != 4 {
					pieces = pieces[:n]
				}
			}
		}
	}
	return pieces
}

// contours draws the contours; every second is heavier.
func (d *Depths) contours(dst *ebiten.Image, p *Projection, l *look.Look) {
	if d == nil {
		return
	}
	var flat []float64
	for i, c := range d.lines {
		flat = flat[:0]
		for k := 0; k+1 < len(c.pieces); k += 2 {
			x, y := p.At(c.pieces[k], c.pieces[k+1])
			flat = append(flat, x, y)
		}
		look.Segments(dst, flat, (0.9+0.5*float64(i%2))*l.Scale, look.Fade(l.Soft, 0.7))
	}
}

// letter letters contours and soundings where there is room.
func (d *Depths) letter(dst *ebiten.Image, p *Projection, l *look.Look, labels *Labels) {
	if d == nil {
		return
	}
	tall := look.Tall(l.Small)
	put := func(s string, x, y float64, grounded bool) bool {
		wide := look.Wide(s, l.Small)
		r := image.Rect(int(x-wide/2), int(y-tall/2), int(x+wide/2)+1, int(y+tall/2)+1).Inset(-l.Px(2))
		if !r.In(p.Pane) || !labels.Try(r) {
			return false
		}
		ink, plate := l.Soft, 0.35
		if grounded {
			ink, plate = l.Ink, 0.8
		}
		look.Fill(dst, r, look.Fade(l.Panel, plate))
		look.Write(dst, s, l.Small, x, y-tall/2, ink, look.Middle)
		return true
	}
	for _, c := range d.lines {
		n := len(c.pieces) / 4
		for k := range n { // from the middle of its strokes on
			i := 4 * ((n/2 + k) % n)
			x, y := p.At((c.pieces[i]+c.pieces[i+2])/2, (c.pieces[i+1]+c.pieces[i+3])/2)
			if put(strconv.FormatFloat(c.depth, 'f', -1, 64)+" m", x, y, true) {
				break
			}
		}
	}
	// All soundings, or one of two, three, ... where they would touch.
	apart := d.Step * p.PerM
	skip := max(int(math.Ceil(1.5*look.Wide("00.0", l.Small)/max(apart, 1))), 1)
	for j := 0; j < d.NY; j += skip {
		for i := 0; i < d.NX; i += skip {
			x, y := p.At(d.X0+float64(i)*d.Step, d.Y0+float64(j)*d.Step)
			put(strconv.FormatFloat(d.Depth[j*d.NX+i], 'f', 1, 64), x, y, false)
		}
	}
}
