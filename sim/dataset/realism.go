package dataset

import (
	"fmt"
	"io"
	"strings"

	"dryline/sim/dataset/rasters"
	"dryline/sim/survey"
)

// realism says what the set's records are like beside what theory says, so that whoever
// has real records can hold them against it.
func (w *Whole) realism(out io.Writer) error {
	like, err := w.likeness()
	if err != nil {
		return err
	}
	var b strings.Builder
	p := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	p("# What the records of %s are like\n", w.Spec.Title)
	p("Measured on the set itself, as recorded; nothing here says how near it comes to a real record. Hold your own against it. The same numbers for machines are in %s.\n", likenessFile)
	like.floorText(p)
	like.textureText(p)
	like.balanceText(p)
	like.sizesText(p)
	_, err = io.WriteString(out, b.String())
	return err
}

type printer = func(format string, args ...any)

// or is a number, or nothing where it is not known.
func or(v *float64, format, unknown string) string {
	if v == nil {
		return unknown
	}
	return fmt.Sprintf(format, *v)
}

func picturesOf(p printer, names ...string) {
	for _, name := range names {
		for _, f := range figures {
			if f.name == name {
				p("![%s](%s)\n", f.what, f.name)
			}
		}
	}
}

func (like *Likeness) floorText(p printer) {
	p("## Lit floor by grazing angle\n")
	p("Windows of %d samples in a row that show lit floor of one sediment, first channel, every fourth ping. The grazing angle is the ray's on level ground.\n", window)
	p("*Level* is as recorded, with the receiver's gain. *Strength* is the backscattering strength that the sonar equation makes of it, noise taken off, beside that of the published law for the same angles (APL-UW TR 9407, 1994, above 100 kHz extrapolated; of shell bed and seagrass our own choice); where noise is over a tenth it is left out. *Contrast* is the variance of the intensity over its squared mean within a window: 1 for fully developed speckle, 1 + 2/shape for the K distribution (Jakeman and Pusey 1976), whose shape by theory is the number of scatterers that share a cell (Abraham and Lyons 2002). How many there are to the square metre is our own choice.\n")
	p("What to know: relief, slopes, shadows and noise within a window add to its contrast, so that it stands over the theory most where rays graze rough ground. Above about 50° a window reaches over many degrees and the level changes within it, so that its contrast is no speckle's and its strength not that of its middle. Neighbouring samples are not quite independent. A ratio within windows of 32 comes out low where there is texture: of independent samples a shape of 1 as 1.3, 2 as 2.5, 5 as 5.9, 10 as 12. Windows with samples cut off at full scale, or of a few counts, are left out.\n")
	picturesOf(p, "realism-strength.png", "realism-speckle.png")
	p("| Sediment | Grazing angle | Windows | Left out | Level, dB re 1 count | Strength, dB | by law | Contrast squared | by law | K shape | by law |\n|---|---|---|---|---|---|---|---|---|---|---|")
	for _, a := range like.Floor {
		const none = "speckle"
		shape, law := or(a.Shape, "%.1f", none), or(a.ShapeLaw, "%.1f", none)
		if a.Windows == 0 {
			shape, law = "", ""
		}
		p("| %s | %d to %d° | %d | %d | %s | %s | %s | %s | %s | %s | %s |", a.Sediment, a.From, a.To, a.Windows, a.Cut, or(a.Level, "%.1f", ""),
			or(a.Strength, "%.1f", ""), or(a.StrengthLaw, "%.1f", ""), or(a.Contrast, "%.3f", ""), or(a.ContrastLaw, "%.3f", ""), shape, law)
	}
}

func (like *Likeness) textureText(p printer) {
	p("\n## Texture\n")
	p("How often levels stand beside each other on lit floor of one sediment (Haralick, Shanmugam and Dinstein 1973: symmetric, distance 1), first channel, no ping left out. A level is the decibels of a count in steps of %.2f dB; neighbours are the next sample of the ping (range), and of the next ping the same sample (track), the one farther out (outwards) and the one nearer (inwards). Contrast is in squared levels: %.2f for samples of speckle alone that share nothing. What neighbours share, of a pulse or of the same ground, takes away from it.\n", levelStep, like.Speckle)
	picturesOf(p, "realism-texture.png")
	p("| Sediment | Direction | Pairs | Contrast | Correlation | Homogeneity | Second moment | Entropy |\n|---|---|---|---|---|---|---|---|")
	for _, t := range like.Texture {
		p("| %s | %s | %d | %.2f | %.3f | %.3f | %.4f | %.2f |", t.Sediment, t.Direction, t.Pairs, t.Contrast, t.Correlation, t.Homogeneity, t.SecondMoment, t.Entropy)
	}
}

func (like *Likeness) balanceText(p printer) {
	p("\n## Class balance\n\nSamples of all lines and both sides.\n")
	picturesOf(p, "realism-balance.png")
	for _, list := range []struct {
		what   string
		shares []Share
	}{{"What a sample shows", like.Labels}, {"Lit floor of", like.Sediments}} {
		p("| %s | Samples | Share |\n|---|---|---|", list.what)
		for _, s := range list.shares {
			p("| %s | %d | %s %% |", s.Name, s.Samples, survey.Percent(100*s.Share, 4))
		}
		p("")
	}
}

func (like *Likeness) sizesText(p printer) {
	if len(like.Sizes) == 0 {
		return
	}
	p("## Sizes in tiles\n\nLonger side of the box in pixels: of tiles of waterfalls in both geometries together, and of tiles of the mosaic.\n")
	picturesOf(p, "realism-sizes.png")
	head, rule := "| |", "|---|---|"
	from := 0
	for _, to := range sizeLimits {
		head, rule, from = head+fmt.Sprintf(" %d to %d |", from, to-1), rule+"---|", to
	}
	p("| Tiles %s %d and more |\n%s---|", head, from, rule)
	for _, s := range like.Sizes {
		row := fmt.Sprintf("| %s | %s |", tilesOf(s.File), s.Role)
		for _, n := range s.Counts {
			row += fmt.Sprintf(" %d |", n)
		}
		p("%s", row)
	}
}

// tilesOf are the tiles of a file of annotations.
func tilesOf(list string) string {
	if list == rasters.AnnotationFile {
		return "mosaic"
	}
	return "waterfall"
}
