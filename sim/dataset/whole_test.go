package dataset

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"io"
	"regexp"
	"runtime"
	"strings"
	"testing"

	"dryline/sim/dataset/setspec"
	"dryline/sim/product/folder"
)

// What is said of a set of two scenes: files are described with the checksums that they
// have, by Croissant 1.0 as its specification asks of a FileObject (contentUrl, encodingFormat, and
// sha256 or md5; MLCommons 2024), and by the manifest; sums are those of both scenes; the
// card has the seven headings of datasheets (Gebru and others 2021) and shows pictures that are there.
func TestWhatIsSaidOfASet(t *testing.T) {
	told := Told{
		Engine: 5, Step: 1.0 / 64, Platform: "linux/amd64", Exercise: "small", Hash: "0f", Seed: 7, Split: setspec.Train,
		Count:   Count{Lines: 1, Pings: 10, Metres: 100, Objects: map[string]int{"block": 1}, Labels: map[string]int64{"floor": 90, "water": 10}, Floor: map[string]int64{"mud": 90}},
		Floor:   []Floor{{Sediment: "mud", Grazing: 10, Windows: 100, Heard: 100, Intensity: 1e9, Contrast: 100, Law: 100, Strength: 0.1, StrengthLaw: 0.1}},
		Texture: []Texture{{Sediment: "mud"}},
		Files:   []folder.Entry{{Name: "truth.geojson", Bytes: 12, Hash: "aa"}},
	}
	told.Texture[0].Pairs[0].Add(20, 21)
	spec := &setspec.Spec{Name: "two", Title: "Two", Description: "Two scenes.", Creator: "nobody", Published: "2031-05-14", Hash: strings.Repeat("0", 64),
		Scenes: []setspec.Scene{{Name: "one"}, {Name: "two"}}}
	w, err := NewWhole(spec, func(yield func(*Told, error) bool) {
		for _, name := range []string{"one", "two"} {
			scene := told
			scene.Scene = name
			if !yield(&scene, nil) {
				return
			}
		}
	}, nil)
	if err != nil {
		t.Fatal(err)
	}
	var own []folder.Entry
	content := map[string][]byte{}
	for _, f := range w.Files(func() []folder.Entry { return own }) {
		var b bytes.Buffer
		if err := f.Write(&b); err != nil {
			t.Fatalf("%s: %v", f.Name, err)
		}
		sum := sha256.Sum256(b.Bytes())
		own = append(own, folder.Entry{Name: f.Name, Bytes: int64(b.Len()), Hash: hex.EncodeToString(sum[:])})
		content[f.Name] = b.Bytes()
	}
	hash := func(name string) string {
		sum := sha256.Sum256(content[name])
		return hex.EncodeToString(sum[:])
	}
	var croissant struct {
		Type         string `json:"@type"`
		Conforms     string `json:"conformsTo"`
		Name         string
		Published    string `json:"datePublished"`
		Distribution []struct {
			Type     string `json:"@type"`
			ID       string `json:"@id"`
			URL      string `json:"contentUrl"`
			Size     string `json:"contentSize"`
			Format   string `json:"encodingFormat"`
			Includes string
			Hash     string `json:"sha256"`
		}
		Records []struct {
			Field []struct {
				Source struct{ FileObject map[string]string }
			}
		} `json:"recordSet"`
	}
	if err := json.Unmarshal(content["croissant.json"], &croissant); err != nil {
		t.Fatal(err)
	}
	if croissant.Type != "sc:Dataset" || croissant.Conforms != "http://mlcommons.org/croissant/1.0" || croissant.Published != spec.Published || len(croissant.Records) != 1 {
		t.Errorf("%+v", croissant)
	}
	ids := map[string]bool{}
	for _, d := range croissant.Distribution {
		if ids[d.ID] || d.ID == "" || d.Format == "" {
			t.Errorf("%+v has the name of another, or no format", d)
		}
		ids[d.ID] = true
		switch d.Type {
		case "cr:FileObject":
			if d.Hash != hash(d.URL) || d.Size != fmt.Sprintf("%d B", len(content[d.URL])) {
				t.Errorf("%s is described as %+v", d.URL, d)
			}
		case "cr:FileSet":
			if d.Includes == "" {
				t.Errorf("%+v includes nothing", d)
			}
		default:
			t.Errorf("%+v", d)
		}
	}
	for _, f := range croissant.Records[0].Field {
		if !ids[f.Source.FileObject["@id"]] {
			t.Errorf("a field is of %v, which is not there", f.Source)
		}
	}
	var manifest struct {
		Files []folder.Entry
	}
	if err := json.Unmarshal(content["manifest.json"], &manifest); err != nil {
		t.Fatal(err)
	}
	if len(manifest.Files) != len(own)-1+2 { // all but itself, and one of each scene
		t.Errorf("%d files are listed of %d", len(manifest.Files), len(own))
	}
	for _, f := range manifest.Files[:len(own)-1] {
		if f.Hash != hash(f.Name) || f.Bytes != int64(len(content[f.Name])) {
			t.Errorf("%s is listed as %+v", f.Name, f)
		}
	}
	card := string(content["DATACARD.md"])
	for _, heading := range []string{"Motivation", "Composition", "Collection process", "Preprocessing, cleaning, labelling", "Uses", "Distribution", "Maintenance"} {
		if !strings.Contains(card, "\n## "+heading+"\n") {
			t.Errorf("the card has no %q", heading)
		}
	}
	pictures := 0
	for _, page := range []string{"DATACARD.md", "REALISM.md"} {
		for _, m := range regexp.MustCompile(`!\[[^\]]+\]\(([^)]+)\)`).FindAllSubmatch(content[page], -1) {
			if content[string(m[1])] == nil {
				t.Errorf("%s shows %s, which is not there", page, m[1])
			}
			pictures++
		}
	}
	if pictures != 8 { // four each: this set has no tiles
		t.Errorf("%d pictures are shown", pictures)
	}
	var like Likeness
	if err := json.Unmarshal(content[likenessFile], &like); err != nil {
		t.Fatal(err)
	}
	if len(like.Floor) != 1 || like.Floor[0].Windows != 200 || *like.Floor[0].Strength != -30 || len(like.Texture) != 1 || like.Texture[0].Pairs != 2 || like.Texture[0].Contrast != 1 ||
		like.Labels[0] != (Share{"floor", 180, 0.9}) {
		t.Errorf("%+v", like)
	}
	if !strings.Contains(string(content["REALISM.md"]), "| mud | 10 to 15° | 200 | 0 | 70.0 | -30.0 | -30.0 | 1.031 | 1.000 | 64.0 | speckle |") {
		t.Errorf("%s", content["REALISM.md"])
	}
}

// What is said of a set takes as much memory for many scenes as for a few: none is kept.
func TestAWholeKeepsNoScene(t *testing.T) {
	if testing.Short() {
		t.Skip("reads the lists of hundreds of scenes")
	}
	most := func(scenes int) int64 {
		told := Told{Count: Count{Lines: 1}, Floor: []Floor{{Sediment: "mud", Windows: 1, Intensity: 1}}, Texture: []Texture{{Sediment: "mud"}}}
		for range 300 {
			told.Files = append(told.Files, folder.Entry{Name: "tile.png", Bytes: 1, Hash: strings.Repeat("0", 64)})
		}
		list, err := json.Marshal(&told)
		if err != nil {
			t.Fatal(err)
		}
		var before, now runtime.MemStats
		runtime.GC()
		runtime.ReadMemStats(&before)
		memory, n := int64(0), 0
		w, err := NewWhole(&setspec.Spec{}, func(yield func(*Told, error) bool) {
			for range scenes {
				one := new(Told)
				if err := json.Unmarshal(list, one); !yield(one, err) {
					return
				}
				if n++; n%50 == 49 {
					runtime.GC()
					runtime.ReadMemStats(&now)
					memory = max(memory, int64(now.HeapAlloc)-int64(before.HeapAlloc))
				}
			}
		}, nil)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range w.Files(func() []folder.Entry { return nil }) {
			if err := f.Write(io.Discard); err != nil {
				t.Fatal(err)
			}
		}
		return memory
	}
	few, many := most(60), most(600)
	if many > few+1e6 {
		t.Errorf("%.2f MB for 60 scenes, %.2f MB for 600", float64(few)/1e6, float64(many)/1e6)
	}
}
