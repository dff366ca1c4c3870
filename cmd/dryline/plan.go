package main

import (
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/spf13/cobra"

	"dryline/sim/plan"
	"dryline/sim/plan/sheet"
)

// planning holds what the command line says of a plan.
type planning struct {
	area, depths, keepOut, like, output, title string
	force, json, improve, noEdges, quick       bool

	rangeScale, height, overlap, spacing, gap       float64
	direction                                       string
	nadir                                           plan.Nadir
	cross, corridor                                 float64
	speed, turnRadius, runIn, runOut                float64
	keepClear, underKeel, underWake                 float64
	stream, streamSet, tide                         float64
	accuracy                                        float64
	values                                          string
	epsg                                            int
	cell, fill, water                               float64
	hours                                           float64
	heightGiven, spacingGiven, runInGiven, gapGiven bool
}

func newPlanCommand() *cobra.Command {
	var p planning
	c := &cobra.Command{
		Use:   "plan AREA.geojson --depths DEPTHS.tif --range M -o FOLDER",
		Short: "Lay survey lines over an area or along a route, on measured depths",
		Long: `Lay survey lines over the polygons of a GeoJSON file, or along its line, on the
depths of a GeoTIFF, an ESRI ASCII grid, .xyz or .csv. The folder gets an exercise that
every other command and the window open, with its file of depths; the lines as
GeoJSON and GPX; the figures as JSON; and a page with a chart (plan.html).

What must hold is asked at every place: water under the keel, turns in safe water,
keep-outs, cable, winch, height of the fish at low water, stream, range, pings.
What does not hold is told on standard error; the plan is written all the same.

Planning aid; never evidence of clearance.`,
		Args: exactlyOne("file of an area or a route"),
		RunE: func(c *cobra.Command, args []string) error {
			p.area = args[0]
			for name, given := range map[string]*bool{"height": &p.heightGiven, "spacing": &p.spacingGiven, "run-in": &p.runInGiven, "gap": &p.gapGiven} {
				*given = c.Flags().Changed(name)
			}
			if p.spacingGiven && c.Flags().Changed("overlap") {
				return usagef("%s takes one of --overlap and --spacing", c.Name())
			}
			var missing []string
			for _, name := range []string{"depths", "range", "output"} {
				if !c.Flags().Changed(name) {
					missing = append(missing, "--"+name)
				}
			}
			if len(missing) > 0 {
				return usagef("%s needs %s", c.Name(), strings.Join(missing, ", "))
			}
			return p.run(c.OutOrStdout(), c.ErrOrStderr())
		},
	}
	f := c.Flags()
	f.StringVar(&p.depths, "depths", "", "file of depths: GeoTIFF, ESRI ASCII grid, .xyz or .csv")
	f.StringVarP(&p.output, "output", "o", "", "folder to write")
	f.BoolVar(&p.force, "force", false, "replace the folder if dryline made it; what others put there is kept")
	f.BoolVar(&p.json, "json", false, "print the figures as JSON on standard output")
	f.BoolVar(&p.improve, "improve", false, "look at other scales, heights, speeds and spacings as well, show time against what they would see, and write the plans that none beats")
	f.StringVar(&p.title, "title", "", "title of the exercise (default after the area's file)")
	numberFlag(c, &p.rangeScale, "range", "m", from(10, 1000), "range scale, one side")
	optionalNumberFlag(c, &p.height, "height", "m", above(0, 200), 0, "height of the fish over the floor (default a tenth of the range scale; IHO C-13, 2.3.4.4)")
	optionalNumberFlag(c, &p.overlap, "overlap", "%", from(0, 95), 20, "overlap of neighbouring swaths, of the full swath 2R")
	optionalNumberFlag(c, &p.spacing, "spacing", "m", above(0, 2000), 0, "distance between the lines of one set, in place of an overlap")
	choiceFlag(c, &p.nadir, "nadir", plan.Nadirs(), "ground under the fish: gap leaves it, neighbour has lines at most range less gap apart, interleave lays a second set")
	optionalNumberFlag(c, &p.gap, "gap", "m", from(0, 500), 0, "next to the fish on either side, not relied upon (default a sixth of the range scale; IHO C-13, 2.3.3.3)")
	f.StringVar(&p.direction, "direction", "auto", "grid bearing of the lines, from 0 to 180 deg, or auto")
	f.BoolVar(&p.noEdges, "no-edge-lines", false, "leave out the line outside each limit (IHO C-13, 2.3.9.7)")
	optionalNumberFlag(c, &p.cross, "cross-lines", "m", from(0, 5000), 0, "distance between cross-lines, 0 for none")
	optionalNumberFlag(c, &p.corridor, "corridor", "m", from(0, 2000), 0, "half width of the corridor along a route")
	f.StringVar(&p.keepOut, "keep-out", "", "GeoJSON of what vessel and fish keep clear of; radius_m of a feature is how far")
	optionalNumberFlag(c, &p.keepClear, "keep-clear", "m", from(0, 1000), 25, "how far, where a feature does not say")
	optionalNumberFlag(c, &p.speed, "speed-kn", "kn", from(0.5, 15), 4, "speed over ground")
	optionalNumberFlag(c, &p.turnRadius, "turn-radius", "m", from(0, 1000), 0, "radius of the turns, 0 is that of the exercise it is made after")
	optionalNumberFlag(c, &p.runIn, "run-in", "m", from(0, 2000), 0, "straight before a line, besides the layback (default what lets the fish settle)")
	optionalNumberFlag(c, &p.runOut, "run-out", "m", from(0, 2000), 20, "straight beyond a line, besides the layback")
	optionalNumberFlag(c, &p.underKeel, "under-keel", "m", from(0, 50), 2, "water wanted under the keel")
	optionalNumberFlag(c, &p.underWake, "under-wake", "m", from(0, 50), 2, "fish below the keel at least")
	optionalNumberFlag(c, &p.accuracy, "accuracy", "m", from(0, 1000), 0, "within which 95 % of contacts are to be placed, 0 for whatever comes (IHO C-13, 2.3.10.3)")
	optionalNumberFlag(c, &p.stream, "stream-kn", "kn", from(0, 6), 0, "predicted stream")
	optionalNumberFlag(c, &p.streamSet, "stream-set", "deg", from(0, 360), 0, "grid bearing the stream sets to")
	optionalNumberFlag(c, &p.tide, "tide", "m", from(0, 8), 0, "amplitude of the tide: low water stands so far below the still water")
	f.StringVar(&p.values, "values", "auto", "whether depths count up or down: auto, up, down")
	f.IntVar(&p.epsg, "epsg", 0, "EPSG code of the depths' coordinates, 0 as the file says")
	optionalNumberFlag(c, &p.cell, "cell", "m", from(0, 1000), 0, "cells that scattered soundings are averaged in, 0 for points on a grid")
	optionalNumberFlag(c, &p.fill, "fill-holes", "m", from(0, 5000), 20, "how far from a value holes in the depths are interpolated")
	optionalNumberFlag(c, &p.water, "water-above-zero", "m", from(-20, 20), 0, "how much higher the still water stands than the zero of the depths")
	f.StringVar(&p.like, "like", "", "exercise whose vessel, tow, sonar and instruments are used (default the default exercise)")
	optionalNumberFlag(c, &p.hours, "hours", "h", above(0, 9), 8, "longest exercise; a longer plan becomes several")
	return c
}

func (p *planning) run(stdout, stderr io.Writer) error {
	if p.direction != "auto" {
		if d, err := strconv.ParseFloat(p.direction, 64); err != nil || !(d >= 0 && d <= 180) {
			return usagef("--direction %.20q: want auto or a number from 0 to 180 deg", p.direction)
		}
	}
	if !utf8.ValidString(p.title) || strings.ContainsFunc(p.title, func(r rune) bool { return !unicode.IsPrint(r) }) {
		return usagef("--title: %+.60q has characters that cannot be printed (want letters, digits, spaces and signs)", p.title)
	}
	g, err := p.read()
	if err != nil {
		return err
	}
	first, err := plan.Make(g.spec)
	if err != nil {
		return usageError{errors.New(p.area + ": " + strings.ReplaceAll(err.Error(), "\n", "; "))}
	}
	from := g.place // before it is moved
	final, err := g.settle(first)
	if err != nil {
		return err
	}
	in := sheet.Input{Title: p.title, Plan: final, Locate: func(x, y float64) (lat, lon float64) { return g.place.ToLatLon(x, y).Degrees() },
		Frame:  fmt.Sprintf("Grid EPSG:%d (UTM %s)", g.place.EPSG(), g.place),
		Depths: fmt.Sprintf("Depths: %s, SHA-256 %s; values count %s", g.depthsName, g.hash, g.raster.Sign), Notes: g.notes}
	in.Scales = final.Spec.Scales(scalesAbout(p.rangeScale))
	var others []planFile
	if p.improve {
		judge := plan.ByGeometry{Each: 0.8, Low: 0.6, High: 0.95}
		in.Trade = &sheet.Trade{All: plan.Improve(first, plan.Search{
			Ranges: scalesAbout(p.rangeScale), Heights: []float64{0.08, 0.1, 0.15}, Speeds: []float64{3 * knot, 4 * knot, 5 * knot},
			Nadirs: plan.Nadirs(), Overlap: []float64{0.1, 0.2, 0.4},
		}, judge)}
		if others, err = g.unbeaten(in.Trade, judge, from); err != nil {
			return err
		}
	}
	if err := g.write(&in, others); err != nil {
		return err
	}
	for _, c := range final.Checks {
		if c.State != plan.Holds {
			where := ""
			if c.Line != "" {
				where = fmt.Sprintf(" (worst on %s, %.0f m east and %.0f m north)", c.Line, c.At.X, c.At.Y)
			}
			warn(stderr, fmt.Sprintf("%s: %s%s", map[plan.State]string{plan.Fails: "does not hold", plan.Watch: "to be known"}[c.State], c.Says, where))
		}
	}
	if p.json {
		return sheet.WriteJSON(stdout, in)
	}
	return p.tell(stdout, in)
}

// scalesAbout are usual range scales from half to twice one, which is among them.
func scalesAbout(r float64) []float64 {
	out := []float64{r}
	for _, s := range []float64{25, 50, 75, 100, 150, 200, 300, 400, 500} {
		if s >= r/2 && s <= 2*r && s != r {
			out = append(out, s)
		}
	}
	slices.Sort(out)
	return out
}

func (p *planning) tell(w io.Writer, in sheet.Input) error {
	f := sheet.FiguresOf(in)
	minutes := int(math.Round(f.Time / 60))
	_, err := fmt.Fprintf(w, `%s: %d lines on %.1f deg, %.4g m apart: %.2f km on line, %.2f km between, %d:%02d h
seen at least once %s, twice %s, only under a fish %s, from no line %s
%s: begin with plan.html; %s
%s
`, in.Title, f.LineCount, f.Direction, f.Spacing, f.LineLength/1000, f.TurnLength/1000, minutes/60, minutes%60,
		sheet.Percent(f.Coverage.Once), sheet.Percent(f.Coverage.Twice), sheet.Lack(f.Coverage.Gap), sheet.Lack(f.Coverage.Lost), p.output, strings.Join(in.Files, ", "), sheet.Caution)
	return err
}
