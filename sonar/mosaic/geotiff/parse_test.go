package geotiff_test

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"io"
	"math"
	"testing"
)

// A reader of its own, written from TIFF 6.0 section 2 and the BigTIFF design
// note, that shares nothing with the writer.

type directory struct {
	at, end int // span of the directory and its values in the file
	tags    map[uint16]values
	order   []uint16
}

type values struct {
	kind    uint16
	numbers []float64 // every numeric type is exact in float64 here
	text    string
}

func (d directory) number(tag uint16) int {
	v := d.tags[tag].numbers
	if len(v) == 0 {
		return 0
	}
	return int(v[0])
}

func parse(t testing.TB, b []byte) []directory {
	t.Helper()
	le := binary.LittleEndian
	if len(b) < 16 || string(b[:2]) != "II" {
		t.Fatalf("not a little-endian TIFF: % x", b[:min(len(b), 8)])
	}
	big := le.Uint16(b[2:]) == 43
	offset := func(at int) int {
		if big {
			return int(le.Uint64(b[at:]))
		}
		return int(le.Uint32(b[at:]))
	}
	word, at := 4, offset(4)
	if big {
		word, at = 8, offset(8)
		if le.Uint16(b[4:]) != 8 || le.Uint16(b[6:]) != 0 {
			t.Fatalf("bad BigTIFF header % x", b[:8])
		}
	} else if le.Uint16(b[2:]) != 42 {
		t.Fatalf("bad TIFF version % x", b[:8])
	}
	sizes := map[uint16]int{2: 1, 3: 2, 4: 4, 12: 8, 16: 8}
	var out []directory
	for at != 0 {
		if at%2 != 0 {
			t.Errorf("directory at odd offset %d", at)
		}
		d := directory{at: at, tags: map[uint16]values{}}
		n, p := int(le.Uint16(b[at:])), at+2
		if big {
			n, p = int(le.Uint64(b[at:])), at+8
		}
		d.end = p + n*(4+2*word) + word
		for range n {
			tag, kind, count := le.Uint16(b[p:]), le.Uint16(b[p+2:]), offset(p+4)
			size, known := sizes[kind]
			if !known {
				t.Fatalf("tag %d of unknown type %d", tag, kind)
			}
			from := p + 4 + word
			if count*size > word {
				from = offset(from)
				if from%2 != 0 {
					t.Errorf("tag %d: values at odd offset %d", tag, from)
				}
				d.end = max(d.end, from+count*size)
			}
			v := values{kind: kind}
			for i := range count {
				q := b[from+i*size:]
				switch kind {
				case 2:
					v.text += string(q[:1])
				case 3:
					v.numbers = append(v.numbers, float64(le.Uint16(q)))
				case 4:
					v.numbers = append(v.numbers, float64(le.Uint32(q)))
				case 12:
					v.numbers = append(v.numbers, math.Float64frombits(le.Uint64(q)))
				case 16:
					v.numbers = append(v.numbers, float64(le.Uint64(q)))
				}
			}
			d.tags[tag] = v
			d.order = append(d.order, tag)
			p += 4 + 2*word
		}
		out = append(out, d)
		at = offset(p)
	}
	return out
}

// pixels returns the values of a picture as float64 and how many tiles were
// left out; pixels of those are NaN.
func pixels(t testing.TB, b []byte, d directory) (pix []float64, left int) {
	t.Helper()
	le := binary.LittleEndian
	width, height, side := d.number(256), d.number(257), d.number(322)
	bits, floats := d.number(258), d.number(339) == 3
	across := (width + side - 1) / side
	down := (height + side - 1) / side
	offsets, counts := d.tags[324].numbers, d.tags[325].numbers
	if len(offsets) != across*down || len(counts) != across*down {
		t.Fatalf("got %d offsets and %d counts, want %d tiles", len(offsets), len(counts), across*down)
	}
	pix = make([]float64, width*height)
	for i := range offsets {
		var raw []byte
		if offsets[i] == 0 && counts[i] == 0 {
			left++
		} else {
			at, n := int(offsets[i]), int(counts[i])
			z, err := zlib.NewReader(bytes.NewReader(b[at : at+n]))
			if err != nil {
				t.Fatal(err)
			}
			if raw, err = io.ReadAll(z); err != nil {
				t.Fatal(err)
			}
			if len(raw) != side*side*bits/8 {
				t.Fatalf("tile %d holds %d bytes, want %d", i, len(raw), side*side*bits/8)
			}
		}
		x0, y0 := i%across*side, i/across*side
		for y := y0; y < min(y0+side, height); y++ {
			for x := x0; x < min(x0+side, width); x++ {
				at := ((y-y0)*side + x - x0) * bits / 8
				v := math.NaN()
				switch {
				case raw == nil:
				case bits == 8:
					v = float64(raw[at])
				case bits == 16:
					v = float64(le.Uint16(raw[at:]))
				case floats:
					v = float64(math.Float32frombits(le.Uint32(raw[at:])))
				}
				pix[y*width+x] = v
			}
		}
	}
	return pix, left
}
