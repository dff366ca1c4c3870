package picture

import "math"

// meanAcross sets each pixel of dst to the mean of the samples it covers, the
// ones it shares with a neighbour counted in part. The row must not be empty.
func meanAcross(dst []float64, row []uint8) {
	perPixel := float64(len(row)) / float64(len(dst))
	for j := range dst {
		lo, hi := float64(j)*perPixel, float64(j+1)*perPixel
		sum := 0.0
		for i := int(lo); i < len(row) && float64(i) < hi; i++ {
			sum += float64(row[i]) * overlap(i, lo, hi)
		}
		dst[j] = sum / perPixel
	}
}

// overlap returns how much of the cell [i, i+1) lies between lo and hi.
func overlap(i int, lo, hi float64) float64 {
	return math.Max(0, math.Min(float64(i+1), hi)-math.Max(float64(i), lo))
}

// side averages the rows of one side down to a picture.
type side struct {
	rows [][]uint8

	across []float64 // mean of one ping, kept from call to call
	of     int       // the ping it belongs to
	sum    []float64
}

func newSide(rows [][]uint8, width int) *side {
	return &side{rows: rows, across: make([]float64, width), of: -1, sum: make([]float64, width)}
}

// mean returns the mean grey from nadir outwards of the pings between lo and
// hi, and false where all of them are missing. The slice is good until the next
// call.
func (s *side) mean(lo, hi float64) ([]float64, bool) {
	clear(s.sum)
	weight := 0.0
	for i := max(0, int(lo)); i < len(s.rows) && float64(i) < hi; i++ {
		w := overlap(i, lo, hi)
		if len(s.rows[i]) == 0 || w == 0 {
			continue
		}
		if s.of != i {
			meanAcross(s.across, s.rows[i])
			s.of = i
		}
		for j, v := range s.across {
			s.sum[j] += w * v
		}
		weight += w
	}
	if weight == 0 {
		return nil, false
	}
	for j := range s.sum {
		s.sum[j] /= weight
	}
	return s.sum, true
}

// meanOf returns the mean of the finite values between lo and hi, and false
// where there are none.
func meanOf(values []float64, lo, hi float64) (float64, bool) {
	sum, weight := 0.0, 0.0
	for i := max(0, int(lo)); i < len(values) && float64(i) < hi; i++ {
		w := overlap(i, lo, hi)
		if w == 0 || math.IsNaN(values[i]) || math.IsInf(values[i], 0) {
			continue
		}
		sum += w * values[i]
		weight += w
	}
	return sum / weight, weight > 0
}
