package product

import (
	"io"
	"math"

	"dryline/sim/provenance"
	"dryline/sonar/mosaic"
	"dryline/sonar/mosaic/geotiff"
)

// mosaicTIFF writes the mosaic: grey levels 1 to 255 of levelled amplitude, 0
// where nothing was seen.
func (w *Writer) mosaicTIFF(out io.Writer, shot mosaic.Picture, more ...fact) error {
	r := w.raster(shot, more...)
	r.Pix, r.NoData = shot.Gray.Pix, new(uint8(0))
	r.Description = "Synthetic side-scan mosaic for training. Not for navigation."
	r.Band, r.Unit = "levelled echo amplitude on a tone curve; 0 where nothing was seen", "grey level"
	return geotiff.Write(out, r)
}

// coverageTIFF writes the number of independent looks in each cell; 0 is none.
func (w *Writer) coverageTIFF(out io.Writer, shot mosaic.Picture, more ...fact) error {
	r := w.raster(shot, more...)
	r.Pix = shot.Looks
	r.Overviews = geotiff.Nearest
	r.Description = "Independent looks per cell of a synthetic survey for training. Not for navigation."
	r.Band, r.Unit = "lines that saw the cell", "looks"
	return geotiff.Write(out, r)
}

// raster is a picture as a file with more facts of where it comes from.
func (w *Writer) raster(shot mosaic.Picture, more ...fact) geotiff.Raster[uint8] {
	ex := w.session.Exercise
	east, north := ex.Place.Grid.ToUTM(shot.MinX, shot.MaxY)
	// The mosaic's cells are whole in UTM; what sums left behind the last digit goes.
	whole := func(v float64) float64 { return math.Round(v/shot.Cell) * shot.Cell }
	r := geotiff.Raster[uint8]{
		Width: shot.Gray.Rect.Dx(), Height: shot.Gray.Rect.Dy(),
		OriginEasting: whole(east), OriginNorthing: whole(north), PixelSize: shot.Cell, EPSG: ex.Place.Grid.EPSG(),
		Software: software, Copyright: provenance.Licence, Time: ex.Start,
	}
	for _, l := range append(w.provenance(), more...) {
		r.Items = append(r.Items, geotiff.Item{Name: l.name, Value: l.value})
	}
	return r
}
