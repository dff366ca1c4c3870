package seabed

import (
	"math"
	"math/rand/v2"
)

// A pot as fished from small boats: measures in metres, common practice.
const (
	potLength = 0.75
	potWidth  = 0.50
	potHeight = 0.42
	potsApart = 18.0
	rope      = 0.010 // radius
)

// buildPotString makes lobster pots joined by a ground line that lifts a
// little between them, with a line from one end up to a sunk buoy as high as
// the object.
func buildPotString(s *shape, o *Object, rng *rand.Rand) {
	n := max(2, int((o.Length-2*potLength)/potsApart)+1)
	high := min(potHeight, o.Height)
	swing := max(o.Width/2-potLength, 0)
	pots := make([]vec, n)
	for i := range pots {
		x := (o.Length - 2*potLength) * (float64(i)/float64(n-1) - 0.5)
		pots[i] = vec{x, swing * (2*rng.Float64() - 1), 0}
		if i < 2 {
			pots[i].y = swing * float64(2*i-1)
		}
		potInto(s, o.Class, pots[i], high, 2*math.Pi*rng.Float64())
	}
	for i := 1; i < n; i++ {
		a, b := pots[i-1], pots[i]
		a.z, b.z = 0.6*high, 0.6*high
		// Slack bights lie down near the pots and float clear between them.
		down, up := a.towards(b, 0.12), a.towards(b, 0.88)
		down.z, up.z = rope, rope
		points := hanging(a, down, 0.05, 3)
		points = append(points, hanging(down, up, -min(0.35, 0.8*high), 14)[1:]...)
		points = append(points, hanging(up, b, 0.05, 3)[1:]...)
		s.lying(Rope, rope, points)
	}
	buoy := 0.14
	head := vec{pots[n-1].x - 0.03*o.Length, pots[n-1].y * 0.5, o.Height - buoy}
	foot := pots[n-1]
	foot.z = 0.6 * high
	s.lying(Rope, rope, hanging(foot, vec{head.x, head.y, head.z - buoy}, 0.1*o.Height, 12))
	s.rod(Rubber, buoy, head, head).lies = true
}

// lying joins the points by rods that count from the floor under each end.
func (s *shape) lying(class Class, radius float64, points []vec) {
	from := len(s.rods)
	s.line(class, radius, points...)
	for i := range s.rods[from:] {
		s.rods[from+i].lies = true
	}
}

// potInto makes one pot: a vault of netting on a base, with its frame's hoops.
func potInto(s *shape, class Class, at vec, high, yaw float64) {
	vault := []vec{}
	for i := range 7 {
		turn := math.Pi * float64(i) / 6
		vault = append(vault, vec{0, -potWidth / 2 * math.Cos(turn), high * (0.3 + 0.62*math.Sin(turn))})
	}
	vault[0].z, vault[6].z = 0, 0
	s.add(newLoft([]float64{-potLength / 2, potLength / 2}, [][]vec{vault, vault}), class, at.x, at.y, 0, yaw).lies = true
	hoop := make([]vec, len(vault))
	for i, v := range vault {
		hoop[i] = vec{0, v.y, v.z + 0.08*high}
	}
	for _, x := range []float64{-0.5, 0, 0.47} {
		body := newLoft([]float64{x * potLength, x*potLength + 0.025}, [][]vec{hoop, hoop})
		s.add(body, Steel, at.x, at.y, 0, yaw).lies = true
	}
}
