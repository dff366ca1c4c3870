package geotiff_test

import (
	"bytes"
	"image"
	"math"
	"testing"

	"dryline/sonar/mosaic/geotiff"

	"golang.org/x/image/tiff"
	"pgregory.net/rapid"
)

// golang.org/x/image/tiff knows nothing of this package. It reads no float32
// and no sparse files.
func TestImageDecoder(t *testing.T) {
	for _, size := range [][2]int{{1, 1}, {256, 256}, {257, 513}, {700, 31}} {
		grey := reference[uint8](size[0], size[1])
		img, err := tiff.Decode(bytes.NewReader(encode(t, grey)))
		if err != nil {
			t.Fatalf("%v: %v", size, err)
		}
		g, ok := img.(*image.Gray)
		if !ok || g.Rect.Dx() != size[0] || g.Rect.Dy() != size[1] {
			t.Fatalf("%v: got %T of %v", size, img, img.Bounds())
		}
		if !bytes.Equal(g.Pix, grey.Pix) {
			t.Errorf("%v: 8-bit pixels differ", size)
		}

		deep := reference[uint16](size[0], size[1])
		for i := range deep.Pix {
			deep.Pix[i] *= 257
			deep.Pix[i] ^= uint16(i)
		}
		img, err = tiff.Decode(bytes.NewReader(encode(t, deep)))
		if err != nil {
			t.Fatalf("%v: %v", size, err)
		}
		g16, ok := img.(*image.Gray16)
		if !ok {
			t.Fatalf("%v: got %T, want *image.Gray16", size, img)
		}
		for i, want := range deep.Pix {
			if got := g16.Gray16At(i%size[0], i/size[0]).Y; got != want {
				t.Fatalf("%v: pixel %d: got %d, want %d", size, i, got, want)
			}
		}
	}
}

// Any raster comes back through a reader of our own, in both flavours, with the
// pyramid ending in one tile.
func TestRoundTrip(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		width := rapid.OneOf(rapid.IntRange(1, 40), rapid.SampledFrom([]int{255, 256, 257, 511, 513})).Draw(rt, "width")
		height := rapid.OneOf(rapid.IntRange(1, 40), rapid.SampledFrom([]int{255, 256, 257, 513})).Draw(rt, "height")
		switch rapid.SampledFrom([]string{"uint8", "uint16", "float32"}).Draw(rt, "sample") {
		case "uint8":
			roundTrip(t, rt, reference[uint8](width, height))
		case "uint16":
			roundTrip(t, rt, reference[uint16](width, height))
		default:
			roundTrip(t, rt, reference[float32](width, height))
		}
	})
}

func roundTrip[T geotiff.Sample](t *testing.T, rt *rapid.T, r geotiff.Raster[T]) {
	if rapid.Bool().Draw(rt, "no-data") {
		r.NoData = new(T(0))
		r.Sparse = rapid.Bool().Draw(rt, "sparse")
	}
	r.Overviews = rapid.SampledFrom([]geotiff.Resampling{geotiff.Mean, geotiff.Nearest, geotiff.Max}).Draw(rt, "resampling")
	clear(r.Pix[:rapid.IntRange(0, len(r.Pix)).Draw(rt, "unseen")])
	var b bytes.Buffer
	write := geotiff.Write[T]
	if rapid.Bool().Draw(rt, "BigTIFF") {
		write = geotiff.WriteBig[T]
	}
	if err := write(&b, r); err != nil {
		rt.Fatal(err)
	}
	ds := parse(t, b.Bytes())
	got, left := pixels(t, b.Bytes(), ds[0])
	if left > 0 && !r.Sparse {
		rt.Fatalf("%d tiles left out", left)
	}
	for i, want := range r.Pix {
		if v := got[i]; v != float64(want) && !(math.IsNaN(v) && r.Sparse && want == *r.NoData) {
			rt.Fatalf("pixel %d: got %v, want %v", i, v, want)
		}
	}
	last := ds[len(ds)-1]
	if last.number(256) > 256 || last.number(257) > 256 {
		rt.Errorf("last overview is %d × %d, want one tile", last.number(256), last.number(257))
	}
}
