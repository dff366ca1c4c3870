package sonar

import (
	"fmt"
	"math"

	"dryline/seabed/chance"
)

// column is a Seep ready to be sounded: puffs of bubbles that leave the mouth
// at random, rise at a steady speed, spread as they rise and lean with the
// current:
//
//	x(h) = X + CurrentX h/Rise
//
// at h above the mouth. Bubbles of some millimetres rise at 0.2 to 0.3 m/s (Clift,
// Grace and Weber, Bubbles, Drops, and Particles, 1978; from memory); the
// strength of the column is the exercise's. Left out: bubbles that dissolve or
// grow on the way up, and their shadow, which is faint.
type column struct {
	Seep
	leanX, leanY float64 // metres for each metre up
	seed         uint64
}

// puffs lie this far apart up the column, metres.
const puffStep = 0.12

func newColumn(s *Seep, currentX, currentY float64, seed uint64, index int) *column {
	rise := max(s.Rise, 0.01)
	return &column{*s, currentX / rise, currentY / rise, chance.Seed(seed, fmt.Sprint("sonar/seep", index))}
}

func (s *column) add(a *arrival) {
	height := a.pose.Surface - s.Z
	end := float64(len(a.intensity)) * a.engine.bin
	lean := height * max(math.Abs(s.leanX), math.Abs(s.leanY))
	dx, dy := s.X-a.pose.X, s.Y-a.pose.Y
	if along, across := a.ahead(dx, dy); math.Abs(along) > a.lobeEdge(end)+2*lean+s.Width*4 || math.Abs(across) > end+2*lean {
		return
	}
	// Puffs are numbered from the first that ever left the mouth.
	out := a.pose.Time * s.Rise / puffStep
	sigma := math.Pow(10, s.Strength/10) * puffStep
	sin, cos := math.Sincos(a.pose.Heading)
	for n := math.Floor(out); ; n-- {
		h := (out - n) * puffStep
		if h > height {
			return
		}
		bits := chance.Mix(s.seed ^ uint64(int64(n)))
		wide := s.Width / 2 * (1 + h/10)
		px := dx + s.leanX*h + wide*(2*fraction(bits)-1)
		py := dy + s.leanY*h + wide*(2*fraction(bits>>32)-1)
		along, across := px*sin+py*cos, px*cos-py*sin
		z := s.Z + h - a.pose.Z
		r := math.Sqrt(px*px + py*py + z*z)
		if math.Abs(along) > a.lobeEdge(r) || (across > 0) != (a.side == Starboard) {
			continue
		}
		// The mouth sputters: puffs differ.
		a.target(sigma*2*fraction(chance.Mix(bits)), along, r, -z/r)
	}
}
