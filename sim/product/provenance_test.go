package product

import (
	"bytes"
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"dryline/sim/provenance"
)

// texts are the text chunks of a PNG file, read by the specification: length,
// type, data, check (W3C PNG, 5.3 and 11.3.3.2).
func texts(t *testing.T, file []byte) map[string]string {
	t.Helper()
	found := map[string]string{}
	for rest := file[8:]; len(rest) >= 12; {
		n := binary.BigEndian.Uint32(rest)
		kind, data := string(rest[4:8]), rest[8:8+n]
		if kind == "tEXt" {
			keyword, value, _ := bytes.Cut(data, []byte{0})
			found[string(keyword)] = string(value)
		}
		rest = rest[12+n:]
	}
	return found
}

// Every file of a folder says which engine, exercise and seed it comes from and
// what its licence is; tables say it in the folder's list.
func TestEveryFileSaysWhereItComesFrom(t *testing.T) {
	path := filepath.Join(t.TempDir(), "survey")
	handOver(t, path, 1<<20)
	read := func(name string) []byte {
		content, err := os.ReadFile(filepath.Join(path, name))
		if err != nil {
			t.Fatal(err)
		}
		return content
	}
	origin := fmt.Sprintf("exercise tiny, sha256 00, seed 1, engine %d, floor read every 1/64 m", provenance.Engine)
	for _, name := range []string{"overview.png", "waterfall-L1-450.png"} {
		if got := texts(t, read(name)); got["Source"] != origin || got["Copyright"] != "CC0-1.0" || !strings.Contains(got["Disclaimer"], "not for navigation") {
			t.Errorf("%s says %v", name, got)
		}
	}
	for _, name := range []string{"lines.geojson", "contacts.geojson", "truth.geojson", "debrief.json", "contents.json"} {
		var top struct {
			Engine   int     `json:"dryline_engine"`
			Step     float64 `json:"ground_step_m"`
			Hash     string  `json:"exercise_sha256"`
			Seed     uint64  `json:"seed"`
			Licence  string  `json:"license"`
			EPSG     int     `json:"grid_epsg"`
			Trainee  string  `json:"trainee"`
			Started  string  `json:"started_utc"`
			Exercise any     `json:"exercise"`
		}
		if err := json.Unmarshal(read(name), &top); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if ex, ok := top.Exercise.(map[string]any); ok { // the debrief has it one deeper
			top.Hash, top.Seed = ex["hash_sha256"].(string), uint64(ex["seed"].(float64))
			if top.Trainee != "A Trainee" || top.Started != "2031-05-02T07:30:00Z" {
				t.Errorf("%s: by %q, begun %q", name, top.Trainee, top.Started)
			}
		}
		if top.Engine != provenance.Engine || top.Step != 0.015625 || top.Hash != "00" || top.Seed != 1 || top.Licence != "CC0-1.0" {
			t.Errorf("%s says %+v", name, top)
		}
		if strings.HasSuffix(name, ".geojson") && top.EPSG != 32625 {
			t.Errorf("%s: grid EPSG %d, want 32625", name, top.EPSG)
		}
	}
	page := string(read("debrief.html"))
	head := page[:strings.Index(page, "<section>")]
	for _, want := range []string{"A Trainee", "2031-05-02 07:30 UTC", "<dt>Engine</dt>", "<dt>Seed</dt>", "<dt>Exercise</dt>"} {
		if !strings.Contains(head, want) {
			t.Errorf("the top of the debrief's page does not have %q", want)
		}
	}
	if !strings.Contains(page, "CC0-1.0") {
		t.Error("the debrief's page does not name the licence")
	}

	var list struct {
		Files []struct {
			Name  string `json:"name"`
			Bytes int    `json:"bytes"`
			Hash  string `json:"sha256"`
		} `json:"files"`
	}
	if err := json.Unmarshal(read("contents.json"), &list); err != nil {
		t.Fatal(err)
	}
	listed := map[string]bool{}
	for _, f := range list.Files {
		content := read(f.Name)
		sum := sha256.Sum256(content)
		if f.Bytes != len(content) || f.Hash != hex.EncodeToString(sum[:]) {
			t.Errorf("%s is listed with %d bytes and %s", f.Name, f.Bytes, f.Hash)
		}
		if listed[f.Name] {
			t.Errorf("%s is listed twice", f.Name)
		}
		listed[f.Name] = true
	}
	entries, err := os.ReadDir(path)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		if !listed[e.Name()] && e.Name() != "contents.json" {
			t.Errorf("%s is not listed", e.Name())
		}
	}
}

// The objects that lie there are in the truth, in place, and in no other file of
// positions.
func TestTheTruthHasTheObjects(t *testing.T) {
	path := filepath.Join(t.TempDir(), "survey")
	handOver(t, path, 1<<20)
	content, err := os.ReadFile(filepath.Join(path, "truth.geojson"))
	if err != nil {
		t.Fatal(err)
	}
	var truth struct {
		Features []struct {
			Geometry struct {
				Type        string
				Coordinates []float64
			}
			Properties map[string]any
		}
	}
	if err := json.Unmarshal(content, &truth); err != nil {
		t.Fatal(err)
	}
	if len(truth.Features) != 1 || truth.Features[0].Properties["name"] != "ball" {
		t.Fatalf("the truth has %+v, want the ball", truth.Features)
	}
	f := truth.Features[0]
	lat, lon := tiny(t).Place.Grid.ToLatLon(ball.At.X, ball.At.Y).Degrees()
	if d := max(abs(f.Geometry.Coordinates[0]-lon), abs(f.Geometry.Coordinates[1]-lat)); d > 1e-7 {
		t.Errorf("the ball is at %v, want %.8f, %.8f", f.Geometry.Coordinates, lon, lat)
	}
}

func abs(v float64) float64 { return max(v, -v) }
