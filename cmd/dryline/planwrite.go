package main

import (
	"errors"
	"fmt"
	"io"
	"math"
	"path/filepath"
	"slices"
	"strings"
	"unicode"

	"dryline/scenarios"
	"dryline/seabed"
	"dryline/sim/exercise"
	"dryline/sim/plan"
	"dryline/sim/plan/sheet"
	"dryline/sim/product/folder"
	"dryline/sim/provenance"
	"dryline/vessel/nav/geodesy"
)

// settle moves the grid so that its origin is the corner of a world that holds the plan,
// and makes the plan there.
func (g *planGround) settle(first *plan.Plan) (*plan.Plan, error) {
	x0, y0, x1, y1 := sheet.Extent(first)
	margin := g.rangeScale + 60
	e, n := g.place.ToUTM(math.Floor((x0-margin)/10)*10, math.Floor((y0-margin)/10)*10)
	g.world = [2]float64{math.Ceil((x1-x0+2*margin)/10)*10 + 10, math.Ceil((y1-y0+2*margin)/10)*10 + 10}
	if g.world[0] > mostWorld || g.world[1] > mostWorld {
		return nil, usagef("%s: with runs and turns the plan reaches over %.0f x %.0f m, want %d x %d at most: plan it in parts", g.area, g.world[0], g.world[1], mostWorld, mostWorld)
	}
	// The exercise names its corner by latitude and longitude: the plan takes the same.
	lat, lon := g.place.Inverse(e, n).Degrees()
	place, err := geodesy.NewLocalGrid(geodesy.Degrees(round8(lat), round8(lon)))
	if err != nil {
		return nil, err
	}
	if place.Zone() != g.place.Zone() || place.South() != g.place.South() {
		return nil, usagef("%s: lies across the edge of UTM zone %s: plan it in parts", g.area, g.place)
	}
	g.place = place
	spec, floor, err := g.lay(g.world[0], g.world[1])
	if err != nil {
		return nil, err
	}
	low, mean, high := floor.Span(0, 0, g.world[0], g.world[1])
	g.meanDepth = min(max(math.Round(-mean*10)/10, math.Ceil(-high)), math.Floor(-low))
	g.meanDepth = max(g.meanDepth, 2)
	return plan.Make(spec)
}

func round8(v float64) float64 { return math.Round(v*1e8) / 1e8 }

// write writes the folder.
func (g *planGround) write(in *sheet.Input, others []planFile) error {
	exercises, err := g.exercises(in.Plan)
	if err != nil {
		return err
	}
	for _, e := range exercises {
		in.Files = append(in.Files, e.name)
	}
	to, err := folder.New(g.output, g.force)
	if err != nil {
		return err
	}
	defer to.Abandon()
	for _, e := range append(append(exercises, others...),
		planFile{g.depthsName, func(w io.Writer) error { _, err := w.Write(g.data); return err }},
		planFile{"lines.geojson", func(w io.Writer) error { return sheet.WriteLines(w, *in) }},
		planFile{"lines.gpx", func(w io.Writer) error { return sheet.WriteGPX(w, *in) }},
		planFile{"plan.json", func(w io.Writer) error { return sheet.WriteJSON(w, *in) }},
		planFile{"plan.html", func(w io.Writer) error { return sheet.WritePage(w, *in) }},
	) {
		if err := to.Write(e.name, e.write); err != nil {
			return err
		}
	}
	err = to.Write(folder.ListFile, func(w io.Writer) error {
		return printJSON(w, map[string]any{"dryline_engine": provenance.Engine, "license": provenance.Licence, "plan": in.Title, "caution": sheet.Caution, "files": to.Files()})
	})
	if err != nil {
		return err
	}
	return to.Commit()
}

type planFile struct {
	name  string
	write func(io.Writer) error
}

// exercises cuts the plan into exercises that each last no longer than asked, and no
// longer than an exercise may for its memory.
func (g *planGround) exercises(p *plan.Plan) ([]planFile, error) {
	for hours := g.hours; ; hours /= 2 {
		parts := pieces(p, hours*3600)
		var out []planFile
		var faults scenarios.Faults
		for k, part := range parts {
			name := "exercise.yaml"
			if len(parts) > 1 {
				name = fmt.Sprintf("exercise-%0*d.yaml", len(fmt.Sprint(len(parts))), k+1)
			}
			text, err := g.text(p, name, part, k, len(parts))
			if f, ok := errors.AsType[scenarios.Faults](err); ok {
				faults = f
				break
			}
			if err != nil {
				return nil, err
			}
			out = append(out, planFile{name, func(w io.Writer) error { _, err := w.Write(text); return err }})
		}
		if faults == nil {
			return out, nil
		}
		memory := slices.ContainsFunc(faults, func(f scenarios.Fault) bool { return strings.Contains(f.Problem, "memory") })
		if !memory || hours < 0.25 {
			return nil, fmt.Errorf("the plan makes no exercise: %s", strings.ReplaceAll(faults.Error(), "\n", "; "))
		}
	}
}

// pieces are stretches of a plan's lines, each run in no more than so many seconds, but
// of one line at least.
func pieces(p *plan.Plan, most float64) (out [][2]int) {
	from, spent := 0, 0.0
	for i := range p.Lines {
		takes := p.Lines[i].Length() / p.Spec.Speed
		if i > from {
			takes += (p.Turns[i-1].Path.Length() + p.RunIn + p.RunOut + 2*p.Layback) / p.Spec.Speed
		}
		if i > from && spent+takes > most {
			out = append(out, [2]int{from, i})
			from, spent, takes = i, 0, p.Lines[i].Length()/p.Spec.Speed
		}
		spent += takes
	}
	return append(out, [2]int{from, len(p.Lines)})
}

// text is the exercise of some of a plan's lines.
func (g *planGround) text(p *plan.Plan, name string, part [2]int, k, all int) ([]byte, error) {
	lat, lon := g.place.ToLatLon(0, 0).Degrees()
	s := p.Spec
	d := scenarios.Draft{
		Title: clip(g.title, 60), Place: clip(nameOf(g.area), 80),
		Briefing: fmt.Sprintf("A plan of %d lines, %.4g m apart on %.1f deg. Fish %.4g m over the floor, range scale %g m, %.1f kn.\n%s\n",
			part[1]-part[0], p.Spacing, p.Bearing*180/math.Pi, s.Height, s.Range, s.Speed/knot, sheet.Caution),
		Latitude: round8(lat), Longitude: round8(lon), East: g.world[0], North: g.world[1], Depth: g.meanDepth,
		Depths:  scenarios.DraftDepths{File: g.depthsName, Hash: g.hash, Values: g.values, EPSG: g.epsg, Cell: g.cell, Within: g.fill, Water: g.water},
		Current: g.stream, CurrentSet: g.streamSet, Tide: g.tide, RangeScale: s.Range,
		MosaicCell: 0.25, Speed: math.Round(s.Speed/knot*100) / 100, CableOut: max(math.Floor(p.Start*2)/2, s.Gear.Winch.Min),
		RunIn: p.RunIn, RunOut: p.RunOut, Turn: string(p.Turn), TurnRadius: math.Round(s.TurnRadius*10) / 10, TurnHaul: math.Round(100 * p.TurnHaul),
		Altitude: s.Height, Band: math.Round(max(0.8, 0.12*s.Height)*10) / 10, OffLine: s.Tolerance, HeightLow: 100 * s.LeastLow, HeightHigh: 100 * s.MostHigh,
	}
	if all > 1 {
		d.Title = fmt.Sprintf("%s, part %d of %d", d.Title, k+1, all)
	}
	const mostCells = 30e6 // of the mosaic: larger areas are shown more coarsely
	for (g.world[0]+2*s.Range)*(g.world[1]+2*s.Range)/(d.MosaicCell*d.MosaicCell) > mostCells {
		d.MosaicCell *= 2
	}
	seconds := 0.0
	type named struct {
		line     exercise.Line
		reversed bool
	}
	var lines []named
	for i := part[0]; i < part[1]; i++ {
		l := &p.Lines[i]
		n := named{line: exercise.Line{Name: l.Name, A: centimetres(l.A), B: centimetres(l.B)}}
		if b := math.Atan2(l.B.X-l.A.X, l.B.Y-l.A.Y); b < -1e-9 || b >= math.Pi-1e-9 { // all lines are written one way
			n.line.A, n.line.B, n.reversed = n.line.B, n.line.A, true
		}
		lines = append(lines, n)
		seconds += l.Length() / s.Speed
		if i > part[0] {
			seconds += (p.Turns[i-1].Path.Length() + p.RunIn + p.RunOut + 2*p.Layback) / s.Speed
		}
	}
	d.TimeLimit = min(math.Ceil((seconds*1.2+(p.RunIn+2*p.Layback)/s.Speed)/60+10), 600)
	sorted := slices.Clone(lines)
	slices.SortFunc(sorted, func(a, b named) int { return strings.Compare(a.line.Name, b.line.Name) })
	for _, n := range sorted {
		d.Lines = append(d.Lines, n.line)
	}
	for _, n := range lines {
		d.Order = append(d.Order, exercise.Run{Line: exercise.LineNamed(d.Lines, n.line.Name), Reversed: n.reversed})
	}
	if len(s.Parts) == 1 && len(s.Parts[0].Outer) <= 200 && all == 1 {
		for _, c := range s.Parts[0].Outer {
			at := centimetres(c)
			d.Area = append(d.Area, [2]float64{at.X, at.Y})
		}
	}
	return d.Text(name, g.base.Source)
}

func centimetres(p plan.Point) seabed.Point {
	return seabed.Point{X: math.Round(p.X*100) / 100, Y: math.Round(p.Y*100) / 100}
}

// nameOf returns what a file is called, of the characters that can be printed.
func nameOf(file string) string {
	name := strings.TrimSuffix(filepath.Base(file), filepath.Ext(file))
	return strings.Map(func(r rune) rune {
		if !unicode.IsPrint(r) {
			return '_'
		}
		return r
	}, strings.ToValidUTF8(name, "_"))
}

// clip is a text of so many characters at most.
func clip(s string, most int) string {
	r := []rune(s)
	return string(r[:min(len(r), most)])
}
