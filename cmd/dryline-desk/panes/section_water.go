package panes

import (
	"image/color"
	"math"

	"dryline/cmd/dryline-desk/look"

	"github.com/hajimehoshi/ebiten/v2"
)

// surfacePoints is how many heights of the water the shader takes.
const surfacePoints = 64

// water draws air and water, the surface as the crew sees it.
func (s *Section) water(dst *ebiten.Image, f *frame, l *look.Look, v *Side) {
	surface := make([]float32, surfacePoints)
	across := float64(f.r.Dx()) / (surfacePoints - 1)
	for i := range surface {
		astern := (f.origin - float64(f.r.Min.X) - float64(i)*across) / f.sx
		surface[i] = float32(f.y(v.Sea.at(astern)) - float64(f.r.Min.Y))
	}
	if s.uniforms == nil {
		s.uniforms = map[string]any{}
	}
	u := s.uniforms
	u["Surface"], u["Across"] = surface, float32(across)
	u["PerM"], u["Murk"], u["Now"], u["Shine"] = float32(f.sy), float32(0.45*s.depth), float32(math.Mod(v.Now, 600)), float32(0.5)
	u["Sky"], u["Air"], u["Sea"], u["Deep"] = triple(l.Sky), triple(l.Air), triple(l.Sea), triple(l.Deep)
	wide, tall := float32(f.r.Dx()), float32(f.r.Dy())
	corner := func(x, y int, sx, sy float32) ebiten.Vertex {
		return ebiten.Vertex{DstX: float32(x), DstY: float32(y), SrcX: sx, SrcY: sy, ColorR: 1, ColorG: 1, ColorB: 1, ColorA: 1}
	}
	dst.DrawTrianglesShader([]ebiten.Vertex{
		corner(f.r.Min.X, f.r.Min.Y, 0, 0), corner(f.r.Max.X, f.r.Min.Y, wide, 0),
		corner(f.r.Min.X, f.r.Max.Y, 0, tall), corner(f.r.Max.X, f.r.Max.Y, wide, tall),
	}, []uint16{0, 1, 2, 1, 3, 2}, sectionProgram(), &ebiten.DrawTrianglesShaderOptions{Uniforms: u})
	var crest []float64
	for i, y := range surface {
		crest = append(crest, float64(f.r.Min.X)+float64(i)*across, float64(f.r.Min.Y)+float64(y))
	}
	look.Trace(dst, crest, l.Scale, look.Fade(l.Ink, 0.7))
}

// wake draws the white water about her: at the bow and trailing off astern, by her way through the water.
// Our own choice of how it looks; the sonar's wake is the engine's.
func (s *Section) wake(dst *ebiten.Image, f *frame, l *look.Look, v *Side) {
	way := min(max(v.Speed/3, 0), 1.4)
	if way < 0.05 {
		return
	}
	stern, bow := -v.Stern, -v.Bow // astern of the origin
	foam := func(from, to, thick float64, weight float64) {
		const pieces = 28
		var line []float64
		var shades []color.RGBA
		lower := make([]float64, 0, 2*pieces+2)
		for i := range pieces + 1 {
			k := float64(i) / pieces
			astern := from + k*(to-from)
			// Lumps that go astern with the water.
			lump := 0.6 + 0.4*math.Sin(1.7*(astern-v.Speed*v.Now)+2*math.Sin(0.6*(astern-v.Speed*v.Now)))
			up := v.Sea.at(astern)
			fade := (1 - k) * weight * lump
			line = append(line, f.x(astern), f.y(up+0.25*thick*(1-k)*lump))
			lower = append(lower, f.x(astern), f.y(up-thick*(1-k)*lump))
			shades = append(shades, look.Fade(l.Foam, min(fade, 1)))
		}
		look.Between(dst, line, lower, shades)
	}
	foam(stern-0.3, stern+5+14*way, 0.35*way, 0.8)
	foam(bow+0.4, bow+2.2*way+0.6, 0.3*way, 0.9)
}

// puffs are clouds of what a fish that touches the floor throws up.
type puffs struct {
	list []puff
	last float64 // when the last one was thrown up, seconds
}

// puff is one cloud: where along the fish's way, how deep, and when.
type puff struct{ run, depth, began float64 }

const (
	puffStays = 9.0 // seconds: our own choice
	puffEvery = 0.7 // while the fish drags
	mostPuffs = 24
)

// draw throws up a puff while the fish touches, and draws those that hang in the water.
func (p *puffs) draw(dst *ebiten.Image, s *Section, f *frame, l *look.Look, v *Side) {
	if v.Now < p.last { // another session, or one that is flown again
		p.list, p.last = nil, v.Now
	}
	if touching := v.Aground || v.Knocked != ""; touching && (v.Now-p.last >= puffEvery || p.last == 0) {
		p.list, p.last = append(p.list, puff{s.run, v.FishDepth, v.Now}), v.Now
		if len(p.list) > mostPuffs {
			p.list = append(p.list[:0], p.list[len(p.list)-mostPuffs:]...)
		}
	}
	for _, c := range p.list {
		age := v.Now - c.began
		if age >= puffStays {
			continue
		}
		share := age / puffStays
		x := f.x(v.FishAft + s.run - c.run)
		y := f.y(-c.depth - 0.1 + 0.9*math.Sqrt(share))
		size := math.Min((3+15*math.Sqrt(share))*l.Scale, 0.2*float64(f.r.Dy()))
		for k, at := range [][2]float64{{0, 0}, {-0.9, 0.25}, {0.7, 0.35}, {-0.2, -0.5}} {
			look.Disc(dst, x+at[0]*size, y+at[1]*size, size*(0.8-0.1*float64(k)), look.Fade(l.Ground, 0.3*(1-share)))
		}
	}
}
