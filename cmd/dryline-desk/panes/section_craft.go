package panes

import (
	"math"

	"dryline/cmd/dryline-desk/look"

	"github.com/hajimehoshi/ebiten/v2"
)

// Tops of what stands on the deck, in heights of the deck.
const (
	house = 2.7
	mast  = 3.7
)

// deck is the height of the deck drawn: a share of the length, and below the
// sheave.
func (v *Side) deck() float64 { return min(0.11*(v.Bow-v.Stern), 0.8*max(v.SheaveUp, 1)) }

// vessel draws her as she rides: heave and pitch are what the crew feels.
func (s *Section) vessel(dst *ebiten.Image, f *frame, l *look.Look, v *Side) {
	sin, cos := math.Sincos(v.Pitch)
	at := func(forward, up float64) (x, y float64) {
		ahead := forward*cos - up*sin + v.SheaveAft // of the sheave, about which she is drawn larger
		return f.x(v.SheaveAft - f.craft*ahead), f.y(f.craft * (up*cos + v.Heave + forward*sin))
	}
	long := v.Bow - v.Stern
	free := v.deck()
	// along is a share of her length from the stern, up in heights of the deck.
	outline := func(points ...[2]float64) []float64 {
		var p []float64
		for _, q := range points {
			x, y := at(v.Stern+q[0]*long, q[1])
			p = append(p, x, y)
		}
		return p
	}
	deckAt := func(along float64) float64 { return free * (1 + 0.7*max(along-0.35, 0)*max(along-0.35, 0)/0.4225) }
	look.Shape(dst, outline(
		[2]float64{0, free}, [2]float64{0.015, -0.5 * v.Draft}, [2]float64{0.13, -v.Draft}, [2]float64{0.8, -v.Draft},
		[2]float64{0.93, -0.55 * v.Draft}, [2]float64{0.965, 0.05}, [2]float64{1, deckAt(1)},
		[2]float64{0.85, deckAt(0.85)}, [2]float64{0.7, deckAt(0.7)}, [2]float64{0.5, deckAt(0.5)}, [2]float64{0.3, free},
	), l.Hull)
	// Rubbing strake, a shade lighter.
	strake := mixed(l.Hull, l.Air, 0.45)
	look.Trace(dst, outline([2]float64{0.01, 0.68 * free}, [2]float64{0.4, 0.7 * free}, [2]float64{0.7, 0.72 * deckAt(0.7)}, [2]float64{0.965, 0.8 * deckAt(0.965)}), 1.4*l.Scale, strake)
	// Wheelhouse with its windows, and a mast on it.
	roof := house * free
	foot := deckAt(0.5)
	look.Shape(dst, outline([2]float64{0.5, foot}, [2]float64{0.5, roof}, [2]float64{0.485, roof}, [2]float64{0.485, roof + 0.1*free},
		[2]float64{0.735, roof + 0.1*free}, [2]float64{0.735, roof}, [2]float64{0.715, roof}, [2]float64{0.745, deckAt(0.745)}), l.Hull)
	lights := mixed(l.Sky, l.Caution, 0.12)
	low, high := roof-0.75*free, roof-0.18*free
	for _, w := range [][3]float64{{0.515, 0.58, 0}, {0.595, 0.655, 0}, {0.67, 0.712, 0.012}} {
		look.Shape(dst, outline([2]float64{w[0], low}, [2]float64{w[0], high}, [2]float64{w[1] - w[2], high}, [2]float64{w[1], low}), lights)
	}
	look.Trace(dst, outline([2]float64{0.56, roof}, [2]float64{0.56, mast * free}), 1.6*l.Scale, l.Hull)
	look.Trace(dst, outline([2]float64{0.525, (mast - 0.45) * free}, [2]float64{0.595, (mast - 0.45) * free}), 1.4*l.Scale, l.Hull)
	// Rails aft and at the bow.
	rail := outline([2]float64{0.02, free}, [2]float64{0.02, free * 1.55}, [2]float64{0.2, free * 1.55}, [2]float64{0.2, free})
	look.Trace(dst, rail, l.Scale, l.Hull)
	look.Trace(dst, outline([2]float64{0.8, deckAt(0.8)}, [2]float64{0.8, deckAt(0.8) + 0.5*free}, [2]float64{0.985, deckAt(0.985) + 0.45*free}, [2]float64{0.985, deckAt(0.985)}), l.Scale, l.Hull)
	s.sheave(dst, l, v, at, free)
}

// sheave draws the frame at the stern with the sheave in it, and the winch on deck: both turn with the
// cable.
func (s *Section) sheave(dst *ebiten.Image, l *look.Look, v *Side, at func(forward, up float64) (x, y float64), free float64) {
	long := v.Bow - v.Stern
	x1, y1 := at(-v.SheaveAft, v.SheaveUp)
	for _, leg := range []float64{0.05, 0.14} {
		x0, y0 := at(max(-v.SheaveAft+leg*long, v.Stern+0.01*long), free)
		look.Stroke(dst, x0, y0, x1, y1, 2.2*l.Scale, l.Hull)
	}
	wx, wy := at(v.Stern+0.33*long, free*1.35)
	look.Stroke(dst, x1, y1, wx, wy, l.Scale, l.Cable)
	for _, w := range []struct{ x, y, r, turn float64 }{{x1, y1, 4.5, v.CableOut / 0.3}, {wx, wy, 5.5, v.CableOut / 0.5}} {
		look.Disc(dst, w.x, w.y, w.r*l.Scale, mixed(l.Hull, l.Air, 0.25))
		look.Ring(dst, w.x, w.y, w.r*l.Scale, 1.5*l.Scale, l.Hull)
		sin, cos := math.Sincos(w.turn)
		r := 0.75 * w.r * l.Scale
		look.Stroke(dst, w.x-r*cos, w.y-r*sin, w.x+r*cos, w.y+r*sin, 1.2*l.Scale, l.Hull)
	}
}

// fish draws the fish with her fins, nose up or down as she swims.
func (s *Section) fish(dst *ebiten.Image, f *frame, l *look.Look, v *Side) {
	x, y := f.x(v.FishAft), f.y(-v.FishDepth)
	long := max(1.4*f.sx, 30*l.Scale) // to scale, and never too small to see
	thick := long * 0.13
	sin, cos := math.Sincos(v.FishPitch)
	body := func(c [][2]float64) []float64 {
		var p []float64
		for _, q := range c {
			ahead, up := q[0]*long, q[1]*thick
			p = append(p, x+ahead*cos-up*sin, y-ahead*sin-up*cos)
		}
		return p
	}
	fin := mixed(l.Theme.Fish, l.Deep, 0.25)
	look.Shape(dst, body([][2]float64{{-0.3, 0.4}, {-0.44, 1.5}, {-0.56, 1.5}, {-0.47, 0.25}}), fin)
	look.Shape(dst, body([][2]float64{{-0.3, -0.4}, {-0.44, -1.5}, {-0.56, -1.5}, {-0.47, -0.25}}), fin)
	look.Shape(dst, body([][2]float64{
		{0.5, 0}, {0.485, 0.22}, {0.44, 0.42}, {0.36, 0.5}, {-0.28, 0.5}, {-0.42, 0.3}, {-0.52, 0.16},
		{-0.52, -0.16}, {-0.42, -0.3}, {-0.28, -0.5}, {0.36, -0.5}, {0.44, -0.42}, {0.485, -0.22},
	}), l.Theme.Fish)
	// The row of the transducer along her side, and the tow point.
	look.Trace(dst, body([][2]float64{{-0.2, -0.05}, {0.3, -0.05}}), max(1.6*l.Scale, 0.22*thick), mixed(l.Theme.Fish, l.Air, 0.55))
	look.Trace(dst, body([][2]float64{{0.16, 0.5}, {0.16, 0.95}}), 2*l.Scale, l.Theme.Fish)
}
