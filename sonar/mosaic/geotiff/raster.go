package geotiff

import (
	"errors"
	"fmt"
	"math"
	"time"
)

// Sample is a type of pixel value: 8-bit or 16-bit grey, or float32 for
// physical quantities such as decibels.
type Sample interface {
	uint8 | uint16 | float32
}

// Raster is a picture on the grid.
type Raster[T Sample] struct {
	Width, Height int

	// OriginEasting and OriginNorthing are the upper-left outer corner of the
	// first pixel, metres.
	OriginEasting, OriginNorthing float64
	PixelSize                     float64 // metres, both ways
	EPSG                          int     // projected reference system, 1024 to 32766

	// Pix holds Width × Height values, row by row from the north-west corner.
	Pix []T

	// NoData is the value of a pixel nobody saw; nil if every pixel was seen.
	// In a float32 raster NaN is never a seen value, whether named here or not.
	NoData *T

	// Overviews says how the coarser copies are made. The zero value averages.
	Overviews Resampling

	// Sparse leaves tiles without any seen pixel out of the file. GDAL and the
	// readers built on it fill them in; simpler TIFF readers refuse such files.
	// It needs NoData.
	Sparse bool

	// Software, Description, Copyright and Time fill the TIFF tags 305, 270, 33432
	// and 306 if not zero. Text is 7-bit ASCII. Time is written in UTC to the
	// second; take it from the exercise, never from the clock.
	Software, Description, Copyright string
	Time                             time.Time

	// Band and Unit say what a pixel's value means and in which unit; Items are
	// whatever else is known of the file. They go into the tag in which GDAL keeps
	// what TIFF has no tags for, 42112.
	Band, Unit string
	Items      []Item
}

// check returns what is wrong with the raster, or nil.
func (r *Raster[T]) check() error {
	switch {
	case r.Width < 1 || r.Height < 1 || int64(r.Width) > math.MaxInt32 || int64(r.Height) > math.MaxInt32:
		return fmt.Errorf("size %d × %d pixels is not in 1 to 2³¹-1", r.Width, r.Height)
	case int64(r.Width)*int64(r.Height) != int64(len(r.Pix)):
		return fmt.Errorf("%d pixels for a size of %d × %d", len(r.Pix), r.Width, r.Height)
	case !finite(r.OriginEasting) || !finite(r.OriginNorthing):
		return fmt.Errorf("origin %v, %v is not finite", r.OriginEasting, r.OriginNorthing)
	case !finite(r.PixelSize) || r.PixelSize <= 0:
		return fmt.Errorf("pixel size %v m is not positive", r.PixelSize)
	case r.EPSG < 1024 || r.EPSG > 32766:
		return fmt.Errorf("EPSG code %d is not in 1024 to 32766", r.EPSG)
	case r.NoData != nil && math.IsInf(float64(*r.NoData), 0):
		return errors.New("no-data value is infinite")
	case r.Sparse && r.NoData == nil:
		return errors.New("a sparse file needs a no-data value")
	case r.Overviews < Mean || r.Overviews > Max:
		return fmt.Errorf("unknown resampling %d", r.Overviews)
	case !ascii(r.Software) || !ascii(r.Description) || !ascii(r.Copyright):
		return errors.New("software, description and copyright must be 7-bit ASCII")
	case !ascii(r.metadata()):
		return errors.New("band, unit and items must be 7-bit ASCII")
	case r.Time.UTC().Year() < 0 || r.Time.UTC().Year() > 9999:
		return fmt.Errorf("year %d does not fit a TIFF date", r.Time.UTC().Year())
	}
	return nil
}

// noData tells seen pixels from unseen ones.
type noData[T Sample] struct {
	value T
	set   bool
}

func (r *Raster[T]) noData() noData[T] {
	if r.NoData == nil {
		return noData[T]{}
	}
	return noData[T]{value: *r.NoData, set: true}
}

// missing reports whether v is no observation.
func (n noData[T]) missing(v T) bool {
	return v != v || n.set && v == n.value // v != v is NaN
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

// ascii reports whether s fits a TIFF text tag, whose end is a NUL.
func ascii(s string) bool {
	for _, b := range []byte(s) {
		if b == 0 || b > 127 {
			return false
		}
	}
	return true
}
