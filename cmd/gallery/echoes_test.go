package main

import (
	"math"
	"math/cmplx"
	"slices"
	"testing"

	"gonum.org/v1/gonum/mat"

	"dryline/sim/exercise"
	"dryline/sonar"
)

// The two marks keep their distance: across the track they cut the pings dy apart on
// both sides of nadir, and dy times the sine of their bearing is the spacing (plane
// geometry). The bearing comes from how they move along with the distance off track.
func TestTrawlMarksKeepTheirDistance(t *testing.T) {
	t.Parallel()
	m := left(t, "trawl")
	h := m.heard[0].height
	var apart []float64
	type point struct{ x, y float64 }
	var marks []point
	for _, x := range []float64{-34, -29, -24, -19, 19, 24, 29, 34} {
		side := sonar.Starboard
		if x < 0 {
			side = sonar.Port
		}
		r := math.Hypot(x, h)
		type cut struct{ y, level float64 }
		var cuts []cut
		for i := 4; i < len(m.heard)-4; i += 2 {
			cuts = append(cuts, cut{m.heard[i].pose.Y, m.level(side, i-4, i+4, r-0.25, r+0.25)})
		}
		slices.SortFunc(cuts, func(a, b cut) int { return int(math.Copysign(1, a.level-b.level)) })
		first := cuts[0]
		for _, c := range cuts { // the next darkest away from the darkest
			if math.Abs(c.y-first.y) > 5 {
				apart = append(apart, math.Abs(c.y-first.y))
				marks = append(marks, point{x, min(c.y, first.y)})
				break
			}
		}
	}
	// Where a door bit shallow, something else may be darker.
	sorted := slices.Sorted(slices.Values(apart))
	mean := sorted[len(sorted)/2]
	var a, b point
	kept := 0
	for i, v := range apart {
		if math.Abs(v-mean) > 0.1*mean {
			continue
		}
		if kept++; kept == 1 {
			a = marks[i]
		}
		b = marks[i]
	}
	if kept < 6 {
		t.Fatalf("the marks keep their distance at %d ranges of %d: %.1f", kept, len(apart), apart)
	}
	bearing := math.Atan2(b.x-a.x, b.y-a.y)
	near(t, "spacing of the trawl, metres", mean*math.Sin(bearing), trawlSpacing, 0.06*trawlSpacing)
}

// byPing is the level in blocks of pings between two slant ranges.
func byPing(m *measured, side sonar.Side, from, to float64) (levels []float64) {
	const block = 6
	for i := 0; i+block <= len(m.heard); i += block {
		levels = append(levels, m.level(side, i, i+block, from, to))
	}
	return levels
}

// Yaw goes by the ping: far ranges of one side rise and fall together, near ones
// hardly do, and the sides take turns. Trawl marks come to different ranges in
// different pings.
func TestYawGoesByThePing(t *testing.T) {
	t.Parallel()
	m, marks := right(t, "trawl"), left(t, "trawl")
	far, farther := byPing(m, stb, 32, 40), byPing(m, stb, 41, 49)
	within(t, "ranges together under yaw", correlation(far, farther), 0.7, 1)
	within(t, "ranges together over trawl marks", correlation(byPing(marks, stb, 32, 40), byPing(marks, stb, 41, 49)), -1, 0.4)
	within(t, "scatter near over far", deviation(byPing(m, stb, 10, 14))/deviation(farther), 0, 0.5)
	within(t, "port with starboard under yaw", correlation(farther, byPing(m, sonar.Port, 41, 49)), -1, -0.3)
}

// A ghost lies at half the sum of the straight way and the way by the surface, on
// which the fish seems to be as high above the surface as it is deep (mirror image),
// and takes nothing from the record behind it.
func TestGhostLiesAtHalfThePathSum(t *testing.T) {
	t.Parallel()
	without, with := left(t, "ghost"), right(t, "ghost")
	i0, i1 := with.pings(189, 191)
	// The foot of the container's wall (ISO 668), where wall and floor meet.
	x, h, depth := 172-2.44/2-with.at(i0, i1).X, with.height(i0, i1), with.depth(i0, i1)
	source := math.Hypot(x, h)
	want := (source + math.Hypot(x, h+2*depth)) / 2
	got, most := 0.0, 0.0
	for r := source + 2; r < 37; r += with.bin {
		if v := with.mean(stb, i0, i1, r-0.1, r+0.1) - without.mean(stb, i0, i1, r-0.1, r+0.1); v > most {
			got, most = r, v
		}
	}
	direct, _ := without.extremes(stb, i0, i1, 19, 24, 0.1)
	within(t, "slant range of the wall, metres", direct, math.Hypot(x, h-2.59), source)
	near(t, "slant range of the ghost, metres", got, want, 0.3)
	for r := want + 1; r < 49; r++ {
		if a, b := with.mean(stb, i0, i1, r, r+1), without.mean(stb, i0, i1, r, r+1); a < 0.98*b {
			t.Errorf("from %.0f m the record with the ghost is darker (%.0f counts) than without (%.0f): it throws a shadow", r, a, b)
		}
	}
}

// The surface is heard from the slant range of the fish's depth on, straight up.
func TestSurfaceEchoBeginsAtTheDepth(t *testing.T) {
	t.Parallel()
	with, without := right(t, "surface"), left(t, "surface")
	for _, side := range []sonar.Side{sonar.Port, sonar.Starboard} {
		i0, i1 := 0, len(with.heard)
		depth := with.depth(i0, i1)
		start := math.NaN()
		for r := 2.0; r < 10; r += with.bin {
			if with.mean(side, i0, i1, r, r+with.bin) > 1.5*without.mean(side, i0, i1, r, r+with.bin) {
				start = r
				break
			}
		}
		near(t, "surface echo begins, metres of slant range", start, depth, 0.2)
	}
}

// The second bottom echo begins at height and depth of the water together: down, up
// to the surface, down and up again, halved.
func TestSecondBottomBeginsAtHeightAndDepth(t *testing.T) {
	t.Parallel()
	without, with := left(t, "secondbottom"), right(t, "secondbottom")
	shallowest := math.Inf(1)
	for i := range with.heard {
		h := &with.heard[i]
		shallowest = min(shallowest, 2*h.height+h.pose.Depth())
	}
	near(t, "first sample that the second bottom changes, metres", differ(without, with, stb), shallowest, 0.5)
}

// Ripples turn in the record by as much as the heading does, the other way; hum keeps
// its spacing in slant range, c/(4f), for it comes twice a period.
func TestRipplesTurnAndHumStays(t *testing.T) {
	t.Parallel()
	for _, half := range []struct {
		m      *measured
		course float64
		change func(*exercise.Exercise)
	}{
		{left(t, "turned"), 0, sand(ripplesAndHum)},
		{right(t, "turned"), math.Atan2(179-121, 213-164), sand(ripplesAndHum, turned)},
	} {
		m := half.m
		const lobe = 2.6 // wavelength of the ripples, metres
		h := m.height(0, len(m.heard))
		sin, cos := math.Sincos(half.course)
		start := m.heard[0].pose
		best, most := 0.0, 0.0
		for turn := -80.0; turn <= 80; turn += 4 {
			for _, stretch := range []float64{0.9, 0.95, 1, 1.05, 1.1} {
				ky, kx := math.Sincos(turn * deg)
				kx, ky = kx*2*math.Pi/lobe*stretch, ky*2*math.Pi/lobe*stretch
				var sum complex128
				for i := 0; i < len(m.heard); i += 3 {
					p := &m.heard[i].pose
					along := (p.X-start.X)*sin + (p.Y-start.Y)*cos
					for x := 20.0; x < 36; x += 0.3 {
						k := int(math.Hypot(x, h) / m.bin)
						v := float64(m.heard[i].sides[stb][k])/m.usual[stb][k] - 1
						sum += complex(min(v, 3), 0) * cmplx.Exp(complex(0, -(kx*x+ky*along)))
					}
				}
				if v := cmplx.Abs(sum); v > most {
					best, most = turn, v
				}
			}
		}
		near(t, "direction across the ripples in the record, degrees", best, half.course/deg, 6)

		silent, err := measure(&view{caption: "without hum", change: func(ex *exercise.Exercise) {
			half.change(ex)
			ex.Sonar.Effects.Hum = sonar.Hum{}
		}})
		if err != nil {
			t.Fatal(err)
		}
		spacing := period(m, silent, 15, 49, 4, 9)
		near(t, "spacing of the hum, metres", spacing, m.exercise.Desk.SoundSpeed/(4*60), 0.1)
	}
}

// period is the length of the wave on what came in to starboard, as intensity, between
// two slant ranges, over what a quiet record of the same line has: that which, on a
// parabola, fits the mean of blocks of pings best.
func period(m, quiet *measured, from, to, shortest, longest float64) float64 {
	const block = 60
	k0, k1 := m.samples(from, to)
	blocks := len(m.heard) / block
	heard := mat.NewDense(k1-k0, blocks, nil)
	for k := k0; k < k1; k++ {
		gain := math.Pow(10, -m.exercise.Sonar.Channels[0].TVG(float64(k)*m.bin)/10)
		for i := range blocks * block {
			a, b := float64(m.heard[i].sides[stb][k]), float64(quiet.heard[i].sides[stb][k])
			heard.Set(k-k0, i/block, heard.At(k-k0, i/block)+(a*a-b*b)*gain)
		}
	}
	best, least := 0.0, math.Inf(1)
	for length := shortest; length < longest; length += 0.05 {
		design := mat.NewDense(k1-k0, 5, nil)
		for k := range k1 - k0 {
			x := float64(k) / float64(k1-k0)
			sin, cos := math.Sincos(2 * math.Pi * float64(k) * m.bin / length)
			design.SetRow(k, []float64{1, x, x * x, sin, cos})
		}
		var weights, rest mat.Dense
		if weights.Solve(design, heard) != nil {
			continue
		}
		rest.Mul(design, &weights)
		rest.Sub(heard, &rest)
		if v := mat.Norm(&rest, 2); v < least {
			best, least = length, v
		}
	}
	return best
}

// In water whose sound speed rises by g a metre rays are arcs: the last that reaches
// the floor leaves at cos(theta) = c/c_floor and takes (1/g) ln((1+sin)/cos) to where
// it grazes the floor (Snell; the integral over an arc is in any textbook on
// underwater sound, such as Urick, Principles of Underwater Sound, 1983; from memory).
// The same range on both sides and all along. Sand ends where it ends.
func TestEdgeOfTheRaysStaysInRange(t *testing.T) {
	t.Parallel()
	bent, mud := left(t, "edge"), right(t, "edge")
	// Beyond the edge there is noise alone, as loud as the receiver makes it: where
	// the record first rises over that on the way in.
	edge := func(i0, i1 int, side sonar.Side) float64 {
		gain := func(r float64) float64 {
			return math.Pow(10, bent.exercise.Sonar.Channels[0].TVG(r)/20)
		}
		noise := bent.mean(side, i0, i1, 72, 74) / gain(73)
		for r := 72.0; r > 30; r -= 0.25 {
			if bent.mean(side, i0, i1, r-0.5, r+0.5) > 1.15*noise*gain(r) {
				return r
			}
		}
		return math.NaN()
	}
	border := func(i0, i1 int) float64 {
		at, most := 0.0, 0.0
		for r := 30.0; r < 72; r += 0.25 { // the steepest fall
			if v := mud.mean(stb, i0, i1, r-3, r) / mud.mean(stb, i0, i1, r, r+3); v > most {
				at, most = r, v
			}
		}
		return at
	}
	n := len(bent.heard)
	c := bent.exercise.Sea.Water.Cast[0].SoundSpeed
	fish := bent.depth(0, n)
	floor := fish + bent.height(0, n)
	cos := (c + speedGradient*fish) / (c + speedGradient*floor)
	sin := math.Sqrt(1 - cos*cos)
	want := bent.exercise.Desk.SoundSpeed / speedGradient * math.Log((1+sin)/cos)
	for _, side := range []sonar.Side{sonar.Port, sonar.Starboard} {
		near(t, "edge of the rays at the start of the line, metres", edge(0, n/2, side), want, 0.05*want)
		near(t, "edge of the rays at its end, metres", edge(n/2, n, side), want, 0.05*want)
	}
	n = len(mud.heard)
	within(t, "how far the edge of the sand moves, metres", border(n-20, n)-border(0, 20), 10, 40)
}

// Cross-talk stands at the slant range of its source, in the same pings, and takes nothing
// from the floor behind; a container there has a shadow.
func TestCrossTalkHasNoShadow(t *testing.T) {
	t.Parallel()
	talk, two := left(t, "crosstalk"), right(t, "crosstalk")
	i0, i1 := talk.pings(188, 192)
	// The wall clips the record to starboard: the middles of what is bright.
	middle := func(side sonar.Side, bright float64) float64 {
		first := talk.find(side, i0, i1, 18, 30, 0.1, func(v float64) bool { return v > bright })
		last := talk.find(side, i0, i1, first+0.2, 30, 0.1, func(v float64) bool { return v < bright })
		return (first + last) / 2
	}
	source, repeat := middle(stb, 3), middle(sonar.Port, 1.6)
	near(t, "slant range of the repeated wall, metres", repeat, source, 0.2)
	within(t, "level of the repeated wall", talk.level(sonar.Port, i0, i1, repeat-0.1, repeat+0.1), 1.4, 10)
	within(t, "floor behind cross-talk", talk.level(sonar.Port, i0, i1, 26, 36), 0.85, 1.2)
	within(t, "floor behind the container", two.level(sonar.Port, i0, i1, 26, 36), 0, 0.2)
	i0, i1 = talk.pings(196, 200)
	within(t, "its place in pings that miss the source", talk.level(sonar.Port, i0, i1, repeat-0.1, repeat+0.1), 0.8, 1.25)
}

// Gas comes in puffs, fresh water does not: over pieces of a third of a metre the one
// record scatters far more about its mean than the other, which is wider. Either stands on
// one side of the water alone.
func TestGasIsGrainyAndFreshWaterSmooth(t *testing.T) {
	t.Parallel()
	look := func(m *measured) (scatter, wide float64) {
		lit, sum, square, n := 0.0, 0.0, 0.0, 0.0
		for r := 7.5; r < 10.5; r += 0.33 {
			var cells []float64
			for i := 0; i+4 <= len(m.heard); i += 4 {
				v := m.mean(stb, i, i+4, r, r+0.33) / m.mean(sonar.Port, 0, len(m.heard), r, r+0.33)
				cells = append(cells, v)
			}
			for i, v := range cells {
				if v < 3 {
					continue
				}
				lit++
				if i > 0 && i+1 < len(cells) && cells[i-1] > 3 && cells[i+1] > 3 { // within it
					sum, square, n = sum+math.Log(v), square+math.Log(v)*math.Log(v), n+1
				}
			}
		}
		for i := 0; i+50 <= len(m.heard); i += 50 {
			within(t, "water to port over its mean", m.mean(sonar.Port, i, i+50, 7.5, 10.5)/m.mean(sonar.Port, 0, len(m.heard), 7.5, 10.5), 0.9, 1.1)
		}
		return math.Sqrt(square/n - sum*sum/n/n), lit
	}
	gasScatter, gasWide := look(left(t, "plume"))
	springScatter, springWide := look(right(t, "plume"))
	within(t, "scatter of gas over that of fresh water", gasScatter/springScatter, 1.5, 20)
	within(t, "width of fresh water over that of gas", springWide/gasWide, 1.5, 20)
}
