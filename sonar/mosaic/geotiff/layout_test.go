package geotiff_test

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"encoding/csv"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"dryline/sonar/mosaic/geotiff"
)

// Source: testdata/geotiff/reference_tags.csv, from GDAL 3.6.2 and OGC GeoTIFF
// 1.1.
func TestReferenceTags(t *testing.T) {
	f, err := os.Open(filepath.Join("..", "..", "..", "testdata", "geotiff", "reference_tags.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	c := csv.NewReader(f)
	c.Comment = '#'
	rows, err := c.ReadAll()
	if err != nil || len(rows) != 4 {
		t.Fatalf("got %d rows, %v, want a heading and 3", len(rows), err)
	}
	d := parse(t, encode(t, reference[uint8](1000, 700)))[0]
	for _, row := range rows[1:] {
		tag, err := strconv.Atoi(row[0])
		if err != nil {
			t.Fatal(err)
		}
		var want []float64
		for s := range strings.FieldsSeq(row[1]) {
			v, err := strconv.ParseFloat(s, 64)
			if err != nil {
				t.Fatal(err)
			}
			want = append(want, v)
		}
		if got := d.tags[uint16(tag)].numbers; !slices.Equal(got, want) {
			t.Errorf("tag %d: got %v, want %v", tag, got, want)
		}
	}
	// Types of OGC GeoTIFF 1.1 section 7.1: SHORT keys, DOUBLE scale and tiepoint.
	for tag, kind := range map[uint16]uint16{34735: 3, 33550: 12, 33922: 12} {
		if got := d.tags[tag].kind; got != kind {
			t.Errorf("tag %d: got type %d, want %d", tag, got, kind)
		}
	}
}

// The rules of OGC 21-026 (Cloud Optimized GeoTIFF 1.0) and of the header block
// in GDAL's COG driver documentation, in both TIFF flavours.
func TestCOGLayout(t *testing.T) {
	r := reference[uint8](1100, 700)
	r.NoData = new(uint8(0))
	clear(r.Pix[:1100*300]) // the first row of tiles is empty
	for _, sparse := range []bool{false, true} {
		r.Sparse = sparse
		var big bytes.Buffer
		if err := geotiff.WriteBig(&big, r); err != nil {
			t.Fatal(err)
		}
		for name, b := range map[string][]byte{"classic": encode(t, r), "BigTIFF": big.Bytes()} {
			checkLayout(t, name, b, sparse)
		}
	}
}

func checkLayout(t *testing.T, name string, b []byte, sparse bool) {
	t.Helper()
	header := 8
	if name == "BigTIFF" {
		header = 16
	}
	if !bytes.HasPrefix(b[header:], []byte("GDAL_STRUCTURAL_METADATA_SIZE=000140 bytes\nLAYOUT=IFDS_BEFORE_DATA\n")) {
		t.Errorf("%s: no header block after the TIFF header", name)
	}
	ds := parse(t, b)
	sizes := [][2]int{{1100, 700}, {550, 350}, {275, 175}, {138, 88}}
	if len(ds) != len(sizes) {
		t.Fatalf("%s: got %d directories, want %d", name, len(ds), len(sizes))
	}
	type span struct{ at, n int }
	var tiles []span // in the order the rules ask for
	end, left := 0, 0
	for i := len(ds) - 1; i >= 0; i-- {
		d := ds[i]
		if got := [2]int{d.number(256), d.number(257)}; got != sizes[i] {
			t.Errorf("%s: picture %d is %v, want %v", name, i, got, sizes[i])
		}
		if !slices.IsSorted(d.order) {
			t.Errorf("%s: tags are not in order: %v", name, d.order)
		}
		if d.number(322) != 256 || d.number(323) != 256 {
			t.Errorf("%s: tiles of %d × %d, want 256", name, d.number(322), d.number(323))
		}
		for _, tag := range []uint16{33550, 33922, 34735} {
			if _, has := d.tags[tag]; has != (i == 0) {
				t.Errorf("%s: picture %d has tag %d: %t, want only in the full image", name, i, tag, has)
			}
		}
		if d.number(254) != min(i, 1) {
			t.Errorf("%s: picture %d has subfile type %d", name, i, d.number(254))
		}
		end = max(end, d.end)
		for j, at := range d.tags[324].numbers {
			if n := int(d.tags[325].numbers[j]); at != 0 {
				tiles = append(tiles, span{int(at), n})
			} else if left++; n != 0 {
				t.Errorf("%s: a tile left out has %d bytes", name, n)
			}
		}
	}
	if want := map[bool]int{false: 0, true: 5}[sparse]; left < want || (want == 0 && left != 0) {
		t.Errorf("%s: %d tiles left out, want %d or more", name, left, want)
	}
	next := (end + 7) / 8 * 8
	for i, s := range tiles {
		if s.at != next+4 {
			t.Errorf("%s: tile %d starts at %d, want %d", name, i, s.at, next+4)
		}
		if leader := int(binary.LittleEndian.Uint32(b[s.at-4:])); leader != s.n {
			t.Errorf("%s: tile %d is led by %d, want its size %d", name, i, leader, s.n)
		}
		if tail := b[s.at+s.n:][:4]; !bytes.Equal(tail, b[s.at+s.n-4:s.at+s.n]) {
			t.Errorf("%s: tile %d is trailed by % x", name, i, tail)
		}
		next = s.at + s.n + 4
	}
	if next != len(b) {
		t.Errorf("%s: tiles end at %d of %d bytes", name, next, len(b))
	}
}

func TestTextTags(t *testing.T) {
	r := reference[float32](4, 4)
	r.NoData = new(float32(-9999))
	r.Software, r.Description = "trainer", "line 101"
	r.Time = time.Date(2026, 11, 25, 11, 15, 0, 0, time.FixedZone("", 3600))
	d := parse(t, encode(t, r))[0]
	// TIFF 6.0 section 8: a date is 20 bytes with its NUL.
	for tag, want := range map[uint16]string{
		270: "line 101\x00", 305: "trainer\x00", 306: "2026:11:25 10:15:00\x00", 42113: "-9999\x00",
	} {
		if got := d.tags[tag].text; got != want {
			t.Errorf("tag %d: got %q, want %q", tag, got, want)
		}
	}
	plain := parse(t, encode(t, reference[float32](4, 4)))[0]
	for _, tag := range []uint16{270, 305, 306, 42113} {
		if _, has := plain.tags[tag]; has {
			t.Errorf("tag %d written though not asked for", tag)
		}
	}
}

// Beyond the edge of the picture a tile holds no-data, not what the tile before
// it held, for readers that look at whole tiles.
func TestTilePadding(t *testing.T) {
	r := reference[uint8](257, 300)
	r.NoData = new(uint8(255))
	b := encode(t, r)
	d := parse(t, b)[0]
	at := int(d.tags[324].numbers[1]) // the second tile has one column
	z, err := zlib.NewReader(bytes.NewReader(b[at:]))
	if err != nil {
		t.Fatal(err)
	}
	raw, err := io.ReadAll(z)
	if err != nil {
		t.Fatal(err)
	}
	for i, got := range raw {
		want := byte(255)
		if i%256 == 0 {
			want = r.Pix[i/256*257+256]
		}
		if got != want {
			t.Fatalf("byte %d: got %d, want %d", i, got, want)
		}
	}
}
