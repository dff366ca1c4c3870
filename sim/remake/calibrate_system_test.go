package remake_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"dryline/seabed"
	"dryline/sim/exercise"
	"dryline/sim/order"
	"dryline/sim/simtest"
	"dryline/vessel/sea"
)

// The system is calibrated on a ball of about a metre by passes on both sides, near and
// far, in several directions (NOAA Field Procedures Manual 2014, 1.5.7.1.2), in a cross
// current that the swath is laid without: the crab, another on every course, shows in the
// radius, and with the swath laid by the fish's compass that is small.
func TestSystemCalibratedOnTheRecord(t *testing.T) {
	if testing.Short() {
		t.Skip("twelve passes take some seconds")
	}
	s, store := ball(t, func(ex *exercise.Exercise) {
		current, err := sea.NewProfile([]sea.Current{{Speed: 0.35, Set: 2}})
		if err != nil {
			t.Fatal(err)
		}
		ex.Sea.Current = current
		ex.Seabed.East, ex.Seabed.North = 600, 600
		ex.Plan.RunIn, ex.Plan.TimeLimit = 60, 5000
		ex.Lines, ex.Plan.Order = nil, nil
		// Twelve passes: each of three ways there and back, near and far.
		for i := range 12 {
			bearing := float64(i%3) * math.Pi / 3
			off := []float64{14, 36}[i/3%2]
			reversed := i/6 == 1
			sin, cos := math.Sincos(bearing)
			at := func(along float64) seabed.Point {
				return seabed.Point{X: ballAt.X + along*sin - off*cos, Y: ballAt.Y + along*cos + off*sin}
			}
			ex.Lines = append(ex.Lines, exercise.Line{Name: fmt.Sprintf("P%02d", i+1), A: at(-15), B: at(15)})
			ex.Plan.Order = append(ex.Plan.Order, exercise.Run{Line: i, Reversed: reversed})
		}
	}, nil)
	number := 0
	for run, line := range s.Desk.Lines {
		x, y, ok := bright(shown(t, s, store, run))
		if !ok {
			continue // the fish was too low to see that far
		}
		see, ok := line.Sighting(x, y)
		if !ok {
			t.Fatal("the echo is on no ping")
		}
		ping := line.Pings[see.Index].Number
		if number == 0 {
			simtest.Give(t, s, order.Command{Do: order.Mark, X: x, Y: y, Ping: ping})
			number = s.Desk.LastContact()
			continue
		}
		simtest.Give(t, s, order.Command{Do: order.SightContact, Number: number, X: x, Y: y, Ping: ping})
	}
	check := func() string {
		simtest.Give(t, s, order.Command{Do: order.CheckSystem, Number: number})
		c := s.Desk.Calibrated.System
		return fmt.Sprintf("%d found, %d missed, radius %.1f m (%.1f to %.1f), along %.1f, askew %.1f +- %.1f deg, lacking %v",
			c.Detections, c.Misses, c.Radius, c.RadiusLow, c.RadiusHigh, c.Along, c.Askew*180/math.Pi, c.AskewSigma*180/math.Pi, c.Lacking)
	}
	t.Log("by the course:", check())
	crabbed := *s.Desk.Calibrated.System
	simtest.Give(t, s, order.Command{Do: order.ReworkSwath, Text: "fish"}, order.Command{Do: order.ReworkPosition, Method: "heading"}, order.Command{Do: order.Rework})
	t.Log("by the compass:", check())
	mended := *s.Desk.Calibrated.System
	if len(s.Desk.Lines) != 12 || mended.Detections < 10 || len(mended.Lacking) > 0 {
		t.Errorf("%d lines, lacking %s", len(s.Desk.Lines), strings.Join(mended.Lacking, ", "))
	}
	if !mended.Met || mended.Radius > 2 || crabbed.Radius < 1.5*mended.Radius {
		t.Errorf("radius %.1f m by the course and %.1f by the compass (met: %v)", crabbed.Radius, mended.Radius, mended.Met)
	}
}
