package product

import (
	"bytes"
	"cmp"
	"image"
	"image/color"
	"image/png"
	"io"
	"slices"
)

// EncodePNG writes a picture as a PNG of 256 colours, which for sonar pictures
// (one ramp and a little ink) is as good as all of them at a third of the size.
func EncodePNG(w io.Writer, img *image.RGBA, texts ...Text) error {
	enc := png.Encoder{CompressionLevel: png.BestSpeed}
	var b bytes.Buffer
	if err := enc.Encode(&b, reduce(img)); err != nil {
		return err
	}
	_, err := w.Write(WithTexts(b.Bytes(), texts))
	return err
}

const (
	cellBits = 5 // of each colour, for counting
	cells    = 1 << (3 * cellBits)
)

func cellOf(r, g, b uint8) int {
	const drop = 8 - cellBits
	return int(r>>drop)<<(2*cellBits) | int(g>>drop)<<cellBits | int(b>>drop)
}

// reduce picks the 256 commonest colours and maps the rest to the nearest of
// them. Pictures are opaque.
func reduce(img *image.RGBA) *image.Paletted {
	type count struct{ n, r, g, b, cell int }
	counts := make([]count, cells)
	for i := 0; i < len(img.Pix); i += 4 {
		r, g, b := img.Pix[i], img.Pix[i+1], img.Pix[i+2]
		c := &counts[cellOf(r, g, b)]
		c.n++
		c.r, c.g, c.b = c.r+int(r), c.g+int(g), c.b+int(b)
	}
	used := make([]count, 0, 1024)
	for cell, c := range counts {
		if c.n > 0 {
			c.cell = cell
			c.r, c.g, c.b = c.r/c.n, c.g/c.n, c.b/c.n
			used = append(used, c)
		}
	}
	slices.SortFunc(used, func(a, b count) int { return cmp.Or(b.n-a.n, a.cell-b.cell) })
	kept := used[:min(len(used), 256)]
	palette := make(color.Palette, len(kept))
	index := make([]uint8, cells)
	for i, c := range kept {
		palette[i] = color.RGBA{uint8(c.r), uint8(c.g), uint8(c.b), 255}
	}
	for _, c := range used {
		best, at := 1<<30, 0
		for i, k := range kept {
			dr, dg, db := c.r-k.r, c.g-k.g, c.b-k.b
			if d := dr*dr + dg*dg + db*db; d < best {
				best, at = d, i
			}
		}
		index[c.cell] = uint8(at)
	}
	out := image.NewPaletted(img.Rect, palette)
	for i := range out.Pix {
		out.Pix[i] = index[cellOf(img.Pix[4*i], img.Pix[4*i+1], img.Pix[4*i+2])]
	}
	return out
}
