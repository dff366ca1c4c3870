package geojson_test

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"dryline/sim/survey/geojson"
)

// GDAL's ogrinfo is an outside reader. Without it the test is skipped, unless
// DRYLINE_REQUIRE_TOOLS=1.
func TestGDALReads(t *testing.T) {
	tool, err := exec.LookPath("ogrinfo")
	if err != nil {
		if os.Getenv("DRYLINE_REQUIRE_TOOLS") == "1" {
			t.Fatalf("ogrinfo is required by DRYLINE_REQUIRE_TOOLS=1: %v", err)
		}
		t.Skip("ogrinfo of GDAL is not installed")
	}
	path := filepath.Join(t.TempDir(), "area.geojson")
	text := write(t, geojson.FeatureCollection{BBox: true, Features: []geojson.Feature{
		{Geometry: geojson.Polygon{{{100, 0}, {100, 1}, {101, 1}, {101, 0}}}, Properties: map[string]any{"name": "area"}},
	}})
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(tool, "-ro", "-al", path).CombinedOutput()
	if err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	for _, want := range []string{"POLYGON ((100 0,101 0,101 1,100 1,100 0))", `ID["EPSG",4326]`, "name (String) = area"} {
		if !bytes.Contains(out, []byte(want)) {
			t.Errorf("got %s, want it to contain %s", out, want)
		}
	}
}
