package crew

import (
	"slices"

	"dryline/sim/survey"
)

// Rows hands over the pings since the last call.
func (c *Crew) Rows(dst []Ping) []Ping {
	c.out.Lock()
	defer c.out.Unlock()
	dst = append(dst, c.pings...)
	clear(c.pings)
	c.pings = c.pings[:0]
	return dst
}

// Tiles hands over at most n tiles that changed since they were last handed
// over.
func (c *Crew) Tiles(n int) []*Tile {
	c.out.Lock()
	defer c.out.Unlock()
	var out []*Tile
	for key, t := range c.tiles {
		if len(out) == n {
			break
		}
		out = append(out, t)
		delete(c.tiles, key)
	}
	return out
}

// kept is a copy of both sides of a row.
func kept(r survey.Row) [2][]uint8 {
	both := make([]uint8, len(r.Port)+len(r.Starboard))
	copy(both, r.Port)
	copy(both[len(r.Port):], r.Starboard)
	return [2][]uint8{both[:len(r.Port)], both[len(r.Port):]}
}

// heard reports a side with anything but zeroes.
func heard(side []uint8) bool {
	return slices.ContainsFunc(side, func(v uint8) bool { return v > 0 })
}

// take keeps a row for the window.
func (c *Crew) take(p survey.LivePing) {
	c.height, c.next = p.Height, p.Number+1
	c.levels = append(c.levels[:0], p.Levels...)
	c.unseen.take(c, &p)
	row := Ping{
		Number: p.Number, Fix: p.Fix, Height: p.Height, RangeScale: p.RangeScale,
		Locked: p.Locked, Line: p.Line,
	}
	for c := range p.Rows {
		row.Rows, row.Plain = append(row.Rows, kept(p.Rows[c])), append(row.Plain, kept(p.Plain[c]))
		row.Echo = append(row.Echo, heard(p.Rows[c].Port) || heard(p.Rows[c].Starboard))
	}
	c.out.Lock()
	if len(c.pings) < mostPings {
		c.pings = append(c.pings, row)
	}
	c.out.Unlock()
}
