package plan

import (
	"math"

	"dryline/vessel/tow"
)

// CableFor is the cable out that puts the fish at a depth in a straight tow, metres; ok
// is false if all of the cable does not.
func CableFor(gear *tow.Spec, speed, sheave, depth float64) (out float64, ok bool) {
	lo, hi := gear.Winch.Min, gear.Cable.Length
	if gear.Steady(speed, hi, sheave).Depth < depth {
		return hi, false
	}
	for range 40 {
		mid := (lo + hi) / 2
		if gear.Steady(speed, mid, sheave).Depth < depth {
			lo = mid
		} else {
			hi = mid
		}
	}
	return hi, true
}

// cables is CableFor by table: it is asked at every place of a plan.
type cables struct {
	step float64
	out  []float64 // by depth of the fish; NaN below what the cable reaches
	most float64   // depth of the fish on all the cable, metres
}

// cableTables keeps tables by what they hang on besides the gear, for those who make many plans with it.
type cableTables map[[2]float64]cables

func (s *Spec) cablesTo(deepest float64) cables {
	key := [2]float64{s.Speed, deepest}
	if c, ok := s.tables[key]; ok {
		return c
	}
	c := newCables(&s.Gear, s.Speed, s.SheaveUp, deepest)
	if s.tables != nil {
		s.tables[key] = c
	}
	return c
}

func newCables(gear *tow.Spec, speed, sheave, deepest float64) cables {
	c := cables{step: 0.5, most: gear.Steady(speed, gear.Cable.Length, sheave).Depth}
	for d := 0.0; d <= min(deepest, c.most)+c.step; d += c.step {
		out, ok := CableFor(gear, speed, sheave, d)
		if !ok {
			out = math.NaN()
		}
		c.out = append(c.out, out)
	}
	return c
}

func (c *cables) at(depth float64) float64 {
	if depth <= 0 {
		return c.out[0]
	}
	i := int(depth / c.step)
	if i+1 >= len(c.out) {
		return math.NaN()
	}
	t := depth/c.step - float64(i)
	return c.out[i] + t*(c.out[i+1]-c.out[i])
}

// depth is where so much cable puts the fish, metres.
func (c *cables) depth(out float64) float64 {
	for i := 1; i < len(c.out); i++ {
		if a, b := c.out[i-1], c.out[i]; b >= out || math.IsNaN(b) {
			if math.IsNaN(b) || b <= a {
				return float64(i-1) * c.step
			}
			return (float64(i-1) + max(out-a, 0)/(b-a)) * c.step
		}
	}
	return float64(len(c.out)-1) * c.step
}

// RunInFor is the straight run before a line, besides the layback, after which a fish
// that came out of a turn hanging as far to the side as its layback is back within a
// tolerance: a body on a line L closes on a straight course as exp(-s/L) (the tractrix), and the vessel runs the
// run-in and two laybacks before the fish is at the line's start.
func RunInFor(layback, tolerance float64) float64 {
	return max(layback*(math.Log(max(layback/tolerance, 1))-2), 0)
}

// Offset is how far to the side a stream carries the fish, metres: the tow lies along the
// water that comes at the vessel, stream m/s at an angle to her course in radians (IHO
// C-13, chapter 4, 2.3.9.6).
func Offset(layback, speed, stream, angle float64) float64 {
	return layback * math.Sin(math.Atan2(stream*math.Sin(angle), speed+stream*math.Cos(angle)))
}

// chase is the way of a fish on a line of some length behind a way of the vessel: at
// every step it is drawn towards her.
func chase(way []Point, length float64, start Point) []Point {
	out := make([]Point, len(way))
	f := start
	for i, p := range way {
		if d := math.Hypot(p.X-f.X, p.Y-f.Y); d > length && d > 0 {
			f.X, f.Y = p.X+(f.X-p.X)*length/d, p.Y+(f.Y-p.Y)*length/d
		}
		out[i] = f
	}
	return out
}

// RangeLimit is how far over the ground the floor is reached by a direct ray from a fish, metres:
// the farthest of rays sent at all angles, bent by Snell's law in water whose sound speed
// goes evenly between the points of a profile, that come to the floor without touching
// the surface. speed gives the sound speed at a depth; most is how far is looked.
func RangeLimit(speed func(depth float64) float64, fish, floor, most float64) float64 {
	const (
		angles = 400
		step   = 0.5 // metres along the ray
	)
	best := 0.0
	for k := range angles {
		a := -0.5 + float64(k)/angles*(math.Pi/2+0.5) // below the horizontal, radians
		z, x := fish, 0.0
		for x < most {
			c := speed(z)
			grad := (speed(z+0.5) - speed(z-0.5))
			// Down the ray cos(a)/c is kept: da/ds = -cos(a)/c dc/dz with a below the horizontal
			// bends towards less speed.
			a -= step * math.Cos(a) / c * grad
			z += step * math.Sin(a)
			x += step * math.Cos(a)
			if z <= 0 {
				break
			}
			if z >= floor {
				best = max(best, x)
				break
			}
		}
		if x >= most && z > 0 {
			return most // it still travels: nothing keeps it from the floor within reach
		}
	}
	return min(best, most)
}
