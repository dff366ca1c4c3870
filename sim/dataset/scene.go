package dataset

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"strconv"

	"dryline/seabed"
	"dryline/sim"
	"dryline/sim/dataset/pingfile"
	"dryline/sim/dataset/rasters"
	"dryline/sim/dataset/setspec"
	"dryline/sim/dataset/tables"
	"dryline/sim/dataset/tiles"
	"dryline/sim/debrief"
	"dryline/sim/order"
	"dryline/sim/product"
	"dryline/sim/product/folder"
	"dryline/sim/provenance"
	"dryline/sim/record"
	"dryline/sim/survey"
	"dryline/sim/survey/geojson"
	"dryline/sonar"
)

// Caution goes with everything.
const Caution = "synthetic data, no evidence of anything at sea, not for navigation"

// Told holds what a scene says of itself: the list of its folder.
type Told struct {
	Engine     int             `json:"dryline_engine"`
	Step       float64         `json:"ground_step_m"` // at which the sonar reads the floor
	Platform   string          `json:"platform"`
	Identity   string          `json:"identity"`
	Scene      string          `json:"scene"`
	Split      setspec.Split   `json:"split"`
	Exercise   string          `json:"exercise"`
	Hash       string          `json:"exercise_sha256"`
	Seed       uint64          `json:"seed"`
	Background bool            `json:"background"`
	Values     []setspec.Value `json:"values"`
	Synthetic  bool            `json:"synthetic"`
	Licence    string          `json:"license"`
	Caution    string          `json:"caution"`
	Count      Count           `json:"counts"`
	Floor      []Floor         `json:"floor_by_sediment_and_angle"`
	Texture    []Texture       `json:"texture_by_sediment"`
	Files      []folder.Entry  `json:"files"`
}

// Count says how much there is in a scene.
type Count struct {
	Lines   int              `json:"lines"`
	Pings   int              `json:"pings"`
	Metres  float64          `json:"line_metres"`
	Objects map[string]int   `json:"objects"` // that lie there, by kind
	Labels  map[string]int64 `json:"labels"`  // samples, by what they show
	Floor   map[string]int64 `json:"floor"`   // samples that show lit floor, by its sediment
}

// stride is how many ticks pass between two looks at the context.
const stride = 100

// Make flies a scene and writes it to a sink, its list last. Backings are for what a line
// has so far. If the context is done before the end the error is the context's, and what
// is in the sink is no scene.
func Make(ctx context.Context, sc *setspec.Scene, spec *setspec.Spec, to product.Sink, backing func() (record.Backing, error)) error {
	ex, err := sc.Open()
	if err != nil {
		return err
	}
	s, err := sim.New(ex, sc.Seed)
	if err != nil {
		return err
	}
	s.Workers = 1 // scenes are made side by side
	s.AttachMate()
	s.Desk.Unpainted, s.Desk.KeepRows = true, func(int) bool { return false }
	told := Told{
		Engine: provenance.Engine, Step: ex.Sonar.Step.Metres(), Platform: provenance.Platform(), Identity: sc.Identity(spec, ex),
		Scene: sc.Name, Split: sc.Split, Exercise: sc.Exercise, Hash: ex.Hash, Seed: sc.Seed, Background: sc.Background, Values: sc.Values,
		Synthetic: true, Licence: provenance.Licence, Caution: Caution,
	}
	told.Count.attend(s)
	var floor floors
	var texture grain
	floor.attend(s)
	texture.attend(s)
	failed := attach(sc, spec, s, to, backing)
	for !s.Done() {
		if err := ctx.Err(); err != nil {
			return err
		}
		s.Advance(stride)
	}
	if err := s.Refused(); err != nil {
		return fmt.Errorf("the mate was refused an order: %w", err)
	}
	if err := failed(); err != nil {
		return err
	}
	told.Floor, told.Texture = floor.all(), texture.all()
	for _, f := range []struct {
		name  string
		write func(io.Writer) error
	}{
		{"truth.geojson", func(w io.Writer) error { return writeTruth(w, s, foreign(&told)) }},
		{"contacts.geojson", func(w io.Writer) error { return product.WriteContacts(w, s, foreign(&told)) }},
		{"exercise.yaml", func(w io.Writer) error { _, err := w.Write(ex.Source); return err }},
		{product.SessionFile, s.WriteLog},
		{folder.ListFile, func(w io.Writer) error { told.Files = to.Files(); return writeJSON(w, &told) }},
	} {
		if err := to.Write(f.name, f.write); err != nil {
			return err
		}
	}
	return nil
}

// attach sets the writers of what is asked for to a session, and returns a function that
// ends them and says what went wrong.
func attach(sc *setspec.Scene, spec *setspec.Spec, s *sim.Session, to product.Sink, backing func() (record.Backing, error)) func() error {
	var ends []func() error
	if formats := (pingfile.Formats{NetCDF: spec.Products.Pings, Zarr: spec.Products.Zarr}); formats != (pingfile.Formats{}) {
		ends = append(ends, pingfile.Attach(s, to, formats, backing).Err)
	}
	if spec.Products.Rasters || spec.Products.Mosaic {
		ends = append(ends, rasters.Attach(s, to, rasters.Products{GeoTIFF: spec.Products.Rasters, Tiles: spec.Products.Mosaic, Scene: sc.Name}).Close)
	}
	if spec.Products.Tables {
		ends = append(ends, tables.Attach(s, to, tables.Of{Scene: sc.Name, Split: string(sc.Split), Exercise: sc.Exercise}).Close)
	}
	if spec.Products.Images {
		ends = append(ends, tiles.Attach(s, to, sc.Name).Close)
	}
	return func() error {
		for _, end := range ends {
			if err := end(); err != nil {
				return err
			}
		}
		return nil
	}
}

// attend counts what comes.
func (c *Count) attend(s *sim.Session) {
	spec := &s.Exercise.Seabed
	c.Objects, c.Labels, c.Floor = map[string]int{}, map[string]int64{}, map[string]int64{}
	for i := range spec.Objects {
		c.Objects[spec.Objects[i].Kind]++
	}
	if n := len(spec.Pipelines); n > 0 {
		c.Objects["pipeline"] = n
	}
	var kinds [256]int64
	var classes [seabed.FirstMaterial]int64
	s.Observe(sim.Observer{
		Truth: true, Labels: true,
		Ping: func(p *sim.Ping) {
			if p.Line == "" {
				return
			}
			c.Pings++
			for _, labels := range p.Truth.Labels {
				for k := range labels {
					l := &labels[k]
					kinds[l.Kind]++
					if l.Kind == sonar.FloorLabel && l.Class < seabed.FirstMaterial {
						classes[l.Class]++
					}
				}
			}
		},
		Line: func(l *survey.LineRecord) {
			c.Lines++
			if n := len(l.Pings); n > 1 {
				c.Metres += hundredths(l.Pings[n-1].Along - l.Pings[0].Along)
			}
			for _, k := range sonar.LabelKinds() {
				if n := kinds[k]; n > 0 {
					c.Labels[k.String()] = n
				}
			}
			for class, n := range classes {
				if n > 0 {
					c.Floor[seabed.Class(class).String()] = n
				}
			}
		},
	})
}

// writeTruth writes what lies there, with the numbers that labels have it by.
func writeTruth(w io.Writer, s *sim.Session, foreign map[string]any) error {
	features := debrief.Truth(s)
	for i := range features {
		features[i].ID = strconv.Itoa(i + 1)
		features[i].Properties["object"] = i + 1
	}
	return geojson.Write(w, geojson.FeatureCollection{Features: features, Foreign: foreign})
}

// foreign is where a scene comes from, as members of a GeoJSON file.
func foreign(t *Told) map[string]any {
	return map[string]any{
		"dryline_engine": t.Engine, "exercise": t.Exercise, "exercise_sha256": t.Hash, "seed": t.Seed,
		"license": t.Licence, "caution": t.Caution, "synthetic": true,
	}
}

func writeJSON(w io.Writer, v any) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(v)
}

// Current reports whether a scene that is there, by its list, is the one that the spec asks
// for, made by this engine.
func Current(sc *setspec.Scene, spec *setspec.Spec, list io.Reader) (bool, *Told, error) {
	ex, err := sc.Open()
	if err != nil {
		return false, nil, err
	}
	var told Told
	if err := json.NewDecoder(list).Decode(&told); err != nil {
		return false, nil, fmt.Errorf("its list cannot be read: %w", order.JSONFault(err))
	}
	return told.Identity == sc.Identity(spec, ex), &told, nil
}

func hundredths(v float64) float64 { return math.Round(v*100) / 100 }
