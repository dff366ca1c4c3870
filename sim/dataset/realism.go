package dataset

import (
	"fmt"
	"io"
	"math"
	"strings"

	"dryline/sim/dataset/coco"
)

// realism says in numbers what the set's records are like, beside what theory says, so that
// whoever has real records can hold them against it.
func (w *Whole) realism(out io.Writer) error {
	var b strings.Builder
	p := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	p("# What the records of %s are like\n", w.Spec.Title)
	p("Measured on the set itself, as recorded; nothing here says how near it comes to a real record. Hold your own against it.\n")
	p("## Lit floor by grazing angle\n")
	p("Windows of %d samples in a row that show floor of one sediment, first channel, every fourth ping. The level is with the receiver's gain, over all sediments. Contrast is the variance of the intensity over its squared mean: 1 for fully developed speckle, 1 + 2/shape for the K distribution (Jakeman and Pusey 1976). Neighbouring samples are not quite independent, and noise and slope within a window count as well: shapes over about 50 are speckle alone. Above about 50° a window reaches over many degrees and the level changes within it, so that its contrast is no speckle's. Strong texture comes out a little low: a shape of 5 as 6. Windows with samples cut off at full scale, or of a few counts, are left out.\n", window)
	p("| Grazing angle | Windows | Left out | Level, dB re 1 count | Contrast squared | K shape |\n|---|---|---|---|---|---|")
	for k := range w.total.angles {
		a := &w.total.angles[k]
		switch {
		case a.Windows > 0:
			shape := fmt.Sprintf("%.1f", a.shape())
			if math.IsInf(a.shape(), 1) {
				shape = "no more than speckle"
			}
			p("| %d to %d° | %d | %d | %.1f | %.3f | %s |", 5*k, 5*k+5, a.Windows, a.Cut, 10*math.Log10(a.Intensity/float64(a.Windows)), a.contrastSquared(), shape)
		case a.Cut > 0:
			p("| %d to %d° | 0 | %d | | | |", 5*k, 5*k+5, a.Cut)
		}
	}
	if w.Spec.Products.Images {
		if err := w.sizes(p); err != nil {
			return err
		}
	}
	_, err := io.WriteString(out, b.String())
	return err
}

// sizes is a table of how large things are in tiles.
func (w *Whole) sizes(p func(string, ...any)) error {
	limits := []float64{8, 16, 32, 96}
	count := map[coco.Role][5]int{}
	for _, split := range Splits() {
		if err := w.eachAnnotated(split, func(f *coco.File, _ string) error {
			for _, a := range f.Annotations {
				k := 0
				for k < len(limits) && max(a.Box[2], a.Box[3]) >= limits[k] {
					k++
				}
				c := count[a.Role]
				c[k]++
				count[a.Role] = c
			}
			return nil
		}); err != nil {
			return err
		}
	}
	p("\n## Sizes in tiles\n\nLonger side of the box, pixels, tiles of both geometries together.\n")
	p("| | under 8 | 8 to 16 | 16 to 32 | 32 to 96 | 96 and more |\n|---|---|---|---|---|---|")
	for _, role := range coco.Roles() {
		c := count[role]
		p("| %s | %d | %d | %d | %d | %d |", role, c[0], c[1], c[2], c[3], c[4])
	}
	return nil
}
