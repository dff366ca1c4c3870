package sheet

import (
	"encoding/json"
	"io"
	"math"

	"dryline/sim/plan"
	"dryline/sim/provenance"
)

// Caution goes with everything written of a plan.
const Caution = "Planning aid; never evidence of clearance. Not for navigation."

// Input is a plan and what else is written down with it.
type Input struct {
	Title  string
	Plan   *plan.Plan
	Locate func(x, y float64) (lat, lon float64) // degrees
	Frame  string                                // EPSG code of the grid
	Files  []string                              // exercises, in the order they are run
	Depths string                                // file of depths and its hash
	Notes  []string
	Scales []plan.Scale
	Trade  *Trade // nil without --improve
}

// Figures are a plan's numbers; names carry units.
type Figures struct {
	Engine       int       `json:"dryline_engine"`
	Licence      string    `json:"license"` // of the plan; the depths stay under their own
	Caution      string    `json:"caution"`
	Title        string    `json:"title"`
	Direction    float64   `json:"direction_deg"` // of the lines, grid, 0-180
	Because      string    `json:"direction_because"`
	Spacing      float64   `json:"spacing_m"`
	Range        float64   `json:"range_m"`
	Height       float64   `json:"height_m"`
	Gap          float64   `json:"nadir_gap_m"`
	Nadir        string    `json:"nadir"`
	LineCount    int       `json:"line_count"`
	MainCount    int       `json:"main_line_count"`
	EdgeCount    int       `json:"edge_line_count"`
	SecondCount  int       `json:"second_set_line_count"`
	CrossCount   int       `json:"cross_line_count"`
	LineLength   float64   `json:"line_length_m"`
	TurnLength   float64   `json:"turn_length_m"` // from the ends of lines to the starts of the next
	TurnCount    int       `json:"turn_count"`
	Time         float64   `json:"time_s"`
	Speed        float64   `json:"speed_m_s"`
	Turn         string    `json:"turn"`
	TurnRadius   float64   `json:"turn_radius_m"`
	TurnHaul     float64   `json:"turn_haul_percent"` // of the cable, hauled in before each turn
	Pattern      int       `json:"order_step"`
	RunIn        float64   `json:"run_in_m"`
	RunOut       float64   `json:"run_out_m"`
	Layback      float64   `json:"layback_m"`
	Cable        float64   `json:"cable_out_m"`
	Area         float64   `json:"area_m2"`
	Coverage     coverage  `json:"coverage"`
	Looks        []float64 `json:"look_shares"` // of 0, 1, 2, ... looks, lines without end
	Found        []found   `json:"found"`       // by these shares, where every look sees by itself with a chance
	Good         bool      `json:"good"`
	Choices      []choice  `json:"directions"`
	Checks       []check   `json:"checks"`
	Scales       []scale   `json:"scales"`
	Exercises    []string  `json:"exercises"`
	Depths       string    `json:"depths"`
	Alternatives []point   `json:"alternatives,omitempty"`
}

type coverage struct {
	Once  float64 `json:"once"`
	Twice float64 `json:"twice"`
	Gap   float64 `json:"under_fish_only"`
	Lost  float64 `json:"unseen"`
}

type found struct {
	Each  float64 `json:"each_look"`    // assumed
	Exact float64 `json:"exact_lines"`  // on lines without end, exactly run
	OffBy float64 `json:"off_by_m"`     // deviation of the lines
	Off   float64 `json:"lines_so_off"` // the same with it
}

type choice struct {
	Why       string  `json:"why"`
	Direction float64 `json:"direction_deg"`
	Lines     int     `json:"line_count"`
	Line      float64 `json:"line_length_m"`
	Turn      float64 `json:"turn_length_m"`
	Time      float64 `json:"time_s"`
	Taken     bool    `json:"taken"`
}

type check struct {
	ID    string  `json:"id"`
	State string  `json:"state"`
	Says  string  `json:"says"`
	Worst float64 `json:"worst"`
	Limit float64 `json:"limit"`
	Unit  string  `json:"unit"`
	East  float64 `json:"east_m"`
	North float64 `json:"north_m"`
	Line  string  `json:"line,omitempty"`
}

type scale struct {
	Range   float64 `json:"range_m"`
	Height  float64 `json:"height_m"`
	Deepest float64 `json:"deepest_m"`
}

func round(v float64, digits int) float64 {
	p := math.Pow10(digits)
	return math.Round(v*p) / p
}

// share rounds a share down, so that none is called more than it is.
func share(v float64) float64 { return math.Floor(v*1e4+1e-9) / 1e4 }

// lack rounds what is missed up.
func lack(v float64) float64 { return math.Ceil(v*1e4-1e-9) / 1e4 }

func degrees(bearing float64) float64 { return round(bearing*180/math.Pi, 2) }

// FiguresOf gathers the numbers.
func FiguresOf(in Input) Figures {
	p := in.Plan
	s := p.Spec
	f := Figures{
		Engine: provenance.Engine, Licence: provenance.Licence, Caution: Caution, Title: in.Title, Direction: degrees(p.Bearing), Because: p.Because, Spacing: round(p.Spacing, 3), Range: s.Range, Height: s.Height,
		Gap: round(p.Gap, 2), Nadir: string(s.Nadir), LineCount: len(p.Lines), MainCount: p.Count(plan.Main), EdgeCount: p.Count(plan.Edge),
		SecondCount: p.Count(plan.Second), CrossCount: p.Count(plan.Across),
		LineLength: round(p.LineLength, 1), TurnLength: round(p.Between, 1), TurnCount: len(p.Turns), Time: round(p.Time, 1), Speed: round(s.Speed, 4),
		Turn: string(p.Turn), TurnRadius: round(s.TurnRadius, 1), TurnHaul: round(100*p.TurnHaul, 0), Pattern: p.Pattern, RunIn: p.RunIn, RunOut: p.RunOut, Layback: round(p.Layback, 1), Cable: round(p.Cable, 1),
		Area: round(p.Covered.Square, 0), Coverage: coverage{share(p.Covered.Once), share(p.Covered.Twice), lack(p.Covered.Gap), lack(p.Covered.Lost)},
		Good: p.Good(), Exercises: in.Files, Depths: in.Depths,
	}
	within := p.Spacing
	if s.Nadir == plan.Interleave {
		within /= 2
	}
	for _, v := range plan.Looks(s.Range, within, p.Gap) {
		f.Looks = append(f.Looks, round(v, 4))
	}
	for _, each := range []float64{0.5, 0.8, 0.9} {
		f.Found = append(f.Found, found{each, share(plan.Found(plan.Looks(s.Range, within, p.Gap), each)), s.Tolerance,
			share(plan.FoundOff(s.Range, within, p.Gap, s.Tolerance, each))})
	}
	for _, c := range p.Choices {
		f.Choices = append(f.Choices, choice{c.Why, degrees(c.Bearing), c.Lines, round(c.Line, 1), round(c.Between, 1), round(c.Time, 1), c.Taken})
	}
	for _, c := range p.Checks {
		f.Checks = append(f.Checks, check{c.ID, string(c.State), c.Says, round(c.Worst, 3), round(c.Limit, 3), c.Unit, round(c.At.X, 1), round(c.At.Y, 1), c.Line})
	}
	for _, c := range in.Scales {
		f.Scales = append(f.Scales, scale{c.Range, round(c.Height, 1), round(c.Deepest, 1)})
	}
	if in.Trade != nil {
		f.Alternatives = in.Trade.points()
	}
	return f
}

// WriteJSON writes the figures.
func WriteJSON(w io.Writer, in Input) error {
	enc := json.NewEncoder(w)
	enc.SetIndent("", "  ")
	enc.SetEscapeHTML(false)
	return enc.Encode(FiguresOf(in))
}
