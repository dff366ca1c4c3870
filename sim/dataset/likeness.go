package dataset

import (
	"cmp"
	"io"
	"maps"
	"math"
	"slices"

	"dryline/seabed"
	"dryline/sim/dataset/coco"
	"dryline/sim/dataset/setspec"
	"dryline/sim/dataset/texture"
	"dryline/sim/provenance"
	"dryline/sonar/acoustics"
)

// Likeness says what a set's records are like, in numbers: realism.json. What stands by law is
// published theory for the same place, and nothing that was fitted to the set.
type Likeness struct {
	Title     string         `json:"title"`
	Caution   string         `json:"caution"`
	Synthetic bool           `json:"synthetic"`
	Engine    int            `json:"dryline_engine"`
	Licence   string         `json:"license"`
	Spec      string         `json:"spec_sha256"`
	Floor     []FloorAngle   `json:"floor_by_sediment_and_grazing_angle"`
	Texture   []TextureAlong `json:"texture_by_sediment_and_direction"`
	Speckle   float64        `json:"texture_contrast_of_speckle_alone"` // of pairs that share nothing
	Labels    []Share        `json:"samples_by_label"`
	Sediments []Share        `json:"lit_floor_by_sediment"`
	Sizes     []SizesOf      `json:"sizes_in_tiles,omitempty"`
}

// FloorAngle is lit floor of a sediment between two grazing angles. Numbers that are not
// known are left out.
type FloorAngle struct {
	Sediment    string   `json:"sediment"`
	From        int      `json:"grazing_from_deg"`
	To          int      `json:"grazing_to_deg"`
	Windows     int64    `json:"windows"`
	Cut         int64    `json:"windows_left_out"`
	Level       *float64 `json:"level_db_re_1_count,omitempty"`
	Strength    *float64 `json:"strength_db,omitempty"`
	StrengthLaw *float64 `json:"strength_db_by_law,omitempty"`
	Contrast    *float64 `json:"contrast_squared,omitempty"`
	ContrastLaw *float64 `json:"contrast_squared_by_law,omitempty"`
	Shape       *float64 `json:"k_shape,omitempty"` // left out for no more than speckle
	ShapeLaw    *float64 `json:"k_shape_by_law,omitempty"`
}

// TextureAlong is the texture of a sediment's lit floor in a direction.
type TextureAlong struct {
	Sediment  string `json:"sediment"`
	Direction string `json:"direction"`
	Pairs     int64  `json:"pairs"`
	texture.Features
}

// Share is how many samples are of a kind.
type Share struct {
	Name    string  `json:"name"`
	Samples int64   `json:"samples"`
	Share   float64 `json:"share"`
}

// sizeLimits are the limits of sizes, pixels.
var sizeLimits = [...]int{4, 8, 16, 32, 64, 128, 256}

// SizesOf is how many annotations of a role are how large in the tiles of a file of annotations: in the longer side of
// their box, below each limit and from the one before on; the last are those beyond.
type SizesOf struct {
	File   string                   `json:"annotation_file"`
	Role   coco.Role                `json:"role"`
	Limits [len(sizeLimits)]int     `json:"limits_px"`
	Counts [len(sizeLimits) + 1]int `json:"annotations"`
}

// speckleContrast is the contrast of the texture of independent samples of fully developed
// speckle: the square of the difference of two levels is twice the variance of one, that of
// speckle in dB (5.57 dB, one look) and a twelfth of a step for the steps of the levels
// (Sheppard's correction).
func speckleContrast() float64 {
	steps := acoustics.SpeckleStdDB(1) / levelStep
	return 2 * (steps*steps + 1.0/12)
}

// likeness works it out, once.
func (w *Whole) likeness() (*Likeness, error) {
	if w.like != nil {
		return w.like, nil
	}
	t := &w.total
	like := &Likeness{
		Title: w.Spec.Title, Caution: Caution, Synthetic: true, Engine: provenance.Engine, Licence: provenance.Licence, Spec: w.Spec.Hash, Speckle: rounded(speckleContrast(), 3),
		Floor: []FloorAngle{}, Texture: []TextureAlong{}, Labels: shares(t.count.Labels), Sediments: shares(t.count.Floor),
	}
	for i := range t.floor {
		like.Floor = append(like.Floor, t.floor[i].angle())
	}
	for _, name := range seabed.SedimentNames() {
		sum := t.texture[name]
		if sum == nil {
			continue
		}
		for d := range sum.Pairs {
			if n := sum.Pairs[d].Pairs(); n > 0 {
				like.Texture = append(like.Texture, TextureAlong{name, directions[d], n, sum.Pairs[d].Features()})
			}
		}
	}
	for _, list := range w.annotated() {
		sizes, err := w.sizes(list)
		if err != nil {
			return nil, err
		}
		like.Sizes = append(like.Sizes, sizes...)
	}
	w.like = like
	return like, nil
}

// angle returns what the sums come to.
func (f *Floor) angle() FloorAngle {
	a := FloorAngle{Sediment: f.Sediment, From: f.Grazing, To: f.Grazing + angleWidth, Windows: f.Windows, Cut: f.Cut}
	known := func(v float64, decimals int) *float64 {
		if math.IsInf(v, 0) || math.IsNaN(v) {
			return nil
		}
		return new(rounded(v, decimals))
	}
	if f.Windows > 0 {
		measured, law := f.contrastSquared()
		a.Level, a.Contrast, a.ContrastLaw = known(f.level(), 2), known(measured, 3), known(law, 3)
		a.Shape, a.ShapeLaw = known(shapeOf(measured), 1), known(shapeOf(law), 1)
	}
	if f.Heard > 0 {
		measured, law := f.strength()
		a.Strength, a.StrengthLaw = known(measured, 2), known(law, 2)
	}
	return a
}

// sizes counts how large things are in the tiles of a file of annotations.
func (w *Whole) sizes(list string) ([]SizesOf, error) {
	all := []SizesOf{}
	for _, role := range coco.Roles() {
		all = append(all, SizesOf{File: list, Role: role, Limits: sizeLimits})
	}
	for _, split := range setspec.Splits() {
		if err := w.eachAnnotated(list, split, func(f *coco.File, _ string) error {
			for i := range f.Annotations {
				a := &f.Annotations[i]
				k := 0
				for k < len(sizeLimits) && max(a.Box[2], a.Box[3]) >= float64(sizeLimits[k]) {
					k++
				}
				all[slices.Index(coco.Roles(), a.Role)].Counts[k]++
			}
			return nil
		}); err != nil {
			return nil, err
		}
	}
	return all, nil
}

// shares are counts with the share of each, most first.
func shares(counts map[string]int64) []Share {
	all, sum := []Share{}, int64(0)
	for _, n := range counts {
		sum += n
	}
	for _, name := range slices.Sorted(maps.Keys(counts)) {
		all = append(all, Share{name, counts[name], float64(counts[name]) / float64(max(sum, 1))})
	}
	slices.SortStableFunc(all, func(a, b Share) int { return cmp.Compare(b.Samples, a.Samples) })
	return all
}

func (w *Whole) likenessJSON(out io.Writer) error {
	like, err := w.likeness()
	if err != nil {
		return err
	}
	return writeJSON(out, like)
}

func rounded(v float64, decimals int) float64 {
	unit := math.Pow10(decimals)
	return math.Round(v*unit) / unit
}
