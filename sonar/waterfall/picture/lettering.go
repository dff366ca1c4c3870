package picture

import (
	"sync"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/opentype"
)

// Caution stands on every picture of invented data.
const Caution = "Synthetic training data. Not for navigation."

var (
	regular = sync.OnceValue(func() *opentype.Font { return parse(goregular.TTF) })
	bold    = sync.OnceValue(func() *opentype.Font { return parse(gobold.TTF) })
)

// Regular returns the plain lettering of all pictures, Go Regular, at a size in
// pixels. A face serves one goroutine.
func Regular(size float64) font.Face { return face(regular(), size) }

// Bold returns the lettering of titles, Go Bold, at a size in pixels.
func Bold(size float64) font.Face { return face(bold(), size) }

func parse(ttf []byte) *opentype.Font {
	f, err := opentype.Parse(ttf)
	if err != nil {
		panic("picture: embedded font does not parse")
	}
	return f
}

func face(f *opentype.Font, size float64) font.Face {
	face, err := opentype.NewFace(f, &opentype.FaceOptions{Size: size, DPI: 72})
	if err != nil {
		panic("picture: no font face of that size")
	}
	return face
}
