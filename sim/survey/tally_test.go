package survey

import (
	"math/rand/v2"
	"testing"

	"dryline/sonar/recorder"
)

// One sample after another, for rows of every length, silent, ordinary and cut off all over; and a row so long that no
// word has room for its sum.
func TestTallyIsOfEverySample(t *testing.T) {
	rng := rand.New(rand.NewPCG(31, 32))
	rows := [][]uint16{make([]uint16, 1<<19)}
	for i := range rows[0] {
		rows[0][i] = recorder.FullScale
	}
	for n := range 40 {
		for _, most := range []int{1, 100, recorder.FullScale + 1} {
			row := make([]uint16, n)
			for i := range row {
				row[i] = uint16(rng.IntN(most))
				if rng.IntN(5) == 0 {
					row[i] = recorder.FullScale - uint16(rng.IntN(2))
				}
			}
			rows = append(rows, row)
		}
	}
	for _, row := range rows {
		var want uint64
		full := 0
		for _, v := range row {
			want += uint64(v)
			if v == recorder.FullScale {
				full++
			}
		}
		if sum, n := tally(row); sum != want || n != full {
			t.Errorf("%d samples: sum %d, %d at full scale, want %d and %d", len(row), sum, n, want, full)
		}
	}
}

// Greys are the tones of the means of their shares of a row, whatever its length.
func TestShrinkTakesInEverySampleOnce(t *testing.T) {
	for _, n := range []int{1, 7, 499, 500} {
		for _, samples := range []int{n, n + 1, 3*n + n/2, 2000} {
			if samples < n {
				continue
			}
			row, dst := make([]float32, samples), make([]uint8, n)
			for i := range n {
				from, to := i*samples/n, (i+1)*samples/n
				for k := from; k < to; k++ {
					row[k] = 0.5
				}
				if i%2 == 0 {
					row[from], row[to-1] = row[from]+2, row[to-1]+2
				}
			}
			shrink(dst, row)
			for i, grey := range dst {
				if bright := grey > dst[min(1, n-1)]; n > 1 && bright != (i%2 == 0) {
					t.Fatalf("%d samples in %d greys: grey %d is %d", samples, n, i, grey)
				}
			}
		}
	}
}
