package grid

import (
	"bytes"
	"fmt"
	"path"
	"strings"
)

// Read reads depths from the bytes of a file. The error says what is wrong in a few
// words, without the file's name.
func Read(data []byte, o Options) (*Raster, error) {
	switch o.Values {
	case "", Auto, Up, Down:
	default:
		return nil, fmt.Errorf("values count %q, want up, down or auto", o.Values)
	}
	switch {
	case len(data) >= 4 && (string(data[:2]) == "II" || string(data[:2]) == "MM") && (data[2] == 0 || data[3] == 0):
		return readTIFF(data, o)
	case isASCIIGrid(data):
		return readASCIIGrid(data, o)
	}
	switch ext := strings.ToLower(path.Ext(strings.ReplaceAll(o.Name, `\`, "/"))); ext {
	case ".xyz", ".csv", ".txt", ".tsv":
		return readPoints(data, o)
	case ".tif", ".tiff", ".asc":
		return nil, fmt.Errorf("it is no %s file", map[string]string{".tif": "TIFF", ".tiff": "TIFF", ".asc": "ESRI ASCII grid"}[ext])
	default:
		return nil, fmt.Errorf("it is no format that is known: want GeoTIFF, ESRI ASCII grid (.asc), .xyz or .csv")
	}
}

// isASCIIGrid reports whether a file opens as ESRI ASCII grids do.
func isASCIIGrid(data []byte) bool {
	head := bytes.ToLower(bytes.TrimLeft(data[:min(len(data), 64)], " \t\r\n"))
	return bytes.HasPrefix(head, []byte("ncols")) || bytes.HasPrefix(head, []byte("nrows"))
}
