package picture

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

func TestNiceStep(t *testing.T) {
	for _, tt := range []struct{ least, want float64 }{
		{1, 1}, {1.01, 2}, {2, 2}, {2.5, 5}, {5.1, 10}, {73, 100}, {999, 1000},
		{0.03, 0.05}, {0.1 + 0.1, 0.2}, {0.1 + 0.2, 0.5}, {1e-4, 1e-4}, {200.00000000001, 200},
	} {
		if got := NiceStep(tt.least); got != tt.want {
			t.Errorf("NiceStep(%g): got %g, want %g", tt.least, got, tt.want)
		}
	}
}

func TestTicks(t *testing.T) {
	for _, tt := range []struct {
		name         string
		lo, hi, step float64
		want         []float64
	}{
		{"ends included", 0, 100, 25, []float64{0, 25, 50, 75, 100}},
		{"ends between", 12, 61, 20, []float64{20, 40, 60}},
		{"across zero", -0.3, 0.3, 0.1, []float64{-0.3, -0.2, -0.1, 0, 0.1, 0.2, 0.3}},
		{"none", 21, 39, 20, nil},
		{"northings", 5612180, 5612620, 200, []float64{5612200, 5612400, 5612600}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			if got := Ticks(nil, tt.lo, tt.hi, tt.step); !slices.Equal(got, tt.want) {
				t.Errorf("got %v, want %v", got, tt.want)
			}
		})
	}
}

func TestTicksAreEvenlySpacedInside(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lo := rapid.Float64Range(-1e6, 1e6).Draw(t, "lo")
		span := rapid.Float64Range(1e-2, 1e4).Draw(t, "span")
		step := NiceStep(span / 10)
		ticks := Ticks(nil, lo, lo+span, step)
		if n := len(ticks); n < 3 || n > 11 {
			t.Fatalf("got %d ticks, want 3 to 11", n)
		}
		for i, v := range ticks {
			if v < lo-1e-6 || v > lo+span+1e-6 {
				t.Fatalf("tick %g outside %g to %g", v, lo, lo+span)
			}
			if i > 0 && math.Abs(v-ticks[i-1]-step) > 1e-6*step+1e-9 {
				t.Fatalf("ticks %g and %g, want %g apart", ticks[i-1], v, step)
			}
		}
	})
}

func ExampleFormatTick() {
	step := NiceStep(0.17)
	for _, v := range Ticks(nil, 0, 0.6, step) {
		fmt.Print(FormatTick(v, step), " ")
	}
	fmt.Println(FormatTick(5612400, NiceStep(170)))
	// Output: 0.0 0.2 0.4 0.6 5612400
}
