package main

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"

	"dryline/scenarios"
	"dryline/seabed/grid"
	"dryline/sim/exercise"
	"dryline/sim/plan"
	"dryline/sim/plan/areas"
	"dryline/sim/survey"
	"dryline/sonar"
	"dryline/sonar/acoustics"
	"dryline/vessel/nav/geodesy"
)

// planGround holds what a plan is made on: the area and the depths, on a grid.
type planGround struct {
	*planning
	base       *exercise.Exercise // vessel, tow, sonar
	raster     *grid.Raster
	data       []byte
	hash       string
	depthsName string
	things     []areas.Thing
	keep       []areas.Thing
	place      geodesy.LocalGrid
	spec       *plan.Spec
	notes      []string
	world      [2]float64 // metres, once settled
	meanDepth  float64
}

// floorGround is a grid of depths as plans ask it.
type floorGround struct{ *grid.Grid }

func (f floorGround) DepthAt(x, y float64) (float64, bool) {
	return -f.HeightAt(x, y), f.MarkAt(x, y) != grid.Unknown
}

// mostPlanFile is the largest file of an area read, bytes.
const mostPlanFile = 16 << 20

func readThings(name string) ([]areas.Thing, error) {
	info, err := os.Stat(name)
	if err != nil {
		return nil, err
	}
	if info.Size() > mostPlanFile {
		return nil, usagef("%s: is of %d bytes, want %d at most", name, info.Size(), mostPlanFile)
	}
	data, err := os.ReadFile(name)
	if err != nil {
		return nil, err
	}
	things, err := areas.Read(data)
	if err != nil {
		return nil, usagef("%s: %v", name, err)
	}
	return things, nil
}

// read reads all that a plan is made of, and lays it on a grid with room about the area.
func (p *planning) read() (*planGround, error) {
	g := &planGround{planning: p}
	var err error
	var like []string
	if p.like != "" {
		like = []string{p.like}
	}
	if g.base, err = findExercise(like); err != nil {
		return nil, err
	}
	if g.things, err = readThings(p.area); err != nil {
		return nil, err
	}
	if p.keepOut != "" {
		if g.keep, err = readThings(p.keepOut); err != nil {
			return nil, err
		}
	}
	if g.data, err = os.ReadFile(p.depths); err != nil {
		return nil, err
	}
	g.raster, err = grid.Read(g.data, grid.Options{Name: p.depths, Values: grid.Values(p.values), EPSG: p.epsg, Cell: p.cell})
	if err != nil {
		return nil, usagef("%s: %v; --values, --epsg and --cell say what a file does not", p.depths, err)
	}
	g.hash = scenarios.Keep(g.data)
	g.depthsName = "depths" + strings.ToLower(filepath.Ext(p.depths))
	if p.title == "" {
		p.title = "Plan of " + nameOf(p.area)
	}
	var all []areas.Position
	for _, t := range g.things {
		for _, poly := range t.Polygons {
			all = append(all, poly.Outer...)
		}
		for _, l := range t.Lines {
			all = append(all, l...)
		}
	}
	if len(all) == 0 {
		return nil, usagef("%s: it holds neither a polygon nor a line", p.area)
	}
	zone, south := geodesy.ZoneFor(geodesy.Degrees(all[0].Lat, all[0].Lon))
	projection, err := geodesy.UTM(zone, south)
	if err != nil {
		return nil, usagef("%s: lies beyond the reach of UTM", p.area)
	}
	x0, y0, x1, y1 := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, at := range all {
		e, n := projection.Forward(geodesy.Degrees(at.Lat, at.Lon))
		if math.IsNaN(e + n) {
			return nil, usagef("%s: %g, %g lies beyond the reach of UTM zone %s", p.area, at.Lon, at.Lat, projection)
		}
		x0, x1, y0, y1 = min(x0, e), max(x1, e), min(y0, n), max(y1, n)
	}
	if x1-x0 > mostWorld || y1-y0 > mostWorld {
		return nil, usagef("%s: reaches over %.0f x %.0f m, want %d x %d at most: plan it in parts", p.area, x1-x0, y1-y0, mostWorld, mostWorld)
	}
	const room = 2000
	g.place = geodesy.LocalGrid{Projection: projection, OriginEasting: x0 - room, OriginNorthing: y0 - room}
	g.spec, _, err = g.lay(x1-x0+2*room, y1-y0+2*room)
	return g, err
}

// mostWorld is how far the world of an exercise may reach, metres.
const mostWorld = 5000

// lay puts everything on the grid as it stands, over a world of a size.
func (g *planGround) lay(east, north float64) (*plan.Spec, *grid.Grid, error) {
	p := g.planning
	floor, err := scenarios.LayDepths(g.raster, g.place, east, north, p.water)
	if err != nil {
		return nil, nil, usagef("%s: %v", p.depths, err)
	}
	filled, unknown := floor.Fill(p.fill)
	g.notes = nil
	if filled > 0 {
		g.notes = append(g.notes, fmt.Sprintf("Depths are interpolated in %d cells of the world, within %g m of a value.", filled, p.fill))
	}
	if unknown > 0 {
		g.notes = append(g.notes, fmt.Sprintf("In %d cells of the world nothing is known of the depth (grey on the chart): no line and no turn is led there.", unknown))
	}
	s, err := g.asked(floor)
	if err != nil {
		return nil, nil, err
	}
	if s.Parts = g.parts(); len(s.Parts) == 0 {
		if s.Route, err = g.route(); err != nil {
			return nil, nil, err
		}
	}
	s.KeepOuts = g.keepOuts()
	return s, floor, nil
}

// asked is the plan as the flags and the exercise it is for ask for it, with nothing on the
// ground yet.
func (g *planGround) asked(floor *grid.Grid) (*plan.Spec, error) {
	p, b := g.planning, g.base
	low, high := survey.HeightBand(0, 0)
	s := &plan.Spec{
		Ground: floorGround{floor}, LowWater: p.tide, Range: p.rangeScale, Height: p.height, Overlap: p.overlap / 100, Spacing: p.spacing, Nadir: p.nadir,
		Gap: p.gap, Auto: p.direction == "auto", Edges: !p.noEdges, Cross: p.cross, LeastLow: low, MostHigh: high,
		Speed: p.speed * knot, TurnRadius: p.turnRadius, RunIn: p.runIn, RunOut: p.runOut, Tolerance: 4, Half: p.corridor,
		Stream: p.stream * knot, StreamSet: p.streamSet * math.Pi / 180,
		Gear: b.Tow, SheaveUp: b.Vessel.Sheave.Up, SheaveAft: max(-b.Vessel.Sheave.Forward, 0), Draft: b.Vessel.Draft, UnderKeel: p.underKeel, UnderWake: p.underWake,
		Accuracy: p.accuracy, Placing: plan.Placing{
			Vessel: math.Hypot(b.Instruments.GNSS.Drift, b.Instruments.GNSS.Noise), Heading: math.Hypot(b.Instruments.Heading.Bias, b.Instruments.Heading.Noise),
			Beacon: b.Instruments.Beacon.Fitted, BeaconNoise: b.Instruments.Beacon.Noise, BeaconShare: b.Instruments.Beacon.Share,
		},
		Pings: 3, Sound: b.Desk.SoundSpeed, Quick: p.quick,
	}
	if !p.heightGiven {
		s.Height = 0.1 * p.rangeScale
	}
	if !p.runInGiven {
		s.RunIn = -1
	}
	if s.TurnRadius == 0 {
		s.TurnRadius = b.Plan.TurnRadius
	}
	if !s.Auto {
		if _, err := fmt.Sscan(p.direction, &s.Bearing); err != nil {
			return nil, usagef("--direction %.20q: want auto or a number", p.direction)
		}
		s.Bearing *= math.Pi / 180
	}
	if s.Sound == 0 {
		s.Sound = acoustics.Mackenzie(10, 35, 10)
	}
	if cast := b.Sea.Water.Cast; len(cast) > 1 {
		s.SoundSpeed = func(depth float64) float64 { return speedIn(cast, depth) }
	}
	return s, nil
}

// speedIn is the speed of sound at a depth, straight between the points of a cast and as at its
// ends beyond them.
func speedIn(cast []sonar.CastPoint, depth float64) float64 {
	k := 1
	for k < len(cast)-1 && cast[k].Depth < depth {
		k++
	}
	a, c := cast[k-1], cast[k]
	t := min(max((depth-a.Depth)/(c.Depth-a.Depth), 0), 1)
	return a.SoundSpeed + t*(c.SoundSpeed-a.SoundSpeed)
}

// parts are the areas to be surveyed, on the grid.
func (g *planGround) parts() (out []plan.Part) {
	for _, t := range g.things {
		for _, poly := range t.Polygons {
			part := plan.Part{Outer: g.points(poly.Outer)}
			for _, h := range poly.Holes {
				part.Holes = append(part.Holes, g.points(h))
			}
			out = append(out, part)
		}
	}
	return out
}

// route is the one line to be surveyed along, on the grid.
func (g *planGround) route() (out []plan.Point, err error) {
	for _, t := range g.things {
		for _, l := range t.Lines {
			if out != nil {
				return nil, usagef("%s: holds more than one line, want one route", g.planning.area)
			}
			out = g.points(l)
		}
	}
	if g.planning.corridor == 0 {
		return nil, usagef("%s: holds a route: give the half width of its corridor, --corridor", g.planning.area)
	}
	return out, nil
}

// keepOuts returns the places to be kept clear of, on the grid.
func (g *planGround) keepOuts() (out []plan.KeepOut) {
	for i, t := range g.keep {
		name, radius := t.Name, t.Radius
		if name == "" {
			name = fmt.Sprintf("keep-out %d", i+1)
		}
		if radius == 0 {
			radius = g.planning.keepClear
		}
		for _, poly := range t.Polygons {
			out = append(out, plan.KeepOut{Name: name, Path: g.points(poly.Outer), Ring: true, Radius: radius})
		}
		for _, l := range t.Lines {
			out = append(out, plan.KeepOut{Name: name, Path: g.points(l), Radius: radius})
		}
		for _, at := range t.Points {
			out = append(out, plan.KeepOut{Name: name, Path: g.points([]areas.Position{at}), Radius: radius})
		}
	}
	return out
}

func (g *planGround) points(list []areas.Position) []plan.Point {
	out := make([]plan.Point, len(list))
	for i, at := range list {
		x, y := g.place.FromLatLon(geodesy.Degrees(at.Lat, at.Lon))
		out[i] = plan.Point{X: x, Y: y}
	}
	return out
}
