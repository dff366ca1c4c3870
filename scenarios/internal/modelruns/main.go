// Modelruns writes the model run of an exercise: a file of orders that passes it, for
// dryline run EXERCISE --orders FILE. The mate's own orders sail it; then every object
// that some line shows is marked, measured and classed, by somebody who knows the
// truth. It is made, not recorded: go generate ./scenarios makes them all anew.
//
//	go run dryline/scenarios/internal/modelruns FOLDER [EXERCISE...]
package main

import (
	"bufio"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"

	"dryline/scenarios"
	"dryline/seabed"
	"dryline/sim"
	"dryline/sim/debrief"
	"dryline/sim/exercise"
	"dryline/sim/order"
	"dryline/sim/survey"
)

func main() {
	if len(os.Args) < 2 {
		fmt.Fprintln(os.Stderr, "modelruns: want a folder, and exercises or none for all")
		os.Exit(2)
	}
	names := os.Args[2:]
	if len(names) == 0 {
		for _, e := range scenarios.Embedded() {
			names = append(names, e.Name)
		}
	}
	for _, name := range names {
		points, err := write(os.Args[1], name)
		if err != nil {
			fmt.Fprintf(os.Stderr, "modelruns: %s: %v\n", name, err)
			os.Exit(1)
		}
		fmt.Printf("%-24s %s\n", name, points)
	}
}

func write(folder, name string) (points string, err error) {
	ex, err := scenarios.Find(name)
	if err != nil {
		return "", err
	}
	orders, err := sail(ex)
	if err != nil {
		return "", err
	}
	file, err := os.Create(filepath.Join(folder, name+".jsonl"))
	if err != nil {
		return "", err
	}
	defer file.Close()
	w := bufio.NewWriter(file)
	enc := json.NewEncoder(w)
	for _, c := range orders {
		if err := enc.Encode(c); err != nil {
			return "", err
		}
	}
	if err := w.Flush(); err != nil {
		return "", err
	}
	s, err := sim.New(ex, ex.Seed)
	if err != nil {
		return "", err
	}
	witness := sim.Attend(s)
	if err := s.Follow(orders, order.ToTheEnd, nil); err != nil {
		return "", err
	}
	r := debrief.Make(s, witness)
	return fmt.Sprintf("%.1f (%.1f to %.1f) %s", r.Score.Points, r.Score.Low, r.Score.High, r.Score.Verdict), file.Close()
}

// knowing lists what somebody does otherwise who has read the briefing well: what the plan
// has wrong on purpose, for the mate's run of it, and orders before the start.
var knowing = map[string]func(*exercise.Exercise) []order.Command{
	"pings-on-target": func(ex *exercise.Exercise) []order.Command {
		ex.Plan.Speed = 2.0 // c/(2 R v) is 4.9 pings a metre
		return nil
	},
	"hidden-offset": func(ex *exercise.Exercise) []order.Command {
		return []order.Command{{Do: order.TowOffset, Value: ex.Vessel.Antenna.Forward - ex.Vessel.Sheave.Forward}}
	},
	"confidence-check": func(ex *exercise.Exercise) []order.Command {
		// Rubbed, seen to, rubbed again, and only then streamed.
		return []order.Command{
			{Tick: 0, Do: order.Speed, Value: 0.5}, {Tick: 20, Do: order.Rub, Number: 1}, {Tick: 80, Do: order.Rub, Number: 2},
			{Tick: 140, Do: order.Mend}, {Tick: 1050, Do: order.Rub, Number: 1}, {Tick: 1110, Do: order.Rub, Number: 2},
			{Tick: 1170, Do: order.Speed, Value: ex.Plan.Speed},
		}
	},
	"fault-watch": func(ex *exercise.Exercise) []order.Command {
		return []order.Command{{Do: order.CallTraffic, Text: ex.Traffic[0].Name}}
	},
	"two-cables": func(ex *exercise.Exercise) []order.Command {
		// The chord over the cable of the steady tow: what the passes would tell.
		tow := ex.Tow.Steady(ex.Plan.Speed, ex.Plan.CableOut, ex.Vessel.Sheave.Up)
		factor := math.Hypot(tow.Layback, tow.Depth+ex.Vessel.Sheave.Up) / ex.Plan.CableOut
		return []order.Command{{Do: order.Factor, Value: math.Round(factor*1000) / 1000}}
	},
}

// sail has the mate sail an exercise and then has what it shows reported.
func sail(ex *exercise.Exercise) ([]order.Command, error) {
	sailed := *ex
	ex = &sailed
	var before []order.Command
	if know := knowing[ex.Name]; know != nil {
		before = know(ex)
	}
	s, err := sim.New(ex, ex.Seed)
	if err != nil {
		return nil, err
	}
	witness := sim.Attend(s)
	if err := s.Give(order.Command{Do: order.Lookout, Value: 0}); err != nil {
		return nil, err
	}
	for _, c := range before { // in the order of time; the mate takes over when all are given
		s.Advance(int(c.Tick - s.Ticks()))
		if err := s.Give(c); err != nil {
			return nil, err
		}
	}
	s.AttachMate()
	for !s.Done() {
		s.Advance(600)
	}
	if err := s.Refused(); err != nil {
		return nil, err
	}
	orders := s.Commands
	finish := orders[len(orders)-1]
	orders = orders[:len(orders)-1]
	r := debrief.Make(s, witness)
	number := 0
	for _, e := range debrief.Evidences(s, witness, &r) {
		if e.Target < 0 || !r.Targets[e.Target].ThreePings {
			continue
		}
		number++
		orders = append(orders, report(s, &e, number, finish.Tick)...)
	}
	if ex.Score.Gates.Recovered > 0 { // the mate does not bring the fish home
		orders = append(orders, order.Command{Tick: finish.Tick, Do: order.Speed, Value: 1}, order.Command{Tick: finish.Tick, Do: order.Cable, Value: ex.Tow.Winch.Min})
		finish.Tick += 600
	}
	return append(orders, finish), nil
}

// report are the orders that report an object.
func report(s *sim.Session, e *debrief.Evidence, number int, tick int64) []order.Command {
	out := []order.Command{{Tick: tick, Do: order.Mark, X: e.X, Y: e.Y, Ping: e.Ping}}
	objects := s.Exercise.Seabed.Objects
	if e.Target >= len(objects) {
		return append(out, order.Command{Tick: tick, Do: order.ClassContact, Number: number, Text: "pipe_or_cable"})
	}
	o := objects[e.Target].Whole()
	out = append(out, order.Command{Tick: tick, Do: order.ClassContact, Number: number, Text: string(classOf(&o))})
	sin, cos := math.Sincos(o.Heading)
	half := max(o.Length/2, 0.1)
	out = append(out, order.Command{
		Tick: tick, Do: order.Measure, Number: number, Text: string(survey.Length), Ping: e.Ping,
		X: e.X - half*sin, Y: e.Y - half*cos, X2: e.X + half*sin, Y2: e.Y + half*cos,
	})
	p := pingOf(s, e)
	proud := o.Height - o.Burial
	if p == nil || proud < 0.1 || proud >= 0.9*p.Height {
		return out
	}
	// H = h S/(G+S), so a height H throws a shadow S = H G/(h-H) from G on (IHO C-13,
	// chapter 4, 2.3.11.4).
	dx, dy := e.X-p.Fix.X, e.Y-p.Fix.Y
	g := math.Hypot(dx, dy)
	long := proud * g / (p.Height - proud)
	if g+long > s.Exercise.Sonar.RangeScale {
		return out
	}
	return append(out, order.Command{
		Tick: tick, Do: order.Measure, Number: number, Text: string(survey.Shadow), Ping: e.Ping,
		X: e.X, Y: e.Y, X2: e.X + dx/g*long, Y2: e.Y + dy/g*long,
	})
}

func pingOf(s *sim.Session, e *debrief.Evidence) *survey.PingRecord {
	if e.Line >= len(s.Desk.Lines) {
		return nil
	}
	l := s.Desk.Lines[e.Line]
	for i := range l.Pings {
		if l.Pings[i].Number == e.Ping {
			return &l.Pings[i]
		}
	}
	return nil
}

// classOf returns the class that a surveyor would give an object.
func classOf(o *seabed.Object) survey.Class {
	switch o.Kind {
	case "hulk":
		return "wreck"
	case "boulder":
		return "boulder"
	case "pipe":
		return "pipe_or_cable"
	case "block", "anchor":
		return "mooring"
	}
	return "debris"
}
