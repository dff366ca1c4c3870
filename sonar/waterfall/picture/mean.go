package picture

import "math"

// across knows which samples of a row each pixel covers, and what share of the pixel
// each is of; those it shares with a neighbour are counted in part.
type across struct {
	first  []int // sample of each pixel
	shares [][]float64
}

// newAcross lays so many samples, at least one, over so many pixels.
func newAcross(samples, pixels int) *across {
	a := &across{make([]int, pixels), make([][]float64, pixels)}
	perPixel := float64(samples) / float64(pixels)
	for j := range pixels {
		lo, hi := float64(j)*perPixel, float64(j+1)*perPixel
		a.first[j] = int(lo)
		for i := int(lo); i < samples && float64(i) < hi; i++ {
			a.shares[j] = append(a.shares[j], overlap(i, lo, hi)/perPixel)
		}
	}
	return a
}

// mean sets each pixel of dst to the mean of the samples it covers.
func (a *across) mean(dst, row []float64) {
	for j, shares := range a.shares {
		sum := 0.0
		for i, v := range row[a.first[j]:][:len(shares)] {
			sum += v * shares[i]
		}
		dst[j] = sum
	}
}

// overlap returns how much of the cell [i, i+1) lies between lo and hi.
func overlap(i int, lo, hi float64) float64 {
	return math.Max(0, math.Min(float64(i+1), hi)-math.Max(float64(i), lo))
}

// side averages the rows of one side down to a picture.
type side struct {
	rows   [][]uint8
	across *across
	sum    []float64 // by sample
	pixels []float64
}

// newSide returns the side of a picture so many pixels wide. Rows that are not empty
// are of one length.
func newSide(rows [][]uint8, width int) *side {
	s := &side{rows: rows, pixels: make([]float64, width)}
	for _, row := range rows {
		if len(row) > 0 {
			s.across, s.sum = newAcross(len(row), width), make([]float64, len(row))
			break
		}
	}
	return s
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
		for j, v := range s.rows[i] {
			s.sum[j] += w * float64(v)
		}
		weight += w
	}
	if weight == 0 {
		return nil, false
	}
	for j := range s.sum {
		s.sum[j] /= weight
	}
	s.across.mean(s.pixels, s.sum)
	return s.pixels, true
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
