package look

import (
	"image/color"
	"math"
	"testing"
)

// contrast is the contrast ratio of WCAG 2.1 (W3C, 2018), relative luminance by
// the sRGB curve.
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

// Black on white is 21 to 1 (WCAG 2.1, definition of contrast ratio).
func TestContrastOfBlackOnWhite(t *testing.T) {
	if got := contrast(color.RGBA{A: 255}, color.RGBA{255, 255, 255, 255}); math.Abs(got-21) > 1e-9 {
		t.Errorf("got %g, want 21", got)
	}
}

// Lettering reads at 4.5 to 1 and more, the main ink at 7 (WCAG 2.1, 1.4.3 and
// 1.4.6); shapes stand out by 3 to 1 (1.4.11).
func TestThemesCanBeRead(t *testing.T) {
	for name, theme := range Themes {
		for _, row := range []struct {
			what    string
			ink, on color.RGBA
			atLeast float64
		}{
			{"ink on panels", theme.Ink, theme.Panel, 7},
			{"ink on the desk", theme.Ink, theme.Desk, 7},
			{"ink on controls", theme.Ink, theme.Raised, 4.5},
			{"ink on controls under the pointer", theme.Ink, theme.Warm, 4.5},
			{"ink in fields", theme.Ink, theme.Sunk, 4.5},
			{"lesser lettering", theme.Soft, theme.Panel, 4.5},
			{"lesser lettering on the desk", theme.Soft, theme.Desk, 4.5},
			{"lettering on what is chosen", theme.OnIt, theme.Accent, 4.5},
			{"lettering on what is urgent", theme.OnIt, theme.Alarm, 4.5},
			{"alarms", theme.Alarm, theme.Panel, 4.5},
			{"cautions", theme.Caution, theme.Panel, 4.5},
			{"hull in the air", theme.Hull, theme.Air, 3},
			{"fish in the water", theme.Fish, theme.Deep, 3},
			{"cable in the water", theme.Cable, theme.Sea, 3},
			{"planned lines", theme.Plan, theme.Void, 3},
			{"true things in the water", theme.Truth, theme.Sea, 3},
		} {
			if got := contrast(row.ink, row.on); got < row.atLeast {
				t.Errorf("%s: %s have %.2f to 1, want %g", name, row.what, got, row.atLeast)
			}
		}
	}
}

func TestSizesFollowTheScale(t *testing.T) {
	for _, scale := range []float64{1, 1.5, 2} {
		l := New(&Day, scale)
		if got, want := l.Px(10), int(math.Round(10*scale)); got != want {
			t.Errorf("at %g: 10 is %d pixels, want %d", scale, got, want)
		}
		one := New(&Day, 1)
		if got, want := Wide("Fish height", l.Body)/Wide("Fish height", one.Body), scale; math.Abs(got-want) > 0.05*want {
			t.Errorf("at %g: lettering is %.3f times as wide", scale, got)
		}
	}
}
