package look

import (
	"bytes"
	"math"
	"sync"

	"github.com/hajimehoshi/ebiten/v2/text/v2"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/gomono"
	"golang.org/x/image/font/gofont/goregular"
)

// Sizes of lettering at scale 1, in pixels.
const (
	SmallSize = 12
	BodySize  = 14
	DialSize  = 20
	TitleSize = 24
)

// Look is a theme at a scale.
type Look struct {
	*Theme
	Scale float64

	Small, Body, Strong, Dial, Title, Figures text.Face
}

// New returns the look of a theme at a scale, 1 for a plain screen.
func New(theme *Theme, scale float64) *Look {
	f := fonts()
	face := func(s *text.GoTextFaceSource, size float64) text.Face {
		return &text.GoTextFace{Source: s, Size: math.Round(size * scale)}
	}
	return &Look{
		Theme: theme, Scale: scale,
		Small: face(f.regular, SmallSize), Body: face(f.regular, BodySize), Strong: face(f.bold, BodySize),
		Dial: face(f.bold, DialSize), Title: face(f.bold, TitleSize), Figures: face(f.mono, SmallSize),
	}
}

type fontSet struct{ regular, bold, mono *text.GoTextFaceSource }

// fonts are the Go fonts (Bigelow and Holmes, BSD licence), embedded.
var fonts = sync.OnceValue(func() fontSet {
	parse := func(ttf []byte) *text.GoTextFaceSource {
		s, err := text.NewGoTextFaceSource(bytes.NewReader(ttf))
		if err != nil {
			panic("look: embedded font does not parse")
		}
		return s
	}
	return fontSet{parse(goregular.TTF), parse(gobold.TTF), parse(gomono.TTF)}
})

// Px is a size of scale 1 in pixels.
func (l *Look) Px(n float64) int { return int(math.Round(n * l.Scale)) }

// Wide is how wide a line of lettering is, pixels.
func Wide(s string, face text.Face) float64 { return text.AdvanceAt(s, len(s), face) }

// Tall is the height of a line of lettering, pixels.
func Tall(face text.Face) float64 {
	m := face.Metrics()
	return m.HAscent + m.HDescent
}

// Fitted cuts a line of lettering that is too long for a width in pixels.
func Fitted(s string, face text.Face, width int) string {
	if Wide(s, face) <= float64(width) {
		return s
	}
	runes := []rune(s)
	for len(runes) > 0 && Wide(string(runes)+"...", face) > float64(width) {
		runes = runes[:len(runes)-1]
	}
	return string(runes) + "..."
}
