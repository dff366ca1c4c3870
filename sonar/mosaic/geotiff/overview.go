package geotiff

import "math"

// Resampling is how four pixels become one in an overview. Unseen pixels never
// dilute seen ones, except in Nearest, which does not look at its neighbours.
type Resampling int

const (
	// Mean is the average of the seen pixels, rounded half up in integer
	// rasters: for imagery.
	Mean Resampling = iota
	// Nearest is the upper-left of the four pixels: for classes.
	Nearest
	// Max is the greatest seen pixel: for counts and for bright contacts that
	// must not fade with distance.
	Max
)

// level is one picture of the pyramid.
type level[T Sample] struct {
	width, height int
	pix           []T
}

// pyramid returns the raster and its overviews, each half the size of the one
// before it (rounded up), until one tile holds the last.
func pyramid[T Sample](r *Raster[T]) []level[T] {
	levels := []level[T]{{r.Width, r.Height, r.Pix}}
	for {
		last := levels[len(levels)-1]
		if last.width <= tileSide && last.height <= tileSide {
			return levels
		}
		levels = append(levels, halve(last, r.Overviews, r.noData()))
	}
}

// halve returns src at half size. The last column and row of an odd size stand
// for fewer than four pixels.
func halve[T Sample](src level[T], how Resampling, gap noData[T]) level[T] {
	dst := level[T]{width: (src.width + 1) / 2, height: (src.height + 1) / 2}
	dst.pix = make([]T, dst.width*dst.height)
	for y := range dst.height {
		top := src.pix[2*y*src.width:][:src.width]
		bottom := top
		if 2*y+1 < src.height {
			bottom = src.pix[(2*y+1)*src.width:][:src.width]
		}
		row := dst.pix[y*dst.width:][:dst.width]
		for x := range row {
			right := min(2*x+1, src.width-1)
			// At an odd edge a pixel stands in for its missing neighbour, which
			// leaves both mean and greatest as they were.
			four := [4]T{top[2*x], top[right], bottom[2*x], bottom[right]}
			switch how {
			case Nearest:
				row[x] = four[0]
			case Max:
				row[x] = greatest(&four, gap)
			default:
				row[x] = mean(&four, gap)
			}
		}
	}
	return dst
}

// greatest returns the greatest seen value, or the first if none was seen.
func greatest[T Sample](four *[4]T, gap noData[T]) T {
	best, seen := four[0], false
	for _, v := range four {
		if !gap.missing(v) && (!seen || v > best) {
			best, seen = v, true
		}
	}
	return best
}

// mean returns the average of the seen values, or the first value if none was
// seen.
func mean[T Sample](four *[4]T, gap noData[T]) T {
	sum, n, first := 0., 0., four[0]
	for _, v := range four {
		if gap.missing(v) {
			continue
		}
		if n == 0 {
			first = v
		}
		sum += float64(v)
		n++
	}
	if n == 0 {
		return first
	}
	average := sum / n
	if integer[T]() {
		average = math.Floor(average + 0.5)
	}
	// Seen pixels on both sides of the no-data value must not vanish into it.
	if v := T(average); !gap.missing(v) {
		return v
	}
	return first
}

// integer reports whether T holds whole numbers only.
func integer[T Sample]() bool {
	half := 0.5
	return T(half) == 0
}
