package grid

import (
	"encoding/xml"
	"errors"
	"fmt"
	"math"
	"strconv"
)

// Keys of the GeoKeyDirectory, OGC GeoTIFF 1.1 section 7.
const (
	keyModelType  = 1024
	keyRasterType = 1025
	keyGeographic = 2048
	keyProjected  = 3072
	keyVertical   = 4096

	rasterIsPoint = 2
	userDefined   = 32767
)

// downward are vertical frames of EPSG that count depths, upward such as count heights,
// by name in the EPSG registry as PROJ 9 lists them.
var (
	downward = map[int]string{5715: "MSL depth", 5831: "Instantaneous Water Level depth", 5861: "LAT depth", 5866: "MLLW depth"}
	upward   = map[int]string{5714: "MSL height", 5829: "Instantaneous Water Level height"}
)

// place reads where the cells lie and which way heights count, if the file says it.
func (t *tiff) place(r *Raster) (Values, error) {
	keys := map[uint64]uint64{}
	for k := 4; k+3 < t.count(tagGeoKeys); k += 4 {
		if t.whole(tagGeoKeys, k+1, 1) == 0 { // the value itself, not one in another tag
			keys[t.whole(tagGeoKeys, k, 0)] = t.whole(tagGeoKeys, k+3, 0)
		}
	}
	r.EPSG = int(keys[keyProjected])
	if r.EPSG == 0 {
		r.EPSG = int(keys[keyGeographic])
	}
	if r.EPSG == userDefined {
		r.EPSG = 0
	}
	var x, y, dx, dy float64 // of the corner of the north-western cell, or of its middle
	switch {
	case t.count(tagPixelScale) >= 2 && t.count(tagTiepoint) >= 6:
		dx, dy = t.double(tagPixelScale, 0), t.double(tagPixelScale, 1)
		x = t.double(tagTiepoint, 3) - t.double(tagTiepoint, 0)*dx
		y = t.double(tagTiepoint, 4) + t.double(tagTiepoint, 1)*dy
	case t.count(tagTransformation) >= 16:
		if t.double(tagTransformation, 1) != 0 || t.double(tagTransformation, 4) != 0 {
			return Auto, errors.New("its rows do not run east: a turned raster is not read")
		}
		dx, dy = t.double(tagTransformation, 0), -t.double(tagTransformation, 5)
		x, y = t.double(tagTransformation, 3), t.double(tagTransformation, 7)
	default:
		return Auto, errors.New("it does not say where its cells lie")
	}
	if !(dx > 0) || !(dy > 0) || math.IsInf(dx, 0) || math.IsInf(dy, 0) || math.IsNaN(x+y) || math.IsInf(x+y, 0) {
		return Auto, fmt.Errorf("its cells are %g by %g at %g, %g: want rows from the west, the first in the north", dx, dy, x, y)
	}
	if keys[keyRasterType] != rasterIsPoint {
		x, y = x+dx/2, y-dy/2
	}
	r.X0, r.Y0, r.DX, r.DY = x, y-float64(r.NY-1)*dy, dx, dy
	vertical := int(keys[keyVertical])
	if name, ok := downward[vertical]; ok {
		r.Zero = name
		return Down, nil
	}
	if name, ok := upward[vertical]; ok {
		r.Zero = name
		return Up, nil
	}
	return Auto, nil
}

// scale returns the factor that values of the first band are multiplied by, and the number added then, to
// make metres: GDAL writes it into its metadata.
func (t *tiff) scale() (scale, offset float64) {
	scale = 1
	var meta struct {
		Items []struct {
			Sample string `xml:"sample,attr"`
			Role   string `xml:"role,attr"`
			Text   string `xml:",chardata"`
		} `xml:"Item"`
	}
	if err := xml.Unmarshal([]byte(t.text(tagMetadata)), &meta); err != nil {
		return 1, 0
	}
	for _, m := range meta.Items {
		v, err := strconv.ParseFloat(m.Text, 64)
		if err != nil || m.Sample != "0" || math.IsNaN(v) || math.IsInf(v, 0) {
			continue
		}
		switch m.Role {
		case "scale":
			scale = v
		case "offset":
			offset = v
		}
	}
	return scale, offset
}
