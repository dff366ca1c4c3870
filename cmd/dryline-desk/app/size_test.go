package app

import (
	"image"
	"strings"
	"testing"

	"github.com/hajimehoshi/ebiten/v2"
)

// Smaller than anything fits in, the window says so in place of a screen that is cut, and goes on when it is
// large enough again.
func TestTooSmallAWindowSaysSo(t *testing.T) {
	g, w := fallWatch(t, "first-line", 2)
	g.screen = w
	for _, row := range []struct {
		wide, tall int
		device     float64
		small      bool
	}{{1024, 600, 1, false}, {1023, 700, 1, true}, {390, 844, 1, true}, {2048, 1200, 2, false}, {1900, 1100, 2, true}, {1280, 720, 1, false}} {
		g.Resize(row.wide, row.tall, row.device)
		dst := ebiten.NewImage(row.wide, row.tall)
		said := ""
		g.ui.Container = w.Build(g, g.area())
		watched(g, dst, func(s string, _ image.Rectangle) { said += s + " " })
		if got := strings.Contains(said, "make it larger"); got != row.small {
			t.Errorf("%d by %d at %g: it says it is too small: %t, want %t", row.wide, row.tall, row.device, got, row.small)
		}
		dst.Deallocate()
	}
}
