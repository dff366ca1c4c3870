package tiles

import (
	"encoding/json"
	"fmt"
	"image"
	"image/png"
	"io"
	"math"
	"slices"

	"dryline/sim/dataset/coco"
	"dryline/sim/product"
	"dryline/sonar"
)

// tile is one in the making.
type tile struct {
	channel int
	side    sonar.Side
	ground  bool
	columns int

	rows         int
	first        uint64   // number of its first ping
	counts       []uint16 // row by row, mean of a pixel's samples
	echo, shadow []uint16 // row by row, numbers of objects
}

func newTile(channel int, side sonar.Side, ground bool, columns int) *tile {
	n := columns * Rows
	return &tile{channel: channel, side: side, ground: ground, columns: columns, counts: make([]uint16, n), echo: make([]uint16, n), shadow: make([]uint16, n)}
}

func (t *tile) clear() {
	t.rows = 0
	clear(t.counts)
	clear(t.echo)
	clear(t.shadow)
}

// add adds a row. Where a pixel's samples differ the object wins over its shadow, and the
// shadow over the rest.
func (t *tile) add(number uint64, spans []spanOf, samples []uint16, labels []sonar.Label, shadows []uint16) {
	if t.rows == 0 {
		t.first = number
	}
	row := t.rows * t.columns
	for k, s := range spans {
		if s.to <= s.from {
			continue
		}
		at := row + k
		if t.side == sonar.Port {
			at = row + t.columns - 1 - k
		}
		sum := 0
		for i := s.from; i < s.to; i++ {
			sum += int(samples[i])
			switch l := &labels[i]; {
			case l.Kind == sonar.ObjectLabel || l.Kind == sonar.LayoverLabel:
				t.echo[at] = l.Object
			case shadows[i] != 0 && t.shadow[at] == 0:
				t.shadow[at] = shadows[i]
			}
		}
		if t.echo[at] != 0 {
			t.shadow[at] = 0
		}
		n := s.to - s.from
		t.counts[at] = uint16((sum + n/2) / n)
	}
	t.rows++
}

// write hands a tile over, with its annotations.
func (w *Writer) write(t *tile) error {
	r := &w.session.Desk.Recorder
	geometry, increases := "slant", "to the right"
	if t.ground {
		geometry = "ground"
	}
	if t.side == sonar.Port {
		increases = "to the left"
	}
	stem := fmt.Sprintf("tile-%s-%s-%s-%03d-%s", w.stem, r.Channels[t.channel], t.side, w.cut, geometry)
	img := coco.Image{
		ID: len(w.out.Images) + 1, File: stem + ".png", Deep: stem + "-16bit.png", Width: t.columns, Height: t.rows, License: 1,
		Scene: w.scene, Line: w.line, Channel: r.Channels[t.channel], Side: t.side.String(), Geometry: geometry,
		Across: r.Bin() * float64(w.each), First: t.first, Range: increases,
	}
	deep, shallow := t.pictures()
	if err := encode(w.sink, img.File, shallow); err != nil {
		return err
	}
	if err := encode(w.sink, img.Deep, deep); err != nil {
		return err
	}
	w.out.Images = append(w.out.Images, img)
	w.annotate(t, img.ID)
	return nil
}

func encode(to product.Sink, name string, picture image.Image) error {
	return to.Write(name, func(out io.Writer) error {
		e := png.Encoder{CompressionLevel: png.BestSpeed}
		return e.Encode(out, picture)
	})
}

// pictures are the tile as recorded and by its level.
func (t *tile) pictures() (*image.Gray16, *image.Gray) {
	at := image.Rect(0, 0, t.columns, t.rows)
	deep, shallow := image.NewGray16(at), image.NewGray(at)
	for i, c := range t.counts[:t.columns*t.rows] {
		deep.Pix[2*i], deep.Pix[2*i+1] = uint8(c>>8), uint8(c)
		shallow.Pix[i] = level(c)
	}
	return deep, shallow
}

// level is a count in 8 bits, even steps of decibels.
func level(c uint16) uint8 {
	return uint8(math.Round(255 * math.Log10(float64(max(c, 1))) / math.Log10(math.MaxUint16)))
}

// annotate adds what lies in a tile: of each object the whole, its echo and its shadow, as
// far as they are to be seen.
func (w *Writer) annotate(t *tile, picture int) {
	n := t.columns * t.rows
	var numbers []uint16
	for _, list := range [][]uint16{t.echo[:n], t.shadow[:n]} {
		for _, o := range list {
			if o != 0 && !slices.Contains(numbers, o) {
				numbers = append(numbers, o)
			}
		}
	}
	slices.Sort(numbers)
	for _, o := range numbers {
		masks := [3]*coco.Mask{}
		for i := range masks {
			masks[i] = coco.NewMask(t.columns, t.rows)
		}
		for i := range n {
			echo, shadow := t.echo[i] == o, t.shadow[i] == o
			masks[0].Set[i], masks[1].Set[i], masks[2].Set[i] = echo || shadow, echo, shadow
		}
		from := len(w.out.Annotations)
		for i, m := range masks {
			if m.Area() < fewestPixels {
				continue
			}
			a := coco.Annotate(m, picture, w.categoryOf(int(o), i))
			a.ID, a.Object, a.Role = len(w.out.Annotations)+1, int(o), coco.Roles()[i]
			w.out.Annotations = append(w.out.Annotations, a)
		}
		for i := from; i < len(w.out.Annotations); i++ {
			w.out.Annotations[i].Linked = []int{}
			for j := from; j < len(w.out.Annotations); j++ {
				if j != i {
					w.out.Annotations[i].Linked = append(w.out.Annotations[i].Linked, w.out.Annotations[j].ID)
				}
			}
		}
	}
}

func writeJSON(w io.Writer, v any) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	return e.Encode(v)
}
