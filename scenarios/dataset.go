package scenarios

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"sync"
	"time"

	"dryline/seabed/chance"
	"dryline/sim/dataset/setspec"
	"dryline/sim/exercise"
)

// datasetFile is the spec of a set of labelled data; see [rule] for the tags.
type datasetFile struct {
	Title       string           `key:"title" required:"true" runes:"80" doc:"Title of the set."`
	Description string           `key:"description" required:"true" runes:"4000" prose:"true" doc:"What it is for: the first answer of its card."`
	Creator     string           `key:"creator" runes:"80" default:"whoever ran dryline dataset" doc:"Who answers for the set, for its citation."`
	Published   string           `key:"published" required:"true" runes:"10" format:"date" doc:"Day the set is published, for its citation: 2031-05-14."`
	Seed        int              `key:"seed" min:"0" max:"9007199254740991" default:"1" doc:"Seed of everything left to chance: the scenes' own seeds, the values drawn and the split come of it."`
	Scenes      []scenesSection  `key:"scenes" required:"true" items:"1,64" doc:"Which exercises, how often, and what is varied."`
	Products    productsSection  `key:"products" doc:"What is written of each scene."`
	Split       datasetSplitting `key:"split" doc:"Shares of whole scenes; no scene is on two sides."`
}

type scenesSection struct {
	Exercise   string        `key:"exercise" required:"true" runes:"200" doc:"Name of a built-in exercise, or an exercise file beside the spec."`
	Seeds      int           `key:"seeds" min:"0" max:"100000" default:"1" doc:"Scenes with its objects."`
	Background int           `key:"background" min:"0" max:"100000" default:"0" doc:"Scenes of the sea floor alone, without objects and pipelines."`
	Vary       []varySection `key:"vary" items:"0,64" absent:"nothing but the seed" doc:"Values that chance sets anew in every scene."`
}

type varySection struct {
	Key   string    `key:"key" required:"true" runes:"120" doc:"Path of a single value in the exercise file, such as sea.wind_kn or sonar.channels[0].gain_db."`
	From  float64   `key:"from" min:"-1e9" max:"1e9" absent:"not a span" doc:"Least value; with to."`
	To    float64   `key:"to" min:"-1e9" max:"1e9" absent:"not a span" doc:"Largest value; every value between is as likely."`
	Step  float64   `key:"step" min:"0" max:"1e9" default:"0" doc:"Steps from the least value; 0 is none."`
	Among []float64 `key:"among" items:"1,64" absent:"none" doc:"Numbers of which one is drawn."`
	Words []string  `key:"words" items:"1,64" runes:"80" absent:"none" doc:"Words of which one is drawn."`
}

type productsSection struct {
	Pings   bool `key:"pings" default:"true" doc:"Labelled pings as netCDF."`
	Zarr    bool `key:"zarr" default:"false" doc:"Labelled pings as Zarr in a zip file, a third as large."`
	Images  bool `key:"images" default:"true" doc:"Tiles of waterfalls as PNG, with COCO annotations."`
	Mosaic  bool `key:"mosaic" default:"true" doc:"Tiles of the mosaic as PNG, with COCO annotations of their own."`
	Rasters bool `key:"rasters" default:"true" doc:"The record on a grid, and what is true on it, as Cloud Optimized GeoTIFF."`
	Tables  bool `key:"tables" default:"true" doc:"Tables of pings and of objects as Parquet."`
}

type datasetSplitting struct {
	Train float64 `key:"train_percent" min:"0" max:"100" default:"70" doc:"Share to learn from."`
	Val   float64 `key:"val_percent" min:"0" max:"100" default:"15" doc:"Share to choose by."`
	Test  float64 `key:"test_percent" min:"0" max:"100" default:"15" doc:"Share to be judged by."`
}

var datasetRules = sync.OnceValue(func() *rule {
	r := &rule{form: mapping, doc: "A set of labelled data: which exercises, how many scenes, what is varied and what is written."}
	r.shape(reflect.TypeFor[datasetFile](), "")
	return r
})

// mostScenes is the most scenes of a set.
const mostScenes = 100_000

// LoadDataset reads the spec of a set of labelled data. The error is [Faults] if the file
// is there but not as it should be.
func LoadDataset(path string) (*setspec.Spec, error) {
	source, err := readSource(path)
	if err != nil {
		return nil, err
	}
	return ParseDataset(path, source)
}

// ParseDataset reads the spec of a set from the contents of a file, whose name says what
// exercise files lie beside it. The error is [Faults].
func ParseDataset(name string, source []byte) (*setspec.Spec, error) {
	file, r, err := read[datasetFile](name, source, datasetRules(), "a set of labelled data")
	if err != nil {
		return nil, err
	}
	c := &checker{reader: r}
	sum := sha256.Sum256(source)
	spec := &setspec.Spec{
		Name: baseName(name), Title: file.Title, Description: file.Description, Creator: file.Creator, Published: file.Published,
		Source: source, Hash: hex.EncodeToString(sum[:]), Seed: uint64(file.Seed),
		Products: setspec.Products{Pings: file.Products.Pings, Zarr: file.Products.Zarr, Images: file.Products.Images, Mosaic: file.Products.Mosaic, Tables: file.Products.Tables, Rasters: file.Products.Rasters},
	}
	if _, err := time.Parse(time.DateOnly, file.Published); err != nil && c.sound("published") {
		c.fault("published", shorten(file.Published), "is not a day", "such as 2031-05-14")
	}
	shares := [3]float64{file.Split.Train, file.Split.Val, file.Split.Test}
	if sum := shares[0] + shares[1] + shares[2]; c.sound("split") && math.Abs(sum-100) > 1e-9 {
		c.fault("split", c.number(sum), "is not the whole", "train_percent, val_percent and test_percent that sum up to 100")
	}
	total := 0
	for i := range file.Scenes {
		total += file.Scenes[i].Seeds + file.Scenes[i].Background
	}
	if c.sound("scenes") && (total == 0 || total > mostScenes) {
		c.fault("scenes", strconv.Itoa(total), "scenes in all", fmt.Sprintf("1 to %d", mostScenes))
	}
	met := map[string]int{} // numbers of scenes by exercise
	for i := range file.Scenes {
		c.scenes(spec, fmt.Sprintf("scenes[%d]", i), &file.Scenes[i], filepath.Dir(name), met)
	}
	if err := r.err(); err != nil {
		return nil, err
	}
	spec.Divide(shares)
	return spec, nil
}

// scenes adds the scenes of a section.
func (c *checker) scenes(spec *setspec.Spec, at string, s *scenesSection, dir string, met map[string]int) {
	if !c.sound(at + ".exercise") {
		return
	}
	name, source, problem := exerciseSource(s.Exercise, dir)
	if problem != "" {
		c.fault(at+".exercise", shorten(s.Exercise), problem, "the name of a built-in exercise, or an exercise file beside the spec")
		return
	}
	if _, err := Parse(name, source); err != nil {
		c.faultOf(at+".exercise", s.Exercise, err)
		return
	}
	bare := source
	if s.Background > 0 {
		var err error
		if bare, err = withoutObjects(name, source); err != nil {
			c.faultOf(at+".background", "", err)
			return
		}
	}
	good := true
	for k := range s.Vary {
		good = c.vary(fmt.Sprintf("%s.vary[%d]", at, k), &s.Vary[k], name, source) && good
	}
	if !good || !c.sound(at) {
		return
	}
	for n := range s.Seeds + s.Background {
		met[baseName(name)]++
		number := met[baseName(name)]
		sc := setspec.Scene{
			Exercise: baseName(name), Background: n >= s.Seeds, Seed: spec.SeedOf(baseName(name), number),
			Name: fmt.Sprintf("%s-%05d", baseName(name), number),
		}
		from := source
		if sc.Background {
			from = bare
		}
		var changes []Change
		for k := range s.Vary {
			v := &s.Vary[k]
			if sc.Background && strings.HasPrefix(v.Key, "seabed.objects") {
				continue
			}
			value := v.draw(sc.Seed)
			changes, sc.Values = append(changes, Change{v.Key, value}), append(sc.Values, setspec.Value{Key: v.Key, Value: value})
		}
		sc.Open = func() (*exercise.Exercise, error) {
			edited := from
			if len(changes) > 0 {
				var err error
				if edited, err = Edit(name, from, changes); err != nil {
					return nil, err
				}
			}
			return Parse(name, edited)
		}
		if len(changes) > 0 { // values that are sound one by one may not fit each other
			if _, err := sc.Open(); err != nil {
				c.faultOf(at, fmt.Sprintf("scene %s, %s", sc.Name, said(sc.Values)), err)
				return
			}
		}
		spec.Scenes = append(spec.Scenes, sc)
	}
}

func said(values []setspec.Value) string {
	var words []string
	for _, v := range values {
		words = append(words, v.Key+": "+v.Value)
	}
	return strings.Join(words, ", ")
}

// vary checks what is to be varied, at its ends.
func (c *checker) vary(at string, v *varySection, name string, source []byte) bool {
	if !c.sound(at) {
		return false
	}
	span := c.given(at+".from") || c.given(at+".to")
	ways := 0
	for _, given := range []bool{span, len(v.Among) > 0, len(v.Words) > 0} {
		if given {
			ways++
		}
	}
	switch {
	case ways != 1:
		c.fault(at, "", "is varied in "+strconv.Itoa(ways)+" ways", "from and to, or among, or words")
		return false
	case span && !(c.given(at+".from") && c.given(at+".to") && v.From < v.To):
		c.fault(at, "", "is no span", "from and to, the first the smaller")
		return false
	case v.Step > 0 && !(span && v.Step <= v.To-v.From):
		c.fault(at+".step", c.number(v.Step), "steps out of the span", "at most from from to to")
		return false
	}
	good := true
	for _, value := range v.ends() {
		if _, err := Edit(name, source, []Change{{v.Key, value}}); err != nil {
			c.faultOf(at, v.Key+": "+value, err)
			good = false
		}
	}
	return good
}

// ends are the values that have to be sound.
func (v *varySection) ends() []string {
	switch {
	case len(v.Words) > 0:
		return v.Words
	case len(v.Among) > 0:
		var all []string
		for _, x := range v.Among {
			all = append(all, sixDigits(x))
		}
		return all
	}
	return []string{sixDigits(v.From), sixDigits(v.To)}
}

// draw is the value in the scene of a seed. Every key draws from a stream of its own.
func (v *varySection) draw(seed uint64) string {
	rng := chance.Stream(seed, "dataset/vary/"+v.Key)
	if all := v.ends(); len(v.Words) > 0 || len(v.Among) > 0 {
		return all[rng.IntN(len(all))]
	}
	if v.Step > 0 {
		steps := int(math.Floor((v.To-v.From)/v.Step + 1e-9))
		return sixDigits(v.From + float64(rng.IntN(steps+1))*v.Step)
	}
	return sixDigits(v.From + rng.Float64()*(v.To-v.From))
}

// sixDigits is a number as a file has it, to six digits.
func sixDigits(x float64) string {
	short, err := strconv.ParseFloat(strconv.FormatFloat(x, 'g', 6, 64), 64)
	if err != nil {
		short = x
	}
	return strconv.FormatFloat(short, 'f', -1, 64)
}

// faultOf reports the first thing wrong with an exercise at a place of the spec.
func (c *checker) faultOf(path, value string, err error) {
	if fs, ok := errors.AsType[Faults](err); ok && len(fs) > 0 {
		problem := "does not do: " + fs[0].Path + ": " + fs[0].Problem
		if fs[0].Value != "" {
			problem = "does not do: " + fs[0].Path + ": " + fs[0].Value + " " + fs[0].Problem
		}
		c.fault(path, value, problem, fs[0].Want)
		return
	}
	c.fault(path, value, "does not do: "+err.Error(), "")
}

// exerciseSource is the file of an exercise, and what is wrong with the name.
func exerciseSource(name, dir string) (file string, source []byte, problem string) {
	if ext := filepath.Ext(name); ext != ".yaml" && ext != ".yml" {
		if !slices.Contains(names(), name) {
			return "", nil, "is no built-in exercise"
		}
		source, err := exercises.ReadFile("exercises/" + name + ".yaml")
		if err != nil {
			return "", nil, err.Error()
		}
		return name + ".yaml", source, ""
	}
	if !filepath.IsLocal(name) {
		return "", nil, "does not lie beside the spec"
	}
	source, err := os.ReadFile(filepath.Join(dir, name))
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return "", nil, "is not there"
	case err != nil:
		return "", nil, "cannot be read"
	case len(source) > maxSource:
		return "", nil, "is too large for an exercise"
	}
	return name, source, ""
}

// DatasetSchema returns the JSON Schema (draft 2020-12) of the spec of a set.
func DatasetSchema() []byte { return schema(datasetRules(), "Dryline set of labelled data") }
