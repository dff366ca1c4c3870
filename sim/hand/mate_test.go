package hand

import (
	"errors"
	"slices"
	"testing"

	"dryline/seabed"
	"dryline/sim/exercise"
	"dryline/sim/order"
	"dryline/sim/survey"
	"dryline/vessel/nav"
)

// deck holds what a mate sees, set by hand, and takes down what he orders.
type deck struct {
	tick     int64
	reading  nav.Reading
	fix      survey.Fix
	steering order.Command
	given    []order.Command
	over     bool
}

func (d *deck) Tick() int64                     { return d.tick }
func (d *deck) Now() float64                    { return float64(d.tick) / 10 }
func (d *deck) Reading() nav.Reading            { return d.reading }
func (d *deck) Fix() survey.Fix                 { return d.fix }
func (d *deck) Steering() order.Command         { return d.steering }
func (d *deck) Ordered() (speed, cable float64) { return 2, d.reading.CableOut }
func (d *deck) Give(c order.Command) error {
	if d.over {
		return errors.New("the exercise is over")
	}
	d.given = append(d.given, c)
	d.over = c.Do == order.Finish
	return nil
}

// twoLines are lines of 100 m to the north, 50 m apart, run up and down, and a deck with the fish 8 m over
// a floor of 18 m on 30 m of cable.
func twoLines() (*exercise.Brief, *deck) {
	b := &exercise.Brief{
		Lines: []exercise.Line{{Name: "A", A: seabed.Point{X: 0, Y: 0}, B: seabed.Point{X: 0, Y: 100}}, {Name: "B", A: seabed.Point{X: 50, Y: 0}, B: seabed.Point{X: 50, Y: 100}}},
		Plan: exercise.Plan{
			Order: []exercise.Run{{Line: 0}, {Line: 1, Reversed: true}}, Speed: 2, RunOut: 10, Altitude: 8, AltitudeBand: 1, TurnHaul: 0.4,
		},
	}
	b.Tow.Winch.Min, b.Tow.Cable.Length = 2, 100
	d := &deck{tick: 1, reading: nav.Reading{CableOut: 30, FishDepth: 10, FishAltitude: 8, Valid: nav.FishAltitude | nav.FishDepth | nav.CableCounter}}
	return b, d
}

// at puts the fish so far north on a line and has the mate act.
func (d *deck) at(m *Mate, x, y float64) {
	d.tick += 1000 // the cable has settled
	d.fix.X, d.fix.Y = x, y
	m.Act(d)
}

// Where the last run-out ends and the cable is to be worked in the same tick, the exercise is over and the
// winch is left alone: an order then is refused, and a survey that has one refused fails.
func TestNothingIsOrderedAfterTheLastLine(t *testing.T) {
	b, d := twoLines()
	b.Plan.Order = b.Plan.Order[:1]
	m := NewMate(b)
	for _, y := range []float64{-5, 1, 50, 101} {
		d.at(m, 0, y)
	}
	d.reading.FishAltitude = 200 // one wild reading is enough for the smoothed height to leave the band
	d.at(m, 0, 120)
	if last := d.given[len(d.given)-1]; last.Do != order.Finish {
		t.Errorf("the last order is %v, want the end", last.Do)
	}
	if err := m.Refused(); err != nil {
		t.Errorf("an order was refused: %v", err)
	}
}

// Before a turn the plan's share of the cable is hauled in, in it nothing is paid out though the fish is high, and
// after it as much comes back as the depth of the next line asks for, by similar triangles.
func TestCableIsHauledInForATurn(t *testing.T) {
	b, d := twoLines()
	m := NewMate(b)
	cable := func() (out []float64) {
		for _, c := range d.given {
			if c.Do == order.Cable {
				out = append(out, c.Value)
			}
		}
		return out
	}
	for _, y := range []float64{-5, 1, 50, 101} {
		d.at(m, 0, y)
	}
	if got := cable(); !slices.Equal(got, []float64{18}) { // 30 less 40 %
		t.Fatalf("at the end of the line the cable is ordered to %v, want 18", got)
	}
	d.reading.CableOut, d.reading.FishDepth, d.reading.FishAltitude = 18, 6, 12
	d.at(m, 0, 115) // the turn begins
	d.at(m, 25, 130)
	if got := cable(); len(got) != 1 {
		t.Errorf("in the turn the cable is ordered to %v", got[1:])
	}
	// Over 23 m of water now: fifteen deep wants half as much cable again as ten did.
	d.reading.FishAltitude = 17
	d.steering = order.Command{Do: order.SteerLine, Line: "B"}
	d.at(m, 50, 130)
	if got := cable(); len(got) != 2 || got[1] != 45 {
		t.Errorf("on the next line the cable is ordered to %v, want 45 last", got)
	}
}
