package grid_test

import (
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"dryline/seabed/grid"
)

// The sample is a plane with one hole; testdata/README.md says how it and the files
// that GDAL made of it came about.
const (
	columns, rows = 37, 23
	holeI, holeJ  = 7, 3
	west, south   = 318002.5, 5230002.5 // of the middle of the first cell
)

func plane(i, j int) float64 { return -(10.25 + float64(i) + 2*float64(j)) }

func read(t *testing.T, name string, o grid.Options) *grid.Raster {
	t.Helper()
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	o.Name = filepath.Base(name)
	r, err := grid.Read(data, o)
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	return r
}

func checkPlane(t *testing.T, name string, r *grid.Raster, rounded bool) {
	t.Helper()
	if r.NX != columns || r.NY != rows || r.X0 != west || r.Y0 != south || r.DX != 5 || r.DY != 5 || r.EPSG != 32625 || r.Holes != 1 {
		t.Fatalf("%s: %d x %d cells of %g x %g at %g, %g, EPSG:%d, %d holes", name, r.NX, r.NY, r.DX, r.DY, r.X0, r.Y0, r.EPSG, r.Holes)
	}
	for j := range rows {
		for i := range columns {
			got, want := float64(r.Z[j*r.NX+i]), plane(i, j)
			if rounded {
				want = math.Round(want)
			}
			if hole := i == holeI && j == holeJ; hole != math.IsNaN(got) || !hole && got != want {
				t.Fatalf("%s: cell %d, %d is %g, want %g (the hole is %d, %d)", name, i, j, got, want, holeI, holeJ)
			}
		}
	}
}

func TestCommittedSamples(t *testing.T) {
	for _, name := range []string{"float32-tiles-deflate-3.tif", "float64-strips-lzw-2.tif", "int16-strips-none-big.tif", "float32-strips-lzw-3-bigtiff.tif"} {
		checkPlane(t, name, read(t, "testdata/"+name, grid.Options{}), strings.HasPrefix(name, "int16"))
	}
	checkPlane(t, "slope.asc", read(t, "testdata/slope.asc", grid.Options{EPSG: 32625}), false)
}

// All that GDAL writes of what is promised: types, tiles and strips, packing, predictors.
func TestEverythingGDALMakes(t *testing.T) {
	if _, err := exec.LookPath("gdal_translate"); err != nil {
		if os.Getenv("DRYLINE_REQUIRE_TOOLS") == "1" {
			t.Fatal("gdal_translate is not installed")
		}
		t.Skip("gdal_translate is not installed: the committed samples stand for what it makes")
	}
	dir := t.TempDir()
	type job struct {
		name string
		args []string
		kind string
	}
	var jobs []job
	for _, kind := range []string{"Float32", "Float64", "Int16"} {
		for _, blocks := range []string{"TILED=YES BLOCKXSIZE=16 BLOCKYSIZE=32", "BLOCKYSIZE=5"} {
			for _, pack := range []string{"NONE", "DEFLATE", "LZW"} {
				for predictor := 1; predictor <= 3; predictor++ {
					if pack == "NONE" && predictor > 1 || kind == "Int16" && predictor == 3 {
						continue
					}
					for _, endian := range []string{"LITTLE", "BIG"} {
						if testing.Short() && endian == "BIG" {
							continue
						}
						if predictor == 3 && endian == "BIG" {
							continue // GDAL 3.6.2 itself reads 1e-41 from what it writes so
						}
						name := fmt.Sprintf("%s-%.5s-%s-%d-%s.tif", kind, blocks, pack, predictor, endian)
						args := []string{"-q", "-a_srs", "EPSG:32625", "-ot", kind, "-co", "COMPRESS=" + pack, "-co", "ENDIANNESS=" + endian}
						if pack != "NONE" {
							args = append(args, "-co", fmt.Sprintf("PREDICTOR=%d", predictor))
						}
						for o := range strings.FieldsSeq(blocks) {
							args = append(args, "-co", o)
						}
						jobs = append(jobs, job{name, append(args, "testdata/slope.asc", filepath.Join(dir, name)), kind})
					}
				}
			}
		}
	}
	if len(jobs) < 20 {
		t.Fatalf("%d combinations, want all", len(jobs))
	}
	limit := make(chan struct{}, runtime.NumCPU())
	done := make(chan error, len(jobs))
	for _, j := range jobs {
		go func() {
			limit <- struct{}{}
			defer func() { <-limit }()
			out, err := exec.Command("gdal_translate", j.args...).CombinedOutput()
			if err != nil {
				err = fmt.Errorf("gdal_translate %v: %w\n%s", j.args, err, out)
			}
			done <- err
		}()
	}
	for range jobs {
		if err := <-done; err != nil {
			t.Fatal(err)
		}
	}
	for _, j := range jobs {
		checkPlane(t, j.name, read(t, filepath.Join(dir, j.name), grid.Options{}), j.kind == "Int16")
	}
}

// Two bands, of which the first counts; a scale and an offset; cells as points; a
// vertical frame that counts down; a raster of which most blocks are left out.
func TestWhatElseGDALWrites(t *testing.T) {
	if _, err := exec.LookPath("gdal_translate"); err != nil {
		if os.Getenv("DRYLINE_REQUIRE_TOOLS") == "1" {
			t.Fatal("gdal_translate is not installed")
		}
		t.Skip("gdal_translate is not installed")
	}
	dir := t.TempDir()
	translate := func(name string, args ...string) string {
		to := filepath.Join(dir, name)
		out, err := exec.Command("gdal_translate", append(append([]string{"-q", "-a_srs", "EPSG:32625"}, args...), "testdata/slope.asc", to)...).CombinedOutput()
		if err != nil {
			t.Fatalf("gdal_translate %v: %v\n%s", args, err, out)
		}
		return to
	}
	for _, interleave := range []string{"PIXEL", "BAND"} {
		name := translate("bands-"+interleave+".tif", "-b", "1", "-b", "1", "-co", "INTERLEAVE="+interleave, "-co", "COMPRESS=DEFLATE", "-co", "PREDICTOR=2")
		checkPlane(t, interleave, read(t, name, grid.Options{}), false)
	}
	checkPlane(t, "point", read(t, translate("point.tif", "-mo", "AREA_OR_POINT=Point"), grid.Options{}), false)
	r := read(t, translate("scaled.tif", "-a_scale", "0.5", "-a_offset", "-3"), grid.Options{})
	if got, want := float64(r.Z[0]), plane(0, 0)*0.5-3; got != want {
		t.Errorf("scaled, the first cell is %g, want %g", got, want)
	}
	down := translate("down.tif", "-a_srs", "EPSG:32625+5715", "-scale", "0", "1", "0", "-1")
	r = read(t, down, grid.Options{})
	if got, want := float64(r.Z[0]), plane(0, 0); got != want || r.Zero != "MSL depth" {
		t.Errorf("depths that count down over MSL: the first cell is %g over %q, want %g", got, r.Zero, want)
	}
}

// A raster in degrees is one; that a world on it has the plane's floor is tested where
// the projection is known, in vessel/nav/geodesy's hands (see scenarios).
func TestGeographic(t *testing.T) {
	r := read(t, "testdata/geographic.tif", grid.Options{})
	if !r.Geographic() || r.DX > 1e-4 {
		t.Fatalf("EPSG:%d, cells of %g", r.EPSG, r.DX)
	}
}
