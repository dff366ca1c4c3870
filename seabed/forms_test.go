package seabed

import (
	"math"
	"testing"

	"dryline/seabed/transport"
)

// Animals' mounds are a Poisson process of the density asked for: Tuck and Atkinson
// (1995, Mar. Ecol. Prog. Ser.; abstract) counted 0.00134 to 0.0193 traces on a square
// metre of the Clyde and could not tell their places from chance. Counted on the floor
// as it is read, summit by summit, and in squares of 40 m: mean and variance.
func TestMoundsAreAPoissonProcess(t *testing.T) {
	const density, side, east = 0.0193, 40.0, 1000.0
	b := Bedform{Kind: Mounds, Height: 0.3, Width: 1, Density: density}
	w := New(Spec{Featureless: true, East: east, North: east, Depth: 20, Relief: Relief{Wavelength: 100}, Base: Mud, Bedforms: []Bedform{b}}, 8)
	const n = int(east / nodeStep)
	height := func(i, j int) float64 { return w.floor(float64(i)*nodeStep, float64(j)*nodeStep) }
	var counts [int(east / side)][int(east / side)]float64
	rows := [3][]float64{make([]float64, n), make([]float64, n), make([]float64, n)}
	for j := range n {
		rows[0], rows[1], rows[2] = rows[1], rows[2], rows[0]
		for i := range n {
			rows[2][i] = height(i, j)
		}
		for i := 1; i < n-1 && j > 1; i++ {
			z := rows[1][i]
			if z < -20+0.06 {
				continue
			}
			summit := true
			for _, row := range rows {
				for d := -1; d <= 1; d++ {
					summit = summit && row[i+d] <= z
				}
			}
			if summit {
				counts[int(float64(j-1)*nodeStep/side)][int(float64(i)*nodeStep/side)]++
			}
		}
	}
	sum, square, squares := 0.0, 0.0, 0.0
	for _, row := range counts {
		for _, c := range row {
			sum, square, squares = sum+c, square+c*c, squares+1
		}
	}
	mean := sum / squares
	variance := square/squares - mean*mean
	want := density * side * side
	// Some merge with a neighbour and count as one: about a twentieth at this density.
	if mean > 1.02*want || mean < 0.9*want {
		t.Errorf("%.1f mounds on a square of %g m, want %.1f", mean, side, want)
	}
	if r := variance / mean; r < 0.75 || r > 1.2 {
		t.Errorf("variance over mean of the counts: %.2f, want 1 but for those merged", r)
	}
}

// Crests fork: round some places the phase gains a whole turn, at no place two, and
// nowhere without wander. The places are counted on the tiles a ray reads.
func TestCrestsForkAndEnd(t *testing.T) {
	for _, wander := range []float64{0, 0.6} {
		b := Bedform{Kind: Waves, Height: 0.05, Wavelength: 0.6, Wander: wander}
		w := New(Spec{Featureless: true, East: 320, North: 320, Depth: 20, Relief: Relief{Wavelength: 100}, Base: MediumSand, Bedforms: []Bedform{b}}, 8)
		turn := func(a, b int8) float64 {
			d := float64(b-a) / 256 // int8 wraps as turns do
			return d
		}
		forks := 0
		for tj := range w.ny {
			for ti := range w.nx {
				tile := w.tileAt(ti, tj)
				at := func(i, j int) int8 { return tile.surface[j*tileSide+i].phase }
				for j := tileMargin; j < tileMargin+tileNodes; j++ {
					for i := tileMargin; i < tileMargin+tileNodes; i++ {
						round := turn(at(i, j), at(i+1, j)) + turn(at(i+1, j), at(i+1, j+1)) + turn(at(i+1, j+1), at(i, j+1)) + turn(at(i, j+1), at(i, j))
						if math.Abs(round) > 1.1 {
							t.Fatalf("round one place the phase gains %.1f turns", round)
						}
						if math.Abs(round) > 0.9 {
							forks++
						}
					}
				}
			}
		}
		if wander == 0 && forks > 0 || wander > 0 && (forks < 20 || forks > 4000) {
			t.Errorf("wander %g: %d forks on a tenth of a square kilometre", wander, forks)
		}
	}
}

// Ripples are as long and as high as Wiberg and Harris have them for the grains and
// the swell, measured on the floor as a ray reads it; fine sand, on which they would be
// too short to see, has none.
func TestRipplesFollowGrainAndFlow(t *testing.T) {
	spec := Spec{
		Featureless: true, East: 200, North: 200, Depth: 15, Relief: Relief{Wavelength: 100}, Base: FineSand,
		Flow:     Flow{WaveHeight: 1.5, WavePeriod: 9, WavesFrom: math.Pi / 2},
		Patches:  []Patch{{Class: CoarseSand, Area: Area{Polygon: []Point{{100, 0}, {200, 0}, {200, 200}, {100, 200}}}}},
		Bedforms: []Bedform{{Kind: Ripples, On: CoarseSand}},
	}
	w := New(spec, 3)
	d0, _ := transport.Orbit(1.5, 9, 15)
	want := transport.WaveRipple(CoarseSand.Grain(), d0)
	var p Profile
	for g := 0.0; g < 60; g += 0.02 {
		p.Steps = append(p.Steps, g)
	}
	measure := func(x float64) (length, height float64) {
		w.Trace(&p, x, 100, 1, 0)
		lowest, highest, ups := math.Inf(1), math.Inf(-1), 0.0
		for i, z := range p.Z {
			lowest, highest = min(lowest, z), max(highest, z)
			if i > 0 && p.Z[i-1] < -15 && z >= -15 {
				ups++
			}
		}
		return 60 / ups, highest - lowest
	}
	if length, height := measure(120); math.Abs(length-want.Length) > 0.03*want.Length || math.Abs(height-want.Height) > 0.05*want.Height {
		t.Errorf("on coarse sand ripples are %.3f m long and %.3f m high, want %.3f and %.3f", length, height, want.Length, want.Height)
	}
	if _, height := measure(20); height > 1e-3 {
		t.Errorf("on fine sand the floor goes up and down by %.4f m, want nothing", height)
	}
}

// A sand wave is as high as Flemming's mean for its length (1988), and its megaripples
// are on the long side that climbs with the current and not in its lee.
func TestSandWavesCarryMegaripplesOnTheStoss(t *testing.T) {
	spec := Spec{
		Featureless: true, East: 900, North: 100, Depth: 30, Relief: Relief{Wavelength: 100}, Base: MediumSand,
		Bedforms: []Bedform{{Kind: SandWaves, Wavelength: 90, Crest: 0, Asymmetry: 0.6}},
	}
	w := New(spec, 3)
	var z []float64
	for x := 90.0; x < 810; x += 0.25 {
		z = append(z, w.floor(x, 50)+30)
	}
	lowest, highest := math.Inf(1), math.Inf(-1)
	var rough [2]float64 // of the short and the long side, mean square of what is shorter than 6 m
	var n [2]float64
	const half = 12
	for i := half; i < len(z)-half; i++ {
		lowest, highest = min(lowest, z[i]), max(highest, z[i])
		mean := 0.0
		for _, v := range z[i-half : i+half+1] {
			mean += v / (2*half + 1)
		}
		// Waves' own profile rises towards the east on its short side.
		side := 0
		if slope := z[i+half] - z[i-half]; slope < 0 {
			side = 1
		}
		rough[side] += (z[i] - mean) * (z[i] - mean)
		n[side]++
	}
	want := 0.0677 * math.Pow(90, 0.8098)
	if got := highest - lowest; got < 0.97*want || got > 1.2*want {
		t.Errorf("sand waves of 90 m are %.2f m high, want %.2f and a megaripple", got, want)
	}
	if n[1] < 1.4*n[0] {
		t.Errorf("the stoss is %.0f steps long, the lee %.0f", n[1], n[0])
	}
	stoss, lee := math.Sqrt(rough[1]/n[1]), math.Sqrt(rough[0]/n[0])
	if stoss < 1.5*lee {
		t.Errorf("relief of megaripples: %.3f m on the stoss, %.3f m on the lee", stoss, lee)
	}
}

// A settled object has the burial of Rennie, Brandt and Friedrichs (2017) for the flow
// and the grains, and a pit that is drawn out down the current.
func TestSettledObjectsSinkByFlowAndGrain(t *testing.T) {
	flow := Flow{Current: 0.6, Set: math.Pi / 2}
	spec := Spec{
		Featureless: true, East: 200, North: 200, Depth: 15, Relief: Relief{Wavelength: 100}, Base: MediumSand, Flow: flow,
		Objects: []Object{{Name: "a", Kind: "block", At: Point{100, 100}, Length: 2, Width: 2, Height: 1, Settled: true}},
	}
	w := New(spec, 3)
	theta := flow.over(15).Shields(MediumSand.Grain())
	want := 1 - 1.3*math.Pow(theta, 0.36) // of it above the floor about it
	if got := w.HeightAt(100, 100) + 15; math.Abs(got-want) > 0.02 {
		t.Errorf("Shields %.3f: %.2f m of a block of 1 m stand out, want %.2f", theta, got, want)
	}
	down, up := -15-w.floor(106, 100), -15-w.floor(94, 100)
	if down < 3*up || down < 0.02 {
		t.Errorf("six metres down the current the pit is %.3f m deep, up it %.3f m", down, up)
	}
	spec.Flow = Flow{Current: 0.05}
	still := New(spec, 3)
	if got := still.HeightAt(100, 100) + 15; math.Abs(got-1) > 1e-6 {
		t.Errorf("where nothing moves it stands %.3f m high, want 1", got)
	}
}

// Spoil lies in discs without relief; a scoured depression is sunk, with coarse sand in
// it, and has one edge several times as sharp as the other.
func TestMarksOfSediment(t *testing.T) {
	area := Area{Polygon: []Point{{50, 50}, {350, 50}, {350, 350}, {50, 350}}}
	spec := Spec{
		Featureless: true, East: 400, North: 400, Depth: 15, Relief: Relief{Wavelength: 100}, Base: Silt,
		Patches: []Patch{{Class: Gravel, Area: area, Marks: Marks{Kind: Discs, Count: 30, Length: 30}}},
	}
	w := New(spec, 5)
	hits := 0
	for y := 1.0; y < 400; y += 2 {
		for x := 1.0; x < 400; x += 2 {
			if w.ClassAt(x, y) == Gravel {
				hits++
			}
			if z := w.floor(x, y); math.Abs(z+15) > 1e-6 {
				t.Fatalf("spoil at (%g, %g) stands %.3f m out", x, y, z+15)
			}
		}
	}
	// Thirty discs of 28 m mean diameter, strewn over 9 ha: of a point on that area
	// exp(-30 pi 14^2 / 90000) is left bare, about 0.8.
	if share := float64(hits) * 4 / 90000; share < 0.1 || share > 0.32 {
		t.Errorf("discs cover %.2f of the area, want about 0.2", share)
	}
	spec.Patches[0] = Patch{Class: CoarseSand, Area: Area{Polygon: []Point{{199, 199}, {201, 199}, {201, 201}, {199, 201}}},
		Marks: Marks{Kind: Depressions, Count: 1, Length: 90, Width: 40, Along: 0, Depth: 0.6}}
	w = New(spec, 5)
	m := w.patches[0].marks[0]
	deepest := 0.0
	for dy := -10.0; dy < 10; dy++ {
		deepest = max(deepest, -15-w.floor(m.at.X, m.at.Y+dy))
	}
	if deepest < 0.5 || deepest > 0.61 {
		t.Errorf("the middle of a depression of 0.6 m is %.2f m deep", deepest)
	}
	// How long both sediments are met in turn on a way across either edge, on the mean.
	belt := func(side float64) float64 {
		sum, n := 0.0, 0.0
		for s := -20.0; s < 20; s++ {
			first, last := math.Inf(1), 0.0
			for d := 0.0; d < 1.2*m.width; d += 0.25 {
				if w.ClassAt(m.at.X+side*d*m.cos+s*m.sin, m.at.Y-side*d*m.sin+s*m.cos) == CoarseSand {
					last = d
				} else {
					first = min(first, d)
				}
			}
			if last > 0 {
				sum, n = sum+max(last-first, 0), n+1
			}
		}
		return sum / n
	}
	if soft, sharp := belt(1), belt(-1); soft < 1.5*sharp || sharp > 3 {
		t.Errorf("belts of mixed sediment: %.1f m on the soft side, %.1f m on the sharp one", soft, sharp)
	}
}

// A heap of dumped stone stands as high as it was ordered, its sides at 1 in 2.5 (common
// practice, no source), in class as in height; single stones lie beyond its foot. Every
// object on the area leaves one trail, no other does.
func TestHeapsAndTrails(t *testing.T) {
	at := func(x, y float64) Area {
		return Area{Polygon: []Point{{x - 0.1, y - 0.1}, {x + 0.1, y - 0.1}, {x + 0.1, y + 0.1}, {x - 0.1, y + 0.1}}}
	}
	spec := Spec{
		Featureless: true, East: 200, North: 200, Depth: 15, Relief: Relief{Wavelength: 100}, Base: Mud,
		Patches: []Patch{{Class: Rock, Area: at(100, 100), Marks: Marks{Kind: Heaps, Count: 1, Length: 60, Width: 10, Along: math.Pi / 2, Height: 1}}},
	}
	w := New(spec, 5)
	m := w.patches[0].marks[0]
	across := func(along, off float64) (z float64, class Class) {
		x, y := m.at.X+along*m.sin+off*m.cos, m.at.Y+along*m.cos-off*m.sin
		return w.floor(x, y) + 15, w.ClassAt(x, y)
	}
	var top, half, foot, beyond float64
	strays, n := 0.0, 0.0
	for along := -20.0; along <= 20; along += 0.5 {
		for _, side := range []float64{-1, 1} {
			z, _ := across(along, side*1.5)
			top += z / 162
			z, _ = across(along, side*3.75)
			half += z / 162
			z, class := across(along, side*4)
			if foot += z / 162; class != Rock {
				t.Errorf("on the side of the heap there is %v", class)
			}
			z, _ = across(along, side*6)
			beyond += z / 162
			if _, class := across(along, side*5.9); class == Rock {
				strays++
			}
			n++
		}
	}
	if math.Abs(top-1) > 0.03 || math.Abs(half-0.5) > 0.12 || math.Abs(half-foot-0.1) > 0.03 || math.Abs(beyond) > 0.02 {
		t.Errorf("a heap 1 m high: %.2f m on top, %.2f and %.2f m on its side, %.2f m beyond", top, half, foot, beyond)
	}
	if strays < 0.02*n || strays > 0.2*n {
		t.Errorf("%.0f of %.0f places a metre beyond the foot hold a stone", strays, n)
	}

	spec.Patches = []Patch{{Class: Gravel, Area: Area{Polygon: []Point{{0, 0}, {100, 0}, {100, 200}, {0, 200}}}, Marks: Marks{Kind: Trails, Length: 20, Along: 0}}}
	spec.Objects = []Object{{Name: "a", Kind: "boulder", At: Point{50, 60}}, {Name: "b", Kind: "car", At: Point{60, 120}, Heading: math.Pi / 2}, {Name: "c", Kind: "car", At: Point{150, 60}}}
	w = New(spec, 5)
	if got := len(w.patches[0].marks); got != 2 {
		t.Errorf("two objects on the area leave %d trails", got)
	}
	for _, o := range spec.Objects {
		trail := 0
		for d := 4.0; d < 8; d += 0.5 {
			if w.ClassAt(o.At.X, o.At.Y+d) == Gravel {
				trail++
			}
			if w.ClassAt(o.At.X, o.At.Y-d) == Gravel {
				t.Errorf("gravel up the current of %s", o.Name)
			}
		}
		if (trail > 4) != (o.At.X < 100) {
			t.Errorf("%s: gravel at %d of 8 places down the current", o.Name, trail)
		}
	}
}
