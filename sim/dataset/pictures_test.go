package dataset

import (
	"bytes"
	"image"
	"image/png"
	"testing"

	"dryline/seabed"
	"dryline/sim/dataset/coco"
	"dryline/sim/dataset/texture"
)

// Whatever a set holds, its figures can be drawn, and nothing runs over their edges: three
// pixels about them are paper, and what lies within is not.
func TestFiguresAreWhole(t *testing.T) {
	var full Likeness
	full.Speckle = speckleContrast()
	counts := map[string]int64{}
	for i, name := range seabed.SedimentNames() {
		counts[name] = int64(1) << (4 * i)
		for k := range angleBins {
			f := Floor{Sediment: name, Grazing: k * angleWidth, Windows: 40, Heard: 40, Intensity: 1e9, Contrast: float64(40 + k*i), Law: 45, Strength: 1e-3 * float64(k+1), StrengthLaw: 0.02}
			full.Floor = append(full.Floor, f.angle())
		}
		for d := range directions {
			full.Texture = append(full.Texture, TextureAlong{name, directions[d], 5, texture.Features{Contrast: float64(3*i + d), Correlation: 0.1 * float64(i), Homogeneity: 0.3, Entropy: 4}})
		}
	}
	full.Labels, full.Sediments = shares(counts), shares(counts)
	for _, role := range coco.Roles() {
		full.Sizes = append(full.Sizes, SizesOf{"coco.json", role, sizeLimits, [len(sizeLimits) + 1]int{0, 1, 20, 300, 4000, 50000, 7, 123456}})
	}
	for what, like := range map[string]*Likeness{"full": &full, "empty": {}} {
		for _, f := range figures {
			var out bytes.Buffer
			if err := f.draw(like, &out); err != nil {
				t.Errorf("%s of a set that is %s: %v", f.name, what, err)
				continue
			}
			img, err := png.Decode(&out)
			if err != nil {
				t.Errorf("%s of a set that is %s: %v", f.name, what, err)
				continue
			}
			edge, inked := 0, 0
			inner := img.Bounds().Inset(3)
			for y := range img.Bounds().Dy() {
				for x := range img.Bounds().Dx() {
					if r, g, b, _ := img.At(x, y).RGBA(); min(r, g, b) < 0xf000 {
						if (image.Point{X: x, Y: y}).In(inner) {
							inked++
						} else {
							edge++
						}
					}
				}
			}
			if edge > 0 || inked < 1000 {
				t.Errorf("%s of a set that is %s: %d pixels of its edge are inked, %d within", f.name, what, edge, inked)
			}
		}
	}
}
