package grid

import (
	"fmt"
	"math"
)

// Raster is a file's depths in the file's own coordinates.
type Raster struct {
	NX, NY int
	X0, Y0 float64 // middle of the south-westernmost cell, in the units of the frame
	DX, DY float64 // from cell to cell, east and north, both positive
	EPSG   int     // of the frame, 0 if the file does not say
	Z      []float32
	Holes  int    // cells without a value
	Zero   string // what the file says its heights are over, if it says so
	Sign   string // how it is known that they count up or down
}

// at is the index of a cell.
func (r *Raster) at(i, j int) int { return j*r.NX + i }

// Geographic reports whether the frame is longitude and latitude in degrees.
func (r *Raster) Geographic() bool { return r.EPSG == wgs84 || r.EPSG == etrs89 || r.EPSG == nad83 }

// Frames that are known besides UTM on WGS84. The two others agree with WGS84 within
// two metres, which is what taking them for it costs.
const (
	wgs84  = 4326
	etrs89 = 4258
	nad83  = 4269
)

// UTM is the zone of the frame, or 0: EPSG 326zz and 327zz on WGS84, 258zz on ETRS89,
// 269zz on NAD83.
func (r *Raster) UTM() (zone int, south bool) {
	zone = r.EPSG % 100
	if zone < 1 || zone > 60 {
		return 0, false
	}
	switch r.EPSG / 100 {
	case 326:
		return zone, false
	case 327:
		return zone, true
	case 258, 269:
		return zone, false
	}
	return 0, false
}

// Values says which way the values of a file count.
type Values string

// The ways.
const (
	Auto Values = "auto" // as the file says, or as their sign shows
	Up   Values = "up"   // heights: negative below the file's zero
	Down Values = "down" // depths: positive below it
)

// Options say what a file does not.
type Options struct {
	Name   string // of the file, by whose ending formats without a mark of their own are told
	Values Values // empty is Auto
	EPSG   int    // of the frame; 0 takes the file's
	Cell   float64
	// Cell is the size of the cells that scattered soundings are averaged in, in the
	// units of the frame; 0 asks for points that lie on a grid.
}

// most bounds the cells of a raster.
const most = 1 << 26

// finish settles the sign and counts the holes. said is how the file's own
// reference counts, Auto if it does not say.
func (r *Raster) finish(o Options, said Values) error {
	if o.EPSG != 0 {
		r.EPSG = o.EPSG
	}
	if zone, _ := r.UTM(); zone == 0 && !r.Geographic() {
		if r.EPSG == 0 {
			return fmt.Errorf("it does not say what its coordinates are: give the EPSG code of a UTM zone (32601 to 32660, 32701 to 32760) or 4326")
		}
		return fmt.Errorf("its coordinates are EPSG:%d, want UTM on WGS84 (32601 to 32660, 32701 to 32760) or EPSG:4326", r.EPSG)
	}
	low, high := math.Inf(1), math.Inf(-1)
	for _, z := range r.Z {
		if z != z {
			r.Holes++
			continue
		}
		low, high = min(low, float64(z)), max(high, float64(z))
	}
	if low > high {
		return fmt.Errorf("it holds no depth at all")
	}
	if high-low > 20000 || math.Abs(low) > 12000 || math.Abs(high) > 12000 {
		return fmt.Errorf("its values go from %g to %g, which are no depths in metres; is a value for missing cells not said?", low, high)
	}
	values := o.Values
	r.Sign = "as asked"
	if values == "" || values == Auto {
		values, r.Sign = said, "as the file says"
	}
	if values == Auto {
		r.Sign = "by the sign of all values"
		switch {
		case high <= 0:
			values = Up
		case low >= 0:
			values = Down
		default:
			return fmt.Errorf("its values go from %g to %g and do not say whether they count up or down: give one of up, down", low, high)
		}
	}
	if values == Down {
		for i, z := range r.Z {
			r.Z[i] = -z
		}
	}
	r.Sign = string(values) + ", " + r.Sign
	return nil
}
