package main

import (
	"encoding/json"
	"fmt"
	"io"
	"math"
	"strings"
	"text/tabwriter"

	"github.com/spf13/cobra"

	"dryline/scenarios"
	"dryline/sim/exercise"
	"dryline/sim/product"
	"dryline/vessel/nav/geodesy"
)

func newExercisesCommand() *cobra.Command {
	var asJSON, source bool
	c := &cobra.Command{
		Use:   "exercises [EXERCISE]",
		Short: "List the built-in exercises, or show one",
		Long: `List the built-in exercises, or show one: briefing, goals, lines and settings.
With --source the exercise file itself is printed, to start one of your own.`,
		Args: atMostOne("exercise"),
		RunE: func(c *cobra.Command, args []string) error {
			if len(args) == 0 {
				if source {
					return usagef("--source: name the exercise whose file to print")
				}
				return listExercises(c.OutOrStdout(), asJSON)
			}
			ex, err := findExercise(args)
			if err != nil {
				return err
			}
			switch {
			case source:
				_, err = c.OutOrStdout().Write(ex.Source)
				return err
			case asJSON:
				return printJSON(c.OutOrStdout(), describe(ex))
			}
			return showExercise(c.OutOrStdout(), ex)
		},
	}
	c.ValidArgsFunction = completeExercises
	c.Flags().BoolVar(&asJSON, "json", false, "print JSON")
	c.Flags().BoolVar(&source, "source", false, "print the exercise file")
	return c
}

func printJSON(w io.Writer, v any) error {
	enc := json.NewEncoder(w)
	enc.SetIndent("", "  ")
	enc.SetEscapeHTML(false)
	return enc.Encode(v)
}

func listExercises(w io.Writer, asJSON bool) error {
	infos := scenarios.Embedded()
	if asJSON {
		type entry struct {
			Name     string `json:"name"`
			Title    string `json:"title"`
			Briefing string `json:"briefing"`
			Default  bool   `json:"default"`
		}
		var list []entry
		for _, i := range infos {
			list = append(list, entry{i.Name, i.Title, i.Briefing, i.Name == scenarios.Default})
		}
		return printJSON(w, list)
	}
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	for _, i := range infos {
		note := ""
		if i.Name == scenarios.Default {
			note = " (default)"
		}
		fmt.Fprintf(t, "%s%s\t%s\t%s\n", i.Name, note, i.Title, i.Briefing)
	}
	return t.Flush()
}

// description is an exercise as JSON: what a planner asks of it.
type description struct {
	Name        string    `json:"name"`
	Title       string    `json:"title"`
	Briefing    string    `json:"briefing"`
	Goals       []string  `json:"goals"`
	Trains      []string  `json:"supports_practice_towards,omitempty"`
	Hash        string    `json:"sha256"`
	Seed        uint64    `json:"seed"`
	Place       string    `json:"place"`
	EPSG        int       `json:"epsg"`
	DepthM      float64   `json:"depth_m"`
	RangeScaleM float64   `json:"range_scale_m"`
	SpeedKn     float64   `json:"speed_kn"`
	Channels    []string  `json:"channels"`
	Lines       []lineOut `json:"lines"`
}

type lineOut struct {
	Name       string  `json:"name"`
	LengthM    float64 `json:"length_m"`
	BearingDeg float64 `json:"grid_bearing_deg"`
}

func describe(ex *exercise.Exercise) description {
	d := description{
		Name: ex.Name, Title: ex.Title, Briefing: ex.Briefing, Goals: ex.Goals, Trains: ex.Trains, Hash: ex.Hash, Seed: ex.Seed,
		Place: ex.Place.Name, EPSG: ex.Place.Grid.EPSG(), DepthM: ex.Seabed.Depth,
		RangeScaleM: ex.Sonar.RangeScale, SpeedKn: math.Round(ex.Plan.Speed/knot*100) / 100,
	}
	for _, c := range ex.Sonar.Channels {
		d.Channels = append(d.Channels, c.Name)
	}
	for _, l := range ex.Lines {
		t := l.Track(false)
		d.Lines = append(d.Lines, lineOut{l.Name, t.Length(), degrees(t)})
	}
	return d
}

func degrees(t geodesy.Track) float64 {
	return math.Mod(t.Bearing()*180/math.Pi+360, 360)
}

func showExercise(w io.Writer, ex *exercise.Exercise) error {
	d := describe(ex)
	var b strings.Builder
	fmt.Fprintf(&b, "%s (%s)\n\n%s\n", d.Title, d.Name, strings.TrimSpace(d.Briefing))
	if len(d.Goals) > 0 {
		fmt.Fprintf(&b, "\nGoals\n")
		for _, g := range d.Goals {
			fmt.Fprintf(&b, "  - %s\n", g)
		}
	}
	if len(d.Trains) > 0 {
		fmt.Fprintf(&b, "\nSupports practice towards, and replaces no field time\n")
		for _, g := range d.Trains {
			fmt.Fprintf(&b, "  - %s\n", g)
		}
	}
	fmt.Fprintf(&b, "\nPlace         %s, EPSG %d, about %g m of water\n", d.Place, d.EPSG, d.DepthM)
	var channels []string
	for _, c := range ex.Sonar.Channels {
		channels = append(channels, product.ChannelLabel(c))
	}
	fmt.Fprintf(&b, "Sonar         %g m range scale, channels %s\n", d.RangeScaleM, strings.Join(channels, " and "))
	fmt.Fprintf(&b, "Plan          %g kn over ground, seed %d\n\nLines\n", d.SpeedKn, d.Seed)
	for _, l := range d.Lines {
		fmt.Fprintf(&b, "  %-6s %6.0f m on %05.1f grid\n", l.Name, l.LengthM, l.BearingDeg)
	}
	fmt.Fprintf(&b, "\nTraining aid with synthetic data in a place that does not exist. Not for navigation.\n")
	_, err := io.WriteString(w, b.String())
	return err
}
