package geotiff_test

import (
	"bytes"
	"fmt"

	"dryline/sonar/mosaic/geotiff"
)

// A mosaic of 8-bit grey, where 0 is ground that no ping reached.
func ExampleWrite() {
	mosaic := geotiff.Raster[uint8]{
		Width: 3, Height: 2,
		OriginEasting: 612000, OriginNorthing: 5629000, // north-west corner
		PixelSize: 0.5, EPSG: 32630,
		NoData: new(uint8(0)),
		Pix: []uint8{
			0, 90, 120,
			0, 95, 130,
		},
	}
	var file bytes.Buffer
	if err := geotiff.Write(&file, mosaic); err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%q\n", file.Bytes()[8:33])
	// Output:
	// "GDAL_STRUCTURAL_METADATA_"
}
