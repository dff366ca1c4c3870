package geotiff_test

import (
	"bytes"
	"encoding/binary"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"dryline/sonar/mosaic/geotiff"
)

// gdal runs one of GDAL's command-line tools, an outside reader of what the
// package writes. Without the tools the test is skipped, unless
// DRYLINE_REQUIRE_TOOLS=1 says that they must be there.
func gdal(t *testing.T, name string, args ...string) []byte {
	t.Helper()
	path, err := exec.LookPath(name)
	if err != nil {
		if os.Getenv("DRYLINE_REQUIRE_TOOLS") == "1" {
			t.Fatalf("%s is required by DRYLINE_REQUIRE_TOOLS=1: %v", name, err)
		}
		t.Skipf("%s of GDAL is not installed", name)
	}
	var stderr bytes.Buffer
	cmd := exec.Command(path, args...)
	cmd.Stderr = &stderr
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("%s %v: %v\n%s", name, args, err, stderr.Bytes())
	}
	if stderr.Len() > 0 {
		t.Errorf("%s %v warns: %s", name, args, stderr.Bytes())
	}
	return out
}

// save writes b to a file that goes when the test ends.
func save(t *testing.T, b []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "mosaic.tif")
	if err := os.WriteFile(path, b, 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

// info is the part of gdalinfo's report that the tests look at.
type info struct {
	Size             [2]int
	GeoTransform     [6]float64
	CoordinateSystem struct{ WKT string }
	Metadata         map[string]map[string]string
	Bands            []struct {
		Block       [2]int
		Type        string
		NoDataValue any
		Overviews   []struct{ Size [2]int }
	}
}

func gdalinfo(t *testing.T, path string) info {
	t.Helper()
	var i info
	if err := json.Unmarshal(gdal(t, "gdalinfo", "-json", path), &i); err != nil {
		t.Fatal(err)
	}
	return i
}

func TestGDALReadsLayout(t *testing.T) {
	byteRaster := reference[uint8](1000, 700)
	byteRaster.NoData = new(uint8(0))
	wordRaster := reference[uint16](257, 513)
	wordRaster.EPSG = 32760
	floatRaster := reference[float32](1, 1)
	floatRaster.NoData = new(float32(math.NaN()))
	sparse := reference[uint8](600, 600)
	sparse.NoData, sparse.Sparse = new(uint8(0)), true
	clear(sparse.Pix)
	var big bytes.Buffer
	if err := geotiff.WriteBig(&big, byteRaster); err != nil {
		t.Fatal(err)
	}

	for _, test := range []struct {
		name      string
		file      []byte
		size      [2]int
		epsg      int
		kind      string
		noData    any
		overviews [][2]int
	}{
		{"8-bit", encode(t, byteRaster), [2]int{1000, 700}, 32630, "Byte", 0., [][2]int{{500, 350}, {250, 175}}},
		{"BigTIFF", big.Bytes(), [2]int{1000, 700}, 32630, "Byte", 0., [][2]int{{500, 350}, {250, 175}}},
		{"16-bit", encode(t, wordRaster), [2]int{257, 513}, 32760, "UInt16", nil, [][2]int{{129, 257}, {65, 129}}},
		{"one float", encode(t, floatRaster), [2]int{1, 1}, 32630, "Float32", "NaN", nil},
		{"empty and sparse", encode(t, sparse), [2]int{600, 600}, 32630, "Byte", 0., [][2]int{{300, 300}, {150, 150}}},
	} {
		t.Run(test.name, func(t *testing.T) {
			i := gdalinfo(t, save(t, test.file))
			if i.Size != test.size {
				t.Errorf("got size %v, want %v", i.Size, test.size)
			}
			if want := [6]float64{612000, 0.5, 0, 5629000, 0, -0.5}; i.GeoTransform != want {
				t.Errorf("got transform %v, want %v", i.GeoTransform, want)
			}
			if want := fmt.Sprintf(`ID["EPSG",%d]]`, test.epsg); !strings.HasSuffix(i.CoordinateSystem.WKT, want) {
				t.Errorf("got reference system %s, want it to end %s", i.CoordinateSystem.WKT, want)
			}
			if got := i.Metadata["IMAGE_STRUCTURE"]["LAYOUT"]; got != "COG" {
				t.Errorf("got layout %q, want COG", got)
			}
			if got := i.Metadata["IMAGE_STRUCTURE"]["COMPRESSION"]; got != "DEFLATE" {
				t.Errorf("got compression %q, want DEFLATE", got)
			}
			if got := i.Metadata[""]["AREA_OR_POINT"]; got != "Area" {
				t.Errorf("got pixels of %q, want Area", got)
			}
			if len(i.Bands) != 1 {
				t.Fatalf("got %d bands, want 1", len(i.Bands))
			}
			band := i.Bands[0]
			if band.Type != test.kind || band.Block != [2]int{256, 256} || band.NoDataValue != test.noData {
				t.Errorf("got %s in blocks %v with no-data %v, want %s, 256, %v",
					band.Type, band.Block, band.NoDataValue, test.kind, test.noData)
			}
			var overviews [][2]int
			for _, o := range band.Overviews {
				overviews = append(overviews, o.Size)
			}
			if !slices.Equal(overviews, test.overviews) {
				t.Errorf("got overviews %v, want %v", overviews, test.overviews)
			}
		})
	}
}

// A value is found again at the place on the ground where it was put.
func TestGDALFindsPixel(t *testing.T) {
	r := reference[uint16](600, 400)
	r.NoData = new(uint16(0))
	path := save(t, encode(t, r))
	for _, test := range []struct {
		name        string
		east, north float64
		x, y        int
	}{
		{"inside the first corner", 612000.01, 5628999.99, 0, 0},
		{"middle of a pixel", 612000.75, 5628999.25, 1, 1},
		{"next tile east", 612128.01, 5628999.99, 256, 0},
		{"next tile south", 612000.01, 5628871.99, 0, 256},
		{"last corner", 612299.99, 5628800.01, 599, 399},
	} {
		out := gdal(t, "gdallocationinfo", "-valonly", "-geoloc", path,
			strconv.FormatFloat(test.east, 'f', -1, 64), strconv.FormatFloat(test.north, 'f', -1, 64))
		want := strconv.Itoa(int(r.Pix[test.y*r.Width+test.x]))
		if got := strings.TrimSpace(string(out)); got != want {
			t.Errorf("%s: got %s, want %s", test.name, got, want)
		}
	}
}

// Every pixel comes back through GDAL, and those of tiles left out as no-data.
func TestGDALReadsPixels(t *testing.T) {
	r := reference[uint8](700, 600)
	r.NoData, r.Sparse = new(uint8(255)), true
	for i := range r.Pix[:700*300] {
		r.Pix[i] = 255
	}
	if got := gdalPixels(t, encode(t, r)); !bytes.Equal(got, r.Pix) {
		t.Error("8-bit pixels differ")
	}

	f := reference[float32](300, 260)
	f.Pix[5] = -12.375
	want, err := binary.Append(nil, binary.LittleEndian, f.Pix)
	if err != nil {
		t.Fatal(err)
	}
	var big bytes.Buffer
	if err := geotiff.WriteBig(&big, f); err != nil {
		t.Fatal(err)
	}
	for name, b := range map[string][]byte{"classic": encode(t, f), "BigTIFF": big.Bytes()} {
		if got := gdalPixels(t, b); !bytes.Equal(got, want) {
			t.Errorf("%s: float32 pixels differ", name)
		}
	}
}

// gdalPixels returns the raw little-endian pixels of a GeoTIFF.
func gdalPixels(t *testing.T, b []byte) []byte {
	t.Helper()
	raw := filepath.Join(t.TempDir(), "raw.bin")
	gdal(t, "gdal_translate", "-q", "-of", "ENVI", save(t, b), raw)
	pix, err := os.ReadFile(raw)
	if err != nil {
		t.Fatal(err)
	}
	return pix
}
