package main

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/stat"

	"dryline/sonar"
)

// What stands up faces the sonar first: bright, then dark. What is sunk, dark first.
func TestMoundIsBrightFirst(t *testing.T) {
	t.Parallel()
	for _, half := range []struct {
		name  string
		m     *measured
		first bool
	}{{"mound", left(t, "mound"), true}, {"pockmark", right(t, "mound"), false}} {
		found := 0
		for y := 153.0; y < 222; y += 0.5 {
			i0, i1 := half.m.pings(y-0.25, y+0.25)
			_, at := half.m.extremes(stb, i0, i1, 9, 24, 0.5)
			if half.m.level(stb, i0, i1, at-0.25, at+0.25) > 0.25 {
				continue
			}
			found++
			bright, _ := half.m.extremes(stb, i0, i1, at-2.2, at+2.2, 0.4)
			if v := half.m.level(stb, i0, i1, bright-0.2, bright+0.2); v < 1.3 || (bright < at) != half.first {
				t.Errorf("%s at %.1f m, %.1f m out: brightest at %.1f m (level %.2f)", half.name, y-150, at, bright, v)
			}
		}
		if found < 4 {
			t.Errorf("%d cuts through a %s, want 4", found, half.name)
		}
	}
}

// The end of a dump's shadow is a straight line, within what speckle leaves; the ends of
// an outcrop's shadows are not.
func TestDumpHasAStraightCrest(t *testing.T) {
	t.Parallel()
	crooked := func(m *measured, from, to float64) float64 {
		var along, tips []float64
		for y := from; y < to; y += 1.2 {
			i0, i1 := m.pings(y-0.6, y+0.6)
			tip := 0.0
			for r := 15.0; r < 36; r += 0.1 {
				if m.level(stb, i0, i1, r-0.2, r+0.2) < 0.3 {
					tip = r
				}
			}
			if tip > 0 {
				along, tips = append(along, y), append(tips, tip)
			}
		}
		if len(tips) < 12 {
			t.Fatalf("%d shadows found", len(tips))
		}
		a, b := stat.LinearRegression(along, tips, nil, false)
		sum := 0.0
		for i, y := range along {
			d := tips[i] - a - b*y
			sum += d * d / float64(len(along))
		}
		return math.Sqrt(sum)
	}
	within(t, "the end of the dump's shadow off a straight line, metres", crooked(left(t, "dump"), 172, 208), 0, 0.4)
	within(t, "those of an outcrop, metres", crooked(right(t, "dump"), 178, 204), 0.9, 20)
}

// Gravel carries ripples of its own length, spoil none of any: power along the ground
// range at that length over the power at lengths about it.
func TestLagCarriesRipples(t *testing.T) {
	t.Parallel()
	power := func(m *measured, length float64) float64 {
		sum := 0.0
		for y := 155.0; y < 174; y += 1.5 {
			i0, i1 := m.pings(y-0.5, y+0.5)
			h := m.height(i0, i1)
			var re, im float64
			for g := 26.0; g < 26+6*lagWave; g += 0.1 {
				r := math.Hypot(g, h)
				v := m.level(stb, i0, i1, r-0.06, r+0.06)
				sin, cos := math.Sincos(2 * math.Pi * g / length)
				re, im = re+v*cos, im+v*sin
			}
			sum += re*re + im*im
		}
		return sum
	}
	// Six periods: the window has its nulls a sixth off.
	peak := func(m *measured) float64 {
		return power(m, lagWave) / average([]float64{power(m, lagWave*6/4), power(m, lagWave*6/5), power(m, lagWave*6/7), power(m, lagWave*6/8)})
	}
	within(t, "ripples on gravel, power over that beside", peak(right(t, "spoil")), 5, 1e6)
	within(t, "ripples on spoil", peak(left(t, "spoil")), 0, 2.5)
}

// A hole in a meadow is sunk: sand in the shadow of its near edge is black, in the middle
// ranges where the floor nowhere else is. Shells lie flat and throw no shadow.
func TestBlowOutLiesDeeper(t *testing.T) {
	t.Parallel()
	dark := func(m *measured) (share float64) {
		n := 0.0
		for i := 0; i+10 <= len(m.heard); i += 10 {
			for r := 13.0; r < 24; r += 0.4 {
				if m.level(stb, i, i+10, r, r+0.4) < 0.3 {
					share++
				}
				n++
			}
		}
		return share / n
	}
	within(t, "share of black floor in the meadow", dark(left(t, "meadow")), 0.005, 0.2)
	within(t, "share of black floor among shells", dark(right(t, "meadow")), 0, 0.0005)
}

// A trail leads down the current on both sides of the ship, brighter than what was there
// without it; a shadow leads away from her.
func TestTrailPointsDownTheCurrent(t *testing.T) {
	t.Parallel()
	with, without := left(t, "trail"), right(t, "trail")
	level := func(m *measured, x, y float64) float64 {
		i0, i1 := m.pings(y-0.5, y+0.5)
		off, side := x-m.at(i0, i1).X, stb
		if off < 0 {
			off, side = -off, sonar.Port
		}
		r := math.Hypot(off, m.height(i0, i1))
		return m.level(side, i0, i1, r-0.3, r+0.3)
	}
	sin, cos := math.Sincos(trailBearing)
	for _, o := range boulders {
		before, after := 0.0, 0.0
		for d := 2.5; d < 6; d += 0.5 {
			after += level(with, o.At.X+d*sin, o.At.Y+d*cos)
			before += level(without, o.At.X+d*sin, o.At.Y+d*cos)
		}
		within(t, "boulder "+o.Name+": the trail over the sand that was there", after/before, 1.2, 4)
		away := math.Copysign(2, o.At.X-150)
		for _, m := range []*measured{with, without} {
			within(t, "boulder "+o.Name+": its shadow", level(m, o.At.X+away, o.At.Y), 0, 0.3)
		}
	}
}
