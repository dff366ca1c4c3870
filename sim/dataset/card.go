package dataset

import (
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"

	"dryline/sim/dataset/setspec"
	"dryline/sim/provenance"
	"dryline/sim/survey"
)

// card is a data card after the seven headings of Gebru and others, "Datasheets for
// Datasets" (Communications of the ACM 64(12), 2021), as far as spec and scenes answer
// them.
func (w *Whole) card(out io.Writer) error {
	t, spec := &w.total, w.Spec
	var b strings.Builder
	p := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	p("# %s\n", spec.Title)
	p("**Synthetic data: no evidence of anything at sea, not for navigation.**\n")
	p("## Motivation\n\n%s\n\nMade by %s.\n", strings.TrimSpace(spec.Description), spec.Creator)
	n := 0
	for _, k := range t.scenes {
		n += k
	}
	p("## Composition\n")
	p("An instance is a scene: a survey of invented ground by a simulated side-scan sonar, %d in all, %d of them without objects and pipelines (background). They hold %d lines of %.2f km and %d pings in %d files, %.1f MB. %s",
		n, t.bare, t.count.Lines, t.count.Metres/1000, t.count.Pings, t.files, float64(t.bytes)/1e6, perKilometre(t))
	p("\n| Split | Scenes |\n|---|---|")
	for _, s := range setspec.Splits() {
		p("| %s | %d |", s, t.scenes[s])
	}
	p("\nSplits are of whole scenes by their seeds, never of tiles: no ground is on two sides. Exercises whose objects have a place of their own have them there with every seed, unless they say where they lie with another.\n")
	if len(t.count.Objects) > 0 {
		p("| Kind of object | Lying there |\n|---|---|")
		for _, k := range slices.Sorted(maps.Keys(t.count.Objects)) {
			p("| %s | %d |", k, t.count.Objects[k])
		}
		p("")
	}
	sum := int64(0)
	for _, v := range t.count.Labels {
		sum += v
	}
	p("| What a sample shows | Samples | Share |\n|---|---|---|")
	for _, k := range slices.Sorted(maps.Keys(t.count.Labels)) {
		p("| %s | %d | %s %% |", k, t.count.Labels[k], survey.Percent(100*float64(t.count.Labels[k])/float64(max(sum, 1)), 4))
	}
	p("\nLabels are complete: every sample has one. There is nothing of real people, places or vessels in it.\n")
	p("What the records are like, in numbers and beside what theory says, is in REALISM.md and %s.\n", likenessFile)
	for _, f := range figures {
		if !f.images || len(w.annotated()) > 0 {
			p("![%s](%s)\n", f.what, f.name)
		}
	}
	p("## Collection process\n")
	p("Nothing was collected. Each scene is an exercise of Dryline, flown by its mate with a seed of its own, engine %s. Noise, speckle, instruments' errors and weather come from that seed. What was varied, and how, is in %s (SHA-256 %s); what was drawn is in scenes.csv.\n",
		strings.Join(slices.Sorted(maps.Keys(t.engines)), ", "), SpecFile, spec.Hash)
	p("## Preprocessing, cleaning, labelling\n")
	p("Samples are as recorded. Labels come of the same sums as the samples: of what a sample holds, the strongest single part; told apart on the first channel, before speckle. The desk's own belief (position, bottom) is kept beside the truth and apart from it. Nothing was cleaned or left out.\n")
	p("## Uses\n")
	p("To develop and test tools: bottom tracking, slant-range correction, mosaics, detection, segmentation. Not for: claims about real ground, about a real sonar, or about how well a detector does at sea; navigation; clearance of any area. How near it comes to a real record is not known from this set; measure on real data before you trust it there.\n")
	p("## Distribution\n")
	p("Licence %s: free for any use. Say that it is synthetic. Every file with its SHA-256 is in manifest.json; croissant.json describes the set to machines.\n", provenance.Licence)
	p("## Maintenance\n")
	p("The set is a function of %s, its exercises and the engine's number: the same spec and engine give the same bytes on the same platform, so that it can be made again instead of kept. Each scene has its session log, which dryline replay flies again.", SpecFile)
	_, err := io.WriteString(out, b.String())
	return err
}

// perKilometre says what a kilometre of line takes.
func perKilometre(t *total) string {
	if t.count.Metres <= 0 {
		return ""
	}
	var parts []string
	for _, k := range slices.Sorted(maps.Keys(t.sizes)) {
		if mb := float64(t.sizes[k]) / 1e6 / (t.count.Metres / 1000); mb >= 0.1 {
			parts = append(parts, fmt.Sprintf("%.1f MB of .%s", mb, k))
		}
	}
	if len(parts) == 0 {
		return ""
	}
	return "A kilometre of line takes " + strings.Join(parts, ", ") + "."
}
