//go:build !js

package main

import (
	"image"
	"image/color"
	"math"
	"testing"

	"dryline/cmd/dryline-desk/look"

	"github.com/ebitenui/ebitenui/widget"
	"github.com/hajimehoshi/ebiten/v2"
)

// contrast is the contrast ratio of WCAG 2.1 (W3C, 2018).
func contrast(a, b color.RGBA) float64 {
	luminance := func(c color.RGBA) float64 {
		f := func(v uint8) float64 {
			s := float64(v) / 255
			if s <= 0.03928 {
				return s / 12.92
			}
			return math.Pow((s+0.055)/1.055, 2.4)
		}
		return 0.2126*f(c.R) + 0.7152*f(c.G) + 0.0722*f(c.B)
	}
	x, y := luminance(a), luminance(b)
	return (max(x, y) + 0.05) / (min(x, y) + 0.05)
}

// Whatever emphasis a button began with and was given since, its lettering as drawn
// reads on its face at 4.5 to 1 and more (WCAG 2.1, 1.4.3).
func TestButtonsCanBeReadWhateverTheirEmphasis(t *testing.T) {
	needScreen(t)
	dst := ebiten.NewImage(160, 60)
	defer dst.Deallocate()
	at := image.Rect(10, 10, 150, 50)
	for name, theme := range look.Themes {
		l := look.New(theme, 1)
		faces := map[look.Emphasis]color.RGBA{look.Plain: theme.Raised, look.Chosen: theme.Accent, look.Urgent: theme.Alarm}
		for first := range faces {
			b := l.Button("Log off", first, func() {})
			b.Validate()
			b.SetLocation(at)
			for _, then := range []look.Emphasis{first, look.Urgent, look.Chosen, look.Plain, look.Urgent} {
				l.Emphasise(b, then)
				m := image.NewRGBA(dst.Bounds())
				for range 3 { // the lettering takes its colour a frame late
					dst.Clear()
					b.Update(new(widget.UpdateObject))
					b.Render(dst)
				}
				dst.ReadPixels(m.Pix)
				face, best, letters := faces[then], 1.0, 0
				in := at.Inset(4)
				for y := in.Min.Y; y < in.Max.Y; y++ {
					for x := in.Min.X; x < in.Max.X; x++ {
						c := contrast(m.RGBAAt(x, y), face)
						best = max(best, c)
						if c >= 4.5 {
							letters++
						}
					}
				}
				if got := m.RGBAAt(in.Min.X, in.Min.Y); apart(got, face) > 3 {
					t.Errorf("%s, from emphasis %d to %d: the face is %v, want %v", name, first, then, got, face)
				}
				if best < 4.5 || letters < 30 {
					t.Errorf("%s, from emphasis %d to %d: %d pixels of lettering, the best has %.2f to 1; want 30 at 4.5", name, first, then, letters, best)
				}
			}
		}
	}
}
