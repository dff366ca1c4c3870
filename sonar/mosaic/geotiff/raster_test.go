package geotiff_test

import (
	"bytes"
	"errors"
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"dryline/sonar/mosaic/geotiff"
)

// reference is the raster of testdata/geotiff/reference_tags.csv at a size,
// filled with speckle.
func reference[T geotiff.Sample](width, height int) geotiff.Raster[T] {
	r := geotiff.Raster[T]{
		Width: width, Height: height,
		OriginEasting: 612000, OriginNorthing: 5629000,
		PixelSize: 0.5, EPSG: 32630,
		Pix: make([]T, width*height),
	}
	rng := rand.New(rand.NewPCG(1, uint64(width)<<32|uint64(height)))
	for i := range r.Pix {
		r.Pix[i] = T(1 + rng.IntN(254))
	}
	return r
}

func encode[T geotiff.Sample](t testing.TB, r geotiff.Raster[T]) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := geotiff.Write(&b, r); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func TestWriteRefuses(t *testing.T) {
	for _, test := range []struct {
		name  string
		spoil func(r *geotiff.Raster[uint8])
	}{
		{"no width", func(r *geotiff.Raster[uint8]) { r.Width = 0 }},
		{"negative size", func(r *geotiff.Raster[uint8]) { r.Width, r.Height = -2, -3 }},
		{"too few pixels", func(r *geotiff.Raster[uint8]) { r.Pix = r.Pix[1:] }},
		{"too many pixels", func(r *geotiff.Raster[uint8]) { r.Pix = append(r.Pix, 0) }},
		{"size that overflows", func(r *geotiff.Raster[uint8]) { r.Width, r.Height = 1<<31-1, 1<<31-1 }},
		{"NaN origin", func(r *geotiff.Raster[uint8]) { r.OriginEasting = math.NaN() }},
		{"infinite origin", func(r *geotiff.Raster[uint8]) { r.OriginNorthing = math.Inf(1) }},
		{"no pixel size", func(r *geotiff.Raster[uint8]) { r.PixelSize = 0 }},
		{"negative pixel size", func(r *geotiff.Raster[uint8]) { r.PixelSize = -1 }},
		{"infinite pixel size", func(r *geotiff.Raster[uint8]) { r.PixelSize = math.Inf(1) }},
		{"no EPSG", func(r *geotiff.Raster[uint8]) { r.EPSG = 0 }},
		{"user-defined EPSG", func(r *geotiff.Raster[uint8]) { r.EPSG = 32767 }},
		{"sparse without no-data", func(r *geotiff.Raster[uint8]) { r.Sparse = true }},
		{"unknown resampling", func(r *geotiff.Raster[uint8]) { r.Overviews = 3 }},
		{"NUL in text", func(r *geotiff.Raster[uint8]) { r.Description = "a\x00b" }},
		{"text not ASCII", func(r *geotiff.Raster[uint8]) { r.Software = "é" }},
		{"year of five digits", func(r *geotiff.Raster[uint8]) { r.Time = time.Date(12000, 1, 1, 0, 0, 0, 0, time.UTC) }},
	} {
		r := reference[uint8](3, 2)
		test.spoil(&r)
		var b bytes.Buffer
		if err := geotiff.Write(&b, r); err == nil {
			t.Errorf("%s: got no error", test.name)
		}
		if b.Len() != 0 {
			t.Errorf("%s: got %d bytes written, want none", test.name, b.Len())
		}
	}
	f := reference[float32](3, 2)
	f.NoData = new(float32(math.Inf(-1)))
	if err := geotiff.Write(new(bytes.Buffer), f); err == nil {
		t.Error("infinite no-data: got no error")
	}
}

var errFull = errors.New("full")

// full fails after some bytes, as a full disk does.
type full struct{ room int }

func (f *full) Write(p []byte) (int, error) {
	if len(p) > f.room {
		return 0, errFull
	}
	f.room -= len(p)
	return len(p), nil
}

func TestWritePassesErrors(t *testing.T) {
	r := reference[uint8](300, 300)
	size := len(encode(t, r))
	for _, room := range []int{0, 1000, size - 1} {
		if err := geotiff.Write(&full{room}, r); err == nil {
			t.Errorf("room for %d of %d bytes: got no error", room, size)
		}
	}
	if err := geotiff.Write(&full{size}, r); err != nil {
		t.Errorf("room enough: got %v", err)
	}
}

func TestWriteIsDeterministic(t *testing.T) {
	r := reference[uint16](700, 300)
	if !bytes.Equal(encode(t, r), encode(t, r)) {
		t.Error("two writes of one raster differ")
	}
}

func BenchmarkWrite(b *testing.B) {
	b.Run("speckle", func(b *testing.B) { benchmark(b, reference[uint8](1024, 1024)) })
	b.Run("float32", func(b *testing.B) { benchmark(b, reference[float32](1024, 1024)) })
	empty := reference[uint8](1024, 1024)
	clear(empty.Pix)
	empty.NoData, empty.Sparse = new(uint8(0)), true
	b.Run("empty", func(b *testing.B) { benchmark(b, empty) })
}

func benchmark[T geotiff.Sample](b *testing.B, r geotiff.Raster[T]) {
	var out bytes.Buffer
	b.ReportAllocs()
	b.SetBytes(int64(len(r.Pix)))
	for b.Loop() {
		out.Reset()
		if err := geotiff.Write(&out, r); err != nil {
			b.Fatal(err)
		}
	}
}
