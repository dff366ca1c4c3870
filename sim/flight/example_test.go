package flight_test

import (
	"context"
	"fmt"

	"dryline/scenarios"
	"dryline/sim"
	"dryline/sim/exercise"
	"dryline/sim/flight"
	"dryline/sim/order"
	"dryline/sim/product"
)

// A session driven from code: its exercise from the built-in ones, orders of one's
// own, the products in memory.
func ExampleFlight() {
	ex, err := scenarios.Find("first-line")
	if err != nil {
		fmt.Println(err)
		return
	}
	s, err := sim.New(ex, 11)
	if err != nil {
		fmt.Println(err)
		return
	}
	var files product.Memory
	f := flight.Flight{Session: s, Sink: &files, Orders: []order.Command{
		{Tick: 0, Do: order.Speed, Value: 2},
		{Tick: 400, Do: order.LogOn, Line: "A"},
		{Tick: 500, Do: order.Finish},
	}}
	report, err := f.Fly(context.Background())
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(report.Lines[0].Name, report.Partial, files.Content("mosaic.tif") != nil)
	// Output: A true true
}

// Pings taken out of a session as they come, with what is true of them.
func Example_pings() {
	ex, err := scenarios.Find("first-line")
	if err != nil {
		fmt.Println(err)
		return
	}
	s, err := sim.NewSeeded(ex, exercise.Seeds{One: 3, Ground: 3, Placed: 3, Weather: 8, Sonar: 3}) // other weather
	if err != nil {
		fmt.Println(err)
		return
	}
	pings, samples := 0, 0
	s.Observe(sim.Observer{
		Truth: true,
		Ping: func(p *sim.Ping) {
			pings++
			samples = len(p.Port[0])
			if off := p.Truth.Pose.X - p.Fix.X; off > 20 || off < -20 {
				fmt.Println("the desk is lost")
			}
		},
	})
	s.Advance(300) // thirty seconds
	fmt.Println(pings > 100, samples)
	// Output: true 2000
}
