package sonar

import (
	"math"

	"dryline/seabed"
	"dryline/sonar/lanes"
)

// turned is the factor by which a facet of furnished ground answers over what it would as the straight line that
// it is walked as, from sample i-1 of the furniture to sample i at a height above the datum: the sides of
// low things are upright, small ones are round, and what gleams does so where it faces the fish. Either
// counts for its length and its strength, each piece as it lies to the ray; 1 where there is
// nothing between the two.
//
// Taken alike for all channels, as materials answer alike at all frequencies, and over the whole
// of a facet that is lit in part.
func (st *strips) turned(strength *strengths, i int, z0, z1 float32, fish float64) float64 {
	f := &st.furniture
	st.corners = f.Between(st.corners[:0], i, z0)
	if len(st.corners) == 0 {
		return 1
	}
	g1 := float64(f.First+i+1) * lanes.Step
	from, to := seabed.Corner{G: g1 - lanes.Step, Z: float64(z0)}, seabed.Corner{G: g1, Z: float64(z1)}
	table := &strength[f.Class[i]]
	line := facing(table, from, to, fish)
	if line == 0 {
		return 1
	}
	sum, last := 0.0, from
	for _, c := range st.corners {
		sum += facing(table, last, c, fish)
		last = c
	}
	return (sum + facing(table, last, to, fish)) / line
}

// facing is the length of a facet times its strength, as far as it faces the fish, which is a height over
// the datum of the corners.
func facing(strength *[strengthSteps]float32, a, b seabed.Corner, fish float64) float64 {
	dg, rise := b.G-a.G, b.Z-a.Z
	g, drop := (a.G+b.G)/2, fish-(a.Z+b.Z)/2
	along := rise*g + dg*drop // length times range times the sine
	if along <= 0 {
		return 0
	}
	length := math.Sqrt(dg*dg + rise*rise)
	step := min(int(along/(length*math.Sqrt(g*g+drop*drop))*strengthSteps), strengthSteps-1)
	return length * float64(strength[step])
}
