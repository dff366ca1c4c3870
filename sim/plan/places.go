package plan

import "math"

// Risk is why the fish is at risk somewhere.
type Risk string

// The risks.
const (
	NoRisk  Risk = ""
	Rising  Risk = "rising"  // the floor rises faster than the winch hauls: the fish has less than half its height
	Sinking Risk = "sinking" // in a turn the fish has less than half its height
)

// Place is one along a plan, with the fish as the winch keeps it.
type Place struct {
	At     Point
	Line   int     // that is run, or was before the turn
	Turn   bool    // it is in the turn after the line
	Depth  float64 // at low water, metres
	Fish   float64 // depth of the fish, metres
	Height float64 // of the fish over the floor, metres
	Risk   Risk
}

// places are the places of a plan, one every few metres of its lines and a few seconds of its turns. Where
// the water is too shallow for the fish no line is laid, and no place is here.
func (c *crew) places(p *Plan) (out []Place) {
	const every = 8.0 // metres
	s := c.s
	for i := range p.Lines {
		l := &p.Lines[i]
		held := math.NaN()
		for u := 0.0; u <= l.Length(); u += every {
			at := l.on(u)
			d, known := s.Ground.DepthAt(at.X, at.Y)
			if !known {
				continue
			}
			// As the checks have it: the winch goes after what is wanted, as fast as it can.
			want := c.cableAt(at)
			if math.IsNaN(held) {
				held = want
			}
			most := s.Gear.Winch.Rate * every / s.Speed
			held += min(max(want-held, -most), most)
			low := d - s.LowWater
			deep := c.cables.depth(held) - s.LowWater // worked by its height, the fish goes down with the water
			q := Place{At: at, Line: i, Depth: low, Fish: max(deep, 0), Height: low - deep}
			if q.Height < 0.5*s.Height {
				q.Risk = Rising
			}
			out = append(out, q)
		}
	}
	for i := range p.Turns {
		if c.step() {
			return out
		}
		n := 0
		c.through(p, i, p.TurnHaul, func(at Point, fish, height float64) {
			if n++; n%4 != 1 && height >= 0.5*s.Height {
				return
			}
			q := Place{At: at, Line: p.Turns[i].After, Turn: true, Depth: fish + height, Fish: fish, Height: height}
			if height < 0.5*s.Height {
				q.Risk = Sinking
			}
			out = append(out, q)
		})
	}
	return out
}
