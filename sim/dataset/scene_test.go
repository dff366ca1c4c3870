package dataset

import (
	"bytes"
	"context"
	"encoding/json"
	"math"
	"slices"
	"testing"

	"dryline/seabed"
	"dryline/sim/dataset/coco"
	"dryline/sim/dataset/rasters"
	"dryline/sim/dataset/setspec"
	"dryline/sim/exercise"
	"dryline/sim/product"
	"dryline/sim/record"
	"dryline/sim/simtest"
)

// A scene with one block: truth and contacts are GeoJSON by RFC 7946 (longitude, latitude on
// WGS84), the block has the number that its annotations have it by, the desk's contact
// lies beside it, and both lie from the tile of the mosaic as far as their coordinates say.
func TestAScene(t *testing.T) {
	block := seabed.Object{Name: "block", Kind: "block", At: seabed.Point{X: 130, Y: 300}, Length: 3, Width: 2, Height: 1.2}
	open := func() (*exercise.Exercise, error) {
		ex := simtest.Small(t)
		ex.Seabed.Featureless = true
		ex.Seabed.Objects = []seabed.Object{block}
		ex.Lines = []exercise.Line{{Name: "L1", A: ex.Lines[0].A, B: ex.Lines[0].B}}
		ex.Lines[0].A.Y, ex.Lines[0].B.Y = 260, 330
		ex.Plan.Order, ex.Plan.CableOut, ex.Plan.RunIn, ex.Plan.RunOut, ex.Plan.TimeLimit = []exercise.Run{{Line: 0}}, 15, 40, 5, 900
		simtest.Exact(ex)
		return ex, nil
	}
	sc := &setspec.Scene{Name: "one", Exercise: "small", Seed: 1, Split: setspec.Train, Open: open}
	spec := &setspec.Spec{Title: "One", Products: setspec.Products{Images: true, Mosaic: true}, Scenes: []setspec.Scene{*sc}}
	var files product.Memory
	if err := Make(context.Background(), sc, spec, &files, func() (record.Backing, error) { return record.InMemory(), nil }); err != nil {
		t.Fatal(err)
	}
	type collection struct {
		Type     string
		Features []struct {
			ID       string
			Geometry struct {
				Type        string
				Coordinates []float64
			}
			Properties map[string]any
		}
	}
	read := func(name string, v any) {
		t.Helper()
		if err := json.Unmarshal(files.Content(name), v); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
	}
	var truth, contacts collection
	read("truth.geojson", &truth)
	read("contacts.geojson", &contacts)
	if truth.Type != "FeatureCollection" || len(truth.Features) != 1 || truth.Features[0].ID != "1" || truth.Features[0].Geometry.Type != "Point" {
		t.Fatalf("%s", files.Content("truth.geojson"))
	}
	ex, _ := open()
	lon, lat := truth.Features[0].Geometry.Coordinates[0], truth.Features[0].Geometry.Coordinates[1]
	if lon < -180 || lon > 0 || lat < 0 || lat > 90 { // the invented place lies north and west
		t.Fatalf("the block lies at longitude %v, latitude %v", lon, lat)
	}
	// Metres to the degree on WGS84, a = 6378137 m, f = 1/298.257223563: radii of curvature at a latitude.
	const a, e2 = 6378137.0, 0.0066943799901413
	w := math.Sqrt(1 - e2*math.Pow(math.Sin(lat*math.Pi/180), 2))
	north, east := a*(1-e2)/(w*w*w)*math.Pi/180, a/w*math.Cos(lat*math.Pi/180)*math.Pi/180
	nearest := math.Inf(1)
	for _, c := range contacts.Features {
		x, y := c.Geometry.Coordinates[0], c.Geometry.Coordinates[1]
		nearest = min(nearest, math.Hypot((x-lon)*east, (y-lat)*north))
	}
	if nearest > 3 {
		t.Errorf("the nearest of %d contacts is %.1f m from the block", len(contacts.Features), nearest)
	}
	var f coco.File
	read(rasters.AnnotationFile, &f)
	seen := false
	for _, an := range f.Annotations {
		i := slices.IndexFunc(f.Images, func(img coco.Image) bool { return img.ID == an.Image })
		img := &f.Images[i]
		if an.Object != 1 || an.Role != coco.Echo {
			continue
		}
		e, n := *img.Easting+(an.Box[0]+an.Box[2]/2)*img.Across, *img.Northing-(an.Box[1]+an.Box[3]/2)*img.Across
		p := truth.Features[0].Properties
		if off := math.Hypot(e-p["easting_m"].(float64), n-p["northing_m"].(float64)); off > 1.5 {
			t.Errorf("its echo lies %.1f m from it in the mosaic", off)
		}
		seen = true
	}
	if !seen || ex.Place.Grid.EPSG() != f.Images[0].EPSG {
		t.Errorf("no echo of it in the mosaic, or in EPSG:%d", f.Images[0].EPSG)
	}
	var told Told
	read("contents.json", &told)
	if told.Identity != sc.Identity(spec, ex) || len(told.Floor) == 0 || len(told.Texture) == 0 || len(told.Files) != len(files.Files())-1 {
		t.Errorf("its list: %+v", told.Files)
	}
	again, _, err := Current(sc, spec, bytes.NewReader(files.Content("contents.json")))
	if err != nil || !again {
		t.Errorf("the scene is not taken for itself: %v", err)
	}
	another := *spec
	another.Products.Mosaic = false
	if same, _, _ := Current(sc, &another, bytes.NewReader(files.Content("contents.json"))); same {
		t.Error("a scene with other products is taken for it")
	}
}
