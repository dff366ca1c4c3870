package dataset

import (
	"fmt"
	"io"
	"math"
	"strings"

	"gonum.org/v1/plot/plotter"

	"dryline/seabed"
	"dryline/sim/dataset/coco"
	"dryline/sim/dataset/figure"
)

// likenessFile has the numbers of the figures.
const likenessFile = "realism.json"

// fewestWindows is how many windows a figure wants of a place; the tables have all.
const fewestWindows = 30

// figures are the pictures of what a set's records are like.
var figures = []struct {
	name, what string
	images     bool // only of sets with tiles
	draw       func(like *Likeness, out io.Writer) error
}{
	{"realism-strength.png", "Backscattering strength of lit floor against grazing angle, measured and by the published law", false, (*Likeness).drawStrength},
	{"realism-speckle.png", "Contrast of the speckle of lit floor against grazing angle, measured and by theory", false, (*Likeness).drawSpeckle},
	{"realism-texture.png", "Co-occurrence texture of lit floor by sediment and direction", false, (*Likeness).drawTexture},
	{"realism-balance.png", "What samples show, and of which sediment", false, (*Likeness).drawBalance},
	{"realism-sizes.png", "Sizes of objects, echoes and shadows in tiles", true, (*Likeness).drawSizes},
}

const onFigures = "Synthetic data: no evidence of anything at sea. Not for navigation."

// perSediment draws a panel for every sediment that has enough windows, of what a measure
// says at the middles of the angles.
func (like *Likeness) perSediment(title, y, law string, out io.Writer, of func(a *FloorAngle) (measured, law *float64)) error {
	type curves struct{ measured, law plotter.XYs }
	all := map[string]*curves{}
	low, high := math.Inf(1), math.Inf(-1)
	for i := range like.Floor {
		a := &like.Floor[i]
		measured, law := of(a)
		if a.Windows < fewestWindows || measured == nil || law == nil {
			continue
		}
		c := all[a.Sediment]
		if c == nil {
			c = new(curves)
			all[a.Sediment] = c
		}
		x := float64(a.From+a.To) / 2
		c.measured, c.law = append(c.measured, plotter.XY{X: x, Y: *measured}), append(c.law, plotter.XY{X: x, Y: *law})
		low, high = min(low, *measured, *law), max(high, *measured, *law)
	}
	var panels []figure.Panel
	for _, name := range seabed.SedimentNames() {
		c := all[name]
		if c == nil {
			continue
		}
		p := figure.NewPanel(words(name), "grazing angle, degrees", y)
		room := 0.08*(high-low) + 1e-3
		p.Range(0, 90, low-room, high+3*room) // above it the key
		p.Key(true, false)
		p.Dashes(1, law, c.law...)
		p.Points(0, "in the set", true, c.measured...)
		panels = append(panels, p)
	}
	return figure.Draw(out, title, onFigures, 3, panels...)
}

func (like *Likeness) drawStrength(out io.Writer) error {
	return like.perSediment("Lit floor: backscattering strength by grazing angle", "strength, dB re 1 m²", "by law", out, func(a *FloorAngle) (*float64, *float64) { return a.Strength, a.StrengthLaw })
}

func (like *Likeness) drawSpeckle(out io.Writer) error {
	return like.perSediment("Lit floor: contrast of the speckle by grazing angle", "variance / squared mean", "by theory", out, func(a *FloorAngle) (*float64, *float64) { return a.Contrast, a.ContrastLaw })
}

// drawTexture has a panel for every feature, a row for every sediment.
func (like *Likeness) drawTexture(out io.Writer) error {
	var names []string
	rows := map[string]int{}
	for i := range like.Texture { // finest last, at the top
		name := like.Texture[len(like.Texture)-1-i].Sediment
		if _, there := rows[name]; !there {
			rows[name] = len(names)
			names = append(names, words(name))
		}
	}
	if len(names) == 0 {
		return figure.Draw(out, "Lit floor: texture", onFigures, 2)
	}
	var panels []figure.Panel
	for _, f := range []struct {
		title, x string
		of       func(t *TextureAlong) float64
		alone    float64 // of speckle alone; NaN where it is not told
	}{
		{"contrast", "squared levels", func(t *TextureAlong) float64 { return t.Contrast }, like.Speckle},
		{"correlation", "of the levels of neighbours", func(t *TextureAlong) float64 { return t.Correlation }, 0},
		{"homogeneity", "inverse difference moment", func(t *TextureAlong) float64 { return t.Homogeneity }, math.NaN()},
		{"entropy", "nats", func(t *TextureAlong) float64 { return t.Entropy }, math.NaN()},
	} {
		p := figure.NewPanel(f.title, f.x, "")
		low, high := math.Inf(1), math.Inf(-1)
		if !math.IsNaN(f.alone) {
			p.Dashes(1, "speckle alone", plotter.XY{X: f.alone, Y: -1}, plotter.XY{X: f.alone, Y: float64(len(names)) - 0.5})
			low, high = f.alone, f.alone
		}
		for d, direction := range directions {
			var at plotter.XYs
			for i := range like.Texture {
				if t := &like.Texture[i]; t.Direction == direction {
					v := f.of(t)
					at = append(at, plotter.XY{X: v, Y: float64(rows[t.Sediment]) + 0.24 - 0.16*float64(d)})
					low, high = min(low, v), max(high, v)
				}
			}
			p.Points(d, direction, false, at...)
		}
		p.Rows(names...)
		room := 0.1*(high-low) + 1e-3
		p.Range(low-room, high+room, -0.6, 1.6*float64(len(names))) // above the rows the key
		p.Key(true, true)
		panels = append(panels, p)
	}
	return figure.Draw(out, "Lit floor: texture of neighbouring samples", onFigures, 2, panels...)
}

// shareInWords is a share to three digits, rounded down: a little short of all is not 100 %.
func shareInWords(share float64) string {
	percent := 100 * share
	if percent <= 0 {
		return "0 %"
	}
	scale := math.Pow10(2 - int(math.Floor(math.Log10(percent))))
	return fmt.Sprintf("%.3g %%", math.Floor(percent*scale+1e-9)/scale)
}

// drawBalance has a panel for labels and one for sediments.
func (like *Likeness) drawBalance(out io.Writer) error {
	var panels []figure.Panel
	for _, list := range []struct {
		title, x string
		shares   []Share
	}{{"what samples show", "share of samples, %", like.Labels}, {"lit floor", "share of samples of lit floor, %", like.Sediments}} {
		if len(list.shares) == 0 {
			continue
		}
		var names, percent []string
		var at plotter.XYs
		least := 1.0
		for i := range list.shares { // most last, at the top
			s := &list.shares[len(list.shares)-1-i]
			names, percent = append(names, words(s.Name)), append(percent, shareInWords(s.Share))
			at = append(at, plotter.XY{X: 100 * s.Share, Y: float64(i)})
			least = min(least, 100*s.Share)
		}
		p := figure.NewPanel(list.title, list.x, "")
		p.LogX()
		p.Points(0, "", false, at...)
		if err := p.Words(at, percent); err != nil {
			return err
		}
		p.Rows(names...)
		p.Range(math.Pow(10, math.Floor(math.Log10(least))), 1000, -0.6, float64(len(names))-0.4) // room for the words
		panels = append(panels, p)
	}
	return figure.Draw(out, "Class balance", onFigures, 2, panels...)
}

// drawSizes has a panel for the tiles of waterfalls and one for those of the mosaic.
func (like *Likeness) drawSizes(out io.Writer) error {
	names := []string{"0"}
	for _, limit := range sizeLimits {
		names = append(names, fmt.Sprint(limit))
	}
	roles := coco.Roles()
	var panels []figure.Panel
	for i := 0; i+len(roles) <= len(like.Sizes); i += len(roles) {
		p := figure.NewPanel("tiles of the "+tilesOf(like.Sizes[i].File), "longer side of the box, from that many pixels on", "annotations")
		most := 0.0
		for j := range roles {
			of := &like.Sizes[i+j]
			var values []float64
			for _, n := range of.Counts {
				values, most = append(values, float64(n)), max(most, float64(n))
			}
			if err := p.Bars(j, string(of.Role), float64(j-1), values...); err != nil {
				return err
			}
		}
		p.Columns(names...)
		p.Range(-0.6, float64(len(names))-0.4, 0, 1.3*max(most, 1)) // above them the key
		panels = append(panels, p)
	}
	return figure.Draw(out, "Sizes in tiles", onFigures, 2, panels...)
}

// words is a name as people read it.
func words(name string) string { return strings.ReplaceAll(name, "_", " ") }
