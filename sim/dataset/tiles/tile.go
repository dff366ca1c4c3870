package tiles

import (
	"fmt"

	"dryline/sim/dataset/coco"
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
		File: stem + ".png", Deep: stem + "-16bit.png", Width: t.columns, Height: t.rows, License: 1,
		Scene: w.scene, Line: w.line, Channel: r.Channels[t.channel], Side: t.side.String(), Geometry: geometry,
		Across: r.Bin() * float64(w.each), Range: increases,
	}
	first := t.first // the tile goes on to the next
	img.First = &first
	n := t.columns * t.rows
	if err := WritePictures(w.sink, w.session, &img, t.counts[:n]); err != nil {
		return err
	}
	w.sheet.Add(img, t.echo[:n], t.shadow[:n])
	return nil
}
