package product

import (
	"io"

	"dryline/sonar/mosaic"
	"dryline/sonar/mosaic/geotiff"
)

// software names us in the files' tags.
const software = "Dryline survey simulator"

// mosaicTIFF writes the mosaic: grey levels 1 to 255 of levelled amplitude, 0
// where nothing was seen.
func (w *Writer) mosaicTIFF(out io.Writer, shot mosaic.Picture) error {
	r := w.raster(shot)
	r.Pix, r.NoData = shot.Gray.Pix, new(uint8(0))
	r.Description = "Synthetic side-scan mosaic for training. Not for navigation."
	return geotiff.Write(out, r)
}

// coverageTIFF writes the number of independent looks in each cell; 0 is none.
func (w *Writer) coverageTIFF(out io.Writer, shot mosaic.Picture) error {
	r := w.raster(shot)
	r.Pix = shot.Looks
	r.Overviews = geotiff.Nearest
	r.Description = "Independent looks per cell of a synthetic survey for training. Not for navigation."
	return geotiff.Write(out, r)
}

func (w *Writer) raster(shot mosaic.Picture) geotiff.Raster[uint8] {
	ex := w.session.Exercise
	east, north := ex.Place.Grid.ToUTM(shot.MinX, shot.MaxY)
	return geotiff.Raster[uint8]{
		Width: shot.Gray.Rect.Dx(), Height: shot.Gray.Rect.Dy(),
		OriginEasting: east, OriginNorthing: north, PixelSize: shot.Cell, EPSG: ex.Place.Grid.EPSG(),
		Software: software, Time: ex.Start,
	}
}
