package main

import (
	_ "embed"
	"fmt"

	"dryline/scenarios"
	"dryline/seabed"
	"dryline/seabed/placing"
	"dryline/sim"
	"dryline/sim/exercise"
)

//go:embed ground.yaml
var ground []byte

// survey is one to fly: parallel lines northward and back over sand.
type survey struct {
	lines   int
	length  float64 // of each, metres
	scale   float64 // range on each side, metres
	objects int     // strewn over all that the lines cover
}

// usual is the survey where nothing else is said.
var usual = survey{lines: 4, length: 300, scale: 50, objects: 10}

const (
	margin = 150.0 // of the world about the lines, metres
	apart  = 1.1   // range scales from line to line
)

// spacing is from line to line, metres.
func (v survey) spacing() float64 { return apart * v.scale }

// area is the ground that the lines cover, square metres.
func (v survey) area() float64 { return float64(v.lines) * v.spacing() * v.length }

// exercise writes the survey down.
func (v survey) exercise() (*exercise.Exercise, error) {
	ex, err := scenarios.Parse("ground.yaml", ground)
	if err != nil {
		return nil, err
	}
	wide := float64(v.lines-1) * v.spacing()
	ex.Seabed.East, ex.Seabed.North = 2*margin+wide, 2*margin+v.length
	ex.Sonar.RangeScale = v.scale
	ex.Lines, ex.Plan.Order = nil, nil
	for i := range v.lines {
		x := margin + float64(i)*v.spacing()
		ex.Lines = append(ex.Lines, exercise.Line{Name: fmt.Sprintf("L%d", i+1), A: seabed.Point{X: x, Y: margin}, B: seabed.Point{X: x, Y: margin + v.length}})
		ex.Plan.Order = append(ex.Plan.Order, exercise.Run{Line: i, Reversed: i%2 == 1})
	}
	half := v.spacing() / 2
	west, east, south, north := margin-half, margin+wide+half, margin, margin+v.length
	group := placing.Group{
		Name: "thing", Fewest: v.objects, Most: v.objects,
		Kinds: []placing.Choice{{Kind: "boulder", Weight: 4}, {Kind: "tyre", Weight: 3}, {Kind: "block", Weight: 2}, {Kind: "pipe", Weight: 1}},
		Area:  seabed.Area{Polygon: []seabed.Point{{X: west, Y: south}, {X: east, Y: south}, {X: east, Y: north}, {X: west, Y: north}}},
	}
	ex.Seabed.Objects, err = placing.Place(&group, &ex.Seabed, seabed.New(ex.Seabed, ex.Seed), 1)
	return ex, err
}

// flown holds the outcome of a survey.
type flown struct {
	simulated float64 // seconds
	pings     int     // logged or not
}

// fly flies it from its first tick to its last, the desk's mosaic included.
func (v survey) fly() (flown, error) {
	ex, err := v.exercise()
	if err != nil {
		return flown{}, err
	}
	s, err := sim.New(ex, ex.Seed)
	if err != nil {
		return flown{}, err
	}
	s.Workers = 1
	s.AttachMate()
	var f flown
	s.Observe(sim.Observer{Ping: func(*sim.Ping) { f.pings++ }})
	for !s.Done() {
		s.Advance(100)
	}
	f.simulated = s.Now()
	return f, nil
}
