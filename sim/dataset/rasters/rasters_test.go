package rasters_test

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"dryline/sim"
	"dryline/sim/dataset/rasters"
	"dryline/sim/product"
	"dryline/sim/simtest"
)

// GDAL reads what is written: one grid, cloud optimised, and at points of the ground the
// floor, the block and its shadow as the sea floor has them when it is asked by itself.
func TestRastersByGDAL(t *testing.T) {
	ex := simtest.PastTheBlock(t, 275, 325)
	s, err := sim.New(ex, 1)
	if err != nil {
		t.Fatal(err)
	}
	s.AttachMate()
	var files product.Memory
	w := rasters.Attach(s, &files, rasters.Products{GeoTIFF: true})
	for !s.Done() {
		s.Advance(100)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	if len(files.Files()) != 7 {
		t.Fatalf("%d files", len(files.Files()))
	}
	for _, tool := range []string{"gdalinfo", "gdallocationinfo"} {
		if _, err := exec.LookPath(tool); err != nil {
			if os.Getenv("DRYLINE_REQUIRE_TOOLS") == "1" {
				t.Fatalf("%s is required by DRYLINE_REQUIRE_TOOLS=1", tool)
			}
			t.Skipf("%s of GDAL is not installed; DRYLINE_REQUIRE_TOOLS=1 makes this fail", tool)
		}
	}
	dir := t.TempDir()
	frame := ""
	for _, f := range files.Files() {
		path := filepath.Join(dir, f.Name)
		if err := os.WriteFile(path, files.Content(f.Name), 0o644); err != nil {
			t.Fatal(err)
		}
		out, err := exec.Command("gdalinfo", "-json", path).Output()
		if err != nil {
			t.Fatal(err)
		}
		var info struct {
			Size         []int
			GeoTransform []float64
			Metadata     map[string]map[string]string
		}
		if err := json.Unmarshal(out, &info); err != nil {
			t.Fatal(err)
		}
		if is := fmt.Sprint(info.Size, info.GeoTransform); frame == "" {
			frame = is
		} else if is != frame {
			t.Errorf("%s lies on %s, the others on %s", f.Name, is, frame)
		}
		if info.Metadata["IMAGE_STRUCTURE"]["LAYOUT"] != "COG" || info.Metadata[""]["synthetic"] != "true" {
			t.Errorf("%s: %v", f.Name, info.Metadata)
		}
	}
	value := func(name string, x, y float64) float64 {
		e, n := ex.Place.Grid.ToUTM(x, y)
		out, err := exec.Command("gdallocationinfo", "-valonly", "-geoloc", filepath.Join(dir, name),
			strconv.FormatFloat(e, 'f', 3, 64), strconv.FormatFloat(n, 'f', 3, 64)).Output()
		if err != nil {
			t.Fatal(err)
		}
		v, err := strconv.ParseFloat(strings.TrimSpace(string(out)), 64)
		if err != nil {
			t.Fatalf("%s at %v, %v: %q", name, x, y, out)
		}
		return v
	}
	world := s.World()
	for _, p := range [][2]float64{{130, 300}, {129.4, 299.4}, {120, 300}, {80, 310}, {112, 290}} {
		_, class, object := world.SurfaceAt(p[0], p[1])
		if got := value("true-objects.tif", p[0], p[1]); got != float64(object+1) {
			t.Errorf("object %v at %v, want %d", got, p, object+1)
		}
		if got, want := value("true-height.tif", p[0], p[1]), world.HeightAt(p[0], p[1]); math.Abs(got-want) > 0.02 {
			t.Errorf("height %v at %v, want %v", got, p, want)
		}
		if got := value("true-sediment.tif", p[0], p[1]); object < 0 && got != float64(class) {
			t.Errorf("sediment %v at %v, want %v", got, p, class)
		}
	}
	// The block is 2 m wide and 1.2 m high, 30 m from the line: behind it is shadow, before
	// it none, and the record shows it.
	if behind, before := value("true-shadows.tif", 132, 300), value("true-shadows.tif", 126, 300); behind != 1 || before != 0 {
		t.Errorf("shadow is %v behind the block and %v before it", behind, before)
	}
	if dark, light := value("level.tif", 132.2, 300), value("level.tif", 122, 300); dark > light-6 {
		t.Errorf("%v dB in its shadow, %v dB before it", dark, light)
	}
	if n := value("pings.tif", 120, 300); n < 1 || n > 40 {
		t.Errorf("%v pings in a cell", n)
	}
}
