package plan

import (
	"dryline/vessel"
)

// turns lays the ways between lines, as the autopilot would, and says how long they are
// and how many are not safe.
func (c *crew) turns(lines []Line, kind vessel.Turn) (turns []Turn, length float64, unsafe int) {
	for i := 1; i < len(lines); i++ {
		before, after := &lines[i-1], &lines[i]
		end := before.on(before.Length() + c.s.RunOut + c.layback)
		start := after.on(-c.runIn - c.layback)
		t := Turn{After: i - 1, Before: i, Path: vessel.PlanTurn(kind,
			vessel.Waypoint{X: end.X, Y: end.Y, Bearing: before.bearing()},
			vessel.Waypoint{X: start.X, Y: start.Y, Bearing: after.bearing()}, c.s.TurnRadius)}
		ship, fish := c.ways(&t, before)
		for k := range ship {
			if t.Unsafe = c.unsafe(ship[k]); t.Unsafe == "" {
				t.Unsafe = c.unsafe(fish[k])
			}
			if t.Unsafe != "" {
				unsafe++
				break
			}
		}
		length += t.Path.Length()
		turns = append(turns, t)
	}
	return turns, length, unsafe
}

// ways are the ways of vessel and fish through a turn, a place every few metres.
func (c *crew) ways(t *Turn, before *Line) (ship, fish []Point) {
	const step = 6.0
	for s := 0.0; ; s += step {
		w, _ := t.Path.At(min(s, t.Path.Length()))
		ship = append(ship, Point{w.X, w.Y})
		if s >= t.Path.Length() {
			break
		}
	}
	return ship, chase(ship, c.layback, before.on(before.Length()+c.s.RunOut))
}
