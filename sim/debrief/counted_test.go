package debrief

import (
	"math"
	"testing"

	"dryline/seabed"
	"dryline/sim"
)

// straight is a fish that runs up x = 0 from y0 to y1, 8 m over the floor, a ping every
// so many metres, with 60 m of ground in reach of its record.
func straight(line int, x, y0, y1, step float64) []judged {
	var out []judged
	number := uint64(line * 100000)
	for y := y0; y <= y1; y += step {
		number++
		j := judged{
			truth: &sim.TruePing{Number: number, X: x, Y: y, Altitude: 8}, line: line, time: y / 2, whole: seen,
			reach: 40, beyond: outOfReach, ends: 60,
		}
		for side := range j.thirds {
			j.thirds[side] = [3]Reason{seen, seen, seen}
		}
		out = append(out, j)
	}
	return out
}

// Ground counted on cells against areas by plane geometry: the swath, its gap under the
// fish, what lies beyond its reach, two lines, and a record cut off in one third.
func TestCountedAgainstExactAreas(t *testing.T) {
	const cell = 0.25
	box := []seabed.Point{{X: -100, Y: 0}, {X: 100, Y: 0}, {X: 100, Y: 100}, {X: -100, Y: 100}}
	end := math.Hypot(60, 8)
	third := func(k float64) float64 { s := 8 + (end-8)*k/3; return math.Sqrt(s*s - 64) } // on the ground, from slant ranges
	for _, row := range []struct {
		name  string
		pings []judged
		want  map[Reason]float64 // square metres
	}{
		{"one line", straight(0, 0, -10, 110, 0.3), map[Reason]float64{seen: 2 * 40 * 100, outOfReach: 2 * 20 * 100, noSwath: 80 * 100}},
		{"half a line", straight(0, 0, 50, 110, 0.3), map[Reason]float64{seen: 2 * 40 * 50, outOfReach: 2 * 20 * 50, noSwath: 200*100 - 120*50}},
		{"two lines 60 m apart", append(straight(0, -30, -10, 110, 0.3), straight(1, 30, -10, 110, 0.3)...), map[Reason]float64{
			seenTwice: 20 * 100, seen: (140 - 20) * 100, outOfReach: 2 * 20 * 100, noSwath: 2 * 10 * 100}},
		{"a gap under the fish", each(straight(0, 0, -10, 110, 0.3), func(j *judged) { j.gap = 9 }), map[Reason]float64{
			underFish: 2 * 9 * 100, seen: 2 * 31 * 100, outOfReach: 2 * 20 * 100, noSwath: 80 * 100}},
		{"near ground cut off to starboard", each(straight(0, 0, -10, 110, 0.3), func(j *judged) { j.thirds[1][0] = clipped }), map[Reason]float64{
			clipped: third(1) * 100, seen: (80 - third(1)) * 100, outOfReach: 2 * 20 * 100, noSwath: 80 * 100}},
		{"logged in a turn", each(straight(0, 0, -10, 110, 0.3), func(j *judged) { j.whole = inTurn }), map[Reason]float64{
			inTurn: 120 * 100, outOfReach: 0, noSwath: 80 * 100, seen: 0}},
	} {
		t.Run(row.name, func(t *testing.T) {
			c := count(box, cell, row.pings)
			cells := c.shares()
			for r, want := range row.want {
				if got := float64(cells[r]) * cell * cell; math.Abs(got-want) > 0.01*20000 {
					t.Errorf("%s: %.0f m2, want %.0f", r, got, want)
				}
			}
			if c.inside != 200*100*16 {
				t.Errorf("%d cells in the area", c.inside)
			}
		})
	}
}

func each(list []judged, f func(*judged)) []judged {
	for i := range list {
		f(&list[i])
	}
	return list
}

// A swath on a slant, across a triangle: the share of it by the shoelace formula over the
// clipped polygon (Sutherland and Hodgman 1974).
func TestCountedAcrossATriangle(t *testing.T) {
	corners := []seabed.Point{{X: -60, Y: 0}, {X: 60, Y: 10}, {X: 0, Y: 90}}
	const heading = 0.6
	sin, cos := math.Sincos(heading)
	pings := each(straight(0, 0, -200, 200, 0.3), func(j *judged) {
		along := j.truth.Y
		j.truth.X, j.truth.Y, j.truth.Heading, j.reach, j.ends = along*sin+5, along*cos+20, heading, 25, 25
	})
	c := count(corners, 0.2, pings)
	cells := c.shares()
	got := float64(cells[seen]) * 0.2 * 0.2
	clip := corners
	for _, side := range []float64{1, -1} {
		// Keep what lies within 25 m of the track on that side.
		off := func(p seabed.Point) float64 { return side * ((p.X-5)*cos - (p.Y-20)*sin) }
		var next []seabed.Point
		for i, p := range clip {
			q := clip[(i+1)%len(clip)]
			a, b := off(p), off(q)
			if a <= 25 {
				next = append(next, p)
			}
			if (a <= 25) != (b <= 25) {
				f := (25 - a) / (b - a)
				next = append(next, seabed.Point{X: p.X + f*(q.X-p.X), Y: p.Y + f*(q.Y-p.Y)})
			}
		}
		clip = next
	}
	want := 0.0
	for i, p := range clip {
		q := clip[(i+1)%len(clip)]
		want += (p.X*q.Y - q.X*p.Y) / 2
	}
	if math.Abs(got-math.Abs(want)) > 0.005*math.Abs(want) {
		t.Errorf("%.1f m2 looked at, want %.1f", got, math.Abs(want))
	}
}
