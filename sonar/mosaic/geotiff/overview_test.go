package geotiff_test

import (
	"math"
	"slices"
	"testing"

	"dryline/sonar/mosaic/geotiff"
)

// block returns the first overview pixel of a raster whose upper-left four
// pixels are given.
func block[T geotiff.Sample](t *testing.T, how geotiff.Resampling, gap *T, four [4]T) float64 {
	t.Helper()
	r := reference[T](300, 2)
	r.Overviews, r.NoData = how, gap
	r.Pix[0], r.Pix[1], r.Pix[300], r.Pix[301] = four[0], four[1], four[2], four[3]
	b := encode(t, r)
	pix, _ := pixels(t, b, parse(t, b)[1])
	return pix[0]
}

func TestResampling(t *testing.T) {
	for _, test := range []struct {
		name string
		how  geotiff.Resampling
		gap  *uint8
		four [4]uint8
		want float64
	}{
		{"mean", geotiff.Mean, nil, [4]uint8{10, 20, 30, 40}, 25},
		{"mean rounds half up", geotiff.Mean, nil, [4]uint8{1, 1, 2, 2}, 2},
		{"mean of the brightest", geotiff.Mean, nil, [4]uint8{255, 255, 255, 255}, 255},
		{"mean of seen pixels", geotiff.Mean, new(uint8(0)), [4]uint8{0, 0, 0, 200}, 200},
		{"mean counts zero without no-data", geotiff.Mean, nil, [4]uint8{0, 0, 0, 200}, 50},
		{"mean of nothing", geotiff.Mean, new(uint8(7)), [4]uint8{7, 7, 7, 7}, 7},
		{"mean on the no-data value", geotiff.Mean, new(uint8(100)), [4]uint8{99, 101, 99, 101}, 99},
		{"nearest", geotiff.Nearest, nil, [4]uint8{10, 20, 30, 40}, 10},
		{"nearest of no-data", geotiff.Nearest, new(uint8(0)), [4]uint8{0, 20, 30, 40}, 0},
		{"max", geotiff.Max, nil, [4]uint8{10, 40, 30, 20}, 40},
		{"max of seen pixels", geotiff.Max, new(uint8(255)), [4]uint8{255, 3, 9, 255}, 9},
		{"max of nothing", geotiff.Max, new(uint8(255)), [4]uint8{255, 255, 255, 255}, 255},
	} {
		if got := block(t, test.how, test.gap, test.four); got != test.want {
			t.Errorf("%s: got %v, want %v", test.name, got, test.want)
		}
	}
}

func TestResamplingFloat(t *testing.T) {
	nan := float32(math.NaN())
	if got := block(t, geotiff.Mean, nil, [4]float32{nan, -30, nan, -31}); got != -30.5 {
		t.Errorf("mean past NaN: got %v, want -30.5", got)
	}
	if got := block(t, geotiff.Mean, new(float32(-9999)), [4]float32{-9999, 1, 2, -9999}); got != 1.5 {
		t.Errorf("mean past no-data: got %v, want 1.5", got)
	}
	if got := block(t, geotiff.Mean, &nan, [4]float32{nan, nan, nan, nan}); !math.IsNaN(got) {
		t.Errorf("mean of nothing: got %v, want NaN", got)
	}
	if got := block(t, geotiff.Max, nil, [4]float32{-30, nan, -20, -31}); got != -20 {
		t.Errorf("max past NaN: got %v, want -20", got)
	}
}

// At an odd edge the last overview pixel stands for the pixels there are.
func TestOverviewEdge(t *testing.T) {
	r := reference[uint16](257, 3)
	for i := range r.Pix {
		r.Pix[i] = uint16(i)
	}
	b := encode(t, r)
	d := parse(t, b)[1]
	if got, want := [2]int{d.number(256), d.number(257)}, [2]int{129, 2}; got != want {
		t.Fatalf("got overview of %v, want %v", got, want)
	}
	pix, _ := pixels(t, b, d)
	// Right edge: mean of pixels 256 and 513. Bottom: of 514 and 515. Corner: 770.
	got := []float64{pix[128], pix[129], pix[257]}
	if want := []float64{385, 515, 770}; !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
}
