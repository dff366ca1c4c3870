package sonar

import (
	"fmt"
	"math"
	"math/bits"
	"slices"
	"testing"

	"dryline/seabed"
	"dryline/sonar/lanes"
)

// laned is what package lanes needs of one ray.
type laned struct {
	tables            *lanes.Tables
	z, inverse, slope []float32
	class             []uint8
	blocks            []lanes.Block
	long              []uint16
	bins              []lanes.Bin
}

// newLaned readies lanes for a section read at their steps.
func newLaned(e *Engine, ws *Workspace, s *Section, fishZ float64) *laned {
	n := len(s.G)
	l := &laned{
		tables: new(lanes.Tables),
		z:      make([]float32, n), inverse: make([]float32, n), slope: make([]float32, n), class: make([]uint8, n),
		blocks: make([]lanes.Block, lanes.Blocks(n)), long: make([]uint16, lanes.Blocks(n)), bins: make([]lanes.Bin, e.spec.Samples+1),
	}
	for c := range 2 {
		copy(l.tables.Vertical[c][:], ws.lanes[c].vertical)
		for class := range seabed.Classes {
			for i, v := range ws.lanes[c].strength[class] {
				l.tables.Strength[class][i][c] = v
			}
		}
	}
	for class := range seabed.Classes {
		for i := range lanes.RestSteps {
			l.tables.Rest[class][i] = 1
			if s.Drawn {
				l.tables.Rest[class][i] = e.remainders[class][i]
			}
		}
	}
	lanes.Inverses(l.inverse)
	for i := range s.G {
		l.z[i] = float32(s.Z[i] - fishZ)
		if s.Drawn {
			l.slope[i] = float32(s.Slope[i])
		}
		l.class[i] = uint8(s.Class[i])
	}
	return l
}

func (l *laned) walk(e *Engine) {
	from := lanes.Below(l.z[0])
	lanes.Walk(l.blocks, l.z, l.inverse, l.slope, l.class, l.tables, &from, 0, float32(1/e.bin))
	lanes.Deposit(l.bins, l.blocks, l.long)
}

func (l *laned) settle(e *Engine, ws *Workspace, ray int) (sum [2][]float32) {
	var weights [2][]float32
	for c := range sum {
		sum[c] = make([]float32, e.spec.Samples)
		for _, w := range ws.weightsOf(c, ray) {
			weights[c] = append(weights[c], float32(w))
		}
	}
	lanes.Settle(sum[0], sum[1], l.bins, weights[0], weights[1])
	return sum
}

// scene is ground that lanes are held to the walk over.
type scene struct {
	name string
	spec seabed.Spec
}

func scenes() []scene {
	ground := func(base seabed.Class) seabed.Spec {
		return seabed.Spec{East: 200, North: 200, Depth: 12, Base: base, Relief: seabed.Relief{Height: 1, Wavelength: 30, Octaves: 3}}
	}
	sand, rock, wreck, mixed := ground(seabed.MediumSand), ground(seabed.Rock), ground(seabed.MediumSand), ground(seabed.MediumSand)
	rock.Bedforms = []seabed.Bedform{{Kind: seabed.Outcrop, Height: 2, Wavelength: 8}}
	wreck.Objects = []seabed.Object{{Kind: "hulk", At: seabed.Point{X: 122, Y: 100}, Length: 21, Width: 6, Height: 2.6, Heading: 0.4}}
	mixed.Bedforms = []seabed.Bedform{{Kind: seabed.Ripples, Height: 0.06, Wavelength: 0.7}}
	mixed.Patches = []seabed.Patch{{Class: seabed.Gravel, Area: seabed.Area{Polygon: []seabed.Point{{X: 115, Y: 0}, {X: 130, Y: 0}, {X: 130, Y: 200}, {X: 115, Y: 200}}}}}
	return []scene{{"sand", sand}, {"rock", rock}, {"wreck", wreck}, {"ripples and gravel", mixed}}
}

// sectionOf is the ray of a scene at the steps of lanes.
func sectionOf(e *Engine, ws *Workspace, world Ground, pose Pose, ux, uy float64) *Section {
	ws.begin(e, world, pose)
	ws.tilt(e, 0.01)
	s := &ws.section
	s.Steps, s.Fine = nil, 0
	for k := range int(float64(e.spec.Samples) * e.bin * lanes.PerMetre) {
		s.Steps = append(s.Steps, float64(k+1)*lanes.Step)
	}
	world.Trace(s, pose.X, pose.Y, ux, uy)
	ws.aim(e, 1, s.Drawn)
	return s
}

// Lanes against the walk in float64 at the same steps, under a beam that is the same at
// every range: in all within 0.002 dB, bin by bin within 0.05 dB rms, correlated over
// 0.9999. Under a beam as it is the level may be 0.01 dB off: lanes weigh by the bin where
// the walk weighs a facet as a whole, which tells on the side of a wreck, over which one
// facet spans many bins.
func TestLanesAgreeWithTheWalk(t *testing.T) {
	if lanes.Classes < seabed.Classes || lanes.DipSteps != dipSteps || lanes.StrengthSteps != strengthSteps || lanes.RestSteps != remainderSteps || lanes.Width != segmentBins {
		t.Fatal("tables of another size")
	}
	for _, scene := range scenes() {
		world := Ground{seabed.New(scene.spec, 4)}
		e := newEngine(t, twoChannels())
		for n := range 12 {
			ws := e.NewWorkspace()
			even := n%2 == 0
			z, bearing := []float64{-4, -8}[n/2%2], []float64{1.2, 1.5, 1.8}[n/4]
			pose := Pose{X: 100, Y: 100, Z: z}
			s := sectionOf(e, ws, world, pose, math.Sin(bearing), math.Cos(bearing))
			if even {
				for c := range ws.lanes {
					for i := range ws.lanes[c].now {
						ws.lanes[c].now[i] = 1
					}
				}
			}
			e.walk(ws, s, nil, 0, belowFish(s, z), z, nil, nil)
			ones := make([]float32, e.spec.Samples)
			for k := range ones {
				ones[k] = 1
			}
			for i := range ws.left {
				ws.left[i] = 1
			}
			l := newLaned(e, ws, s, z)
			l.walk(e)
			got := l.settle(e, ws, 1)
			for c := range got {
				ws.gather(c, ones)
				level, rms, correlation := compareEnergy(got[c], ws.energy)
				where := fmt.Sprintf("%s, fish at %g m, bearing %g, channel %d, even beam %t: %+.5f dB, %.4f dB rms, correlation 1 - %.1g", scene.name, z, bearing, c, even, level, rms, 1-correlation)
				t.Log(where)
				if most := map[bool]float64{true: 0.002, false: 0.01}[even]; math.Abs(level) > most || rms > 0.05 || correlation < 0.9999 {
					t.Error(where)
				}
			}
		}
	}
}

// The same at the ends of what a sonar is set to: long range high up, where float32 has the
// least left of a metre, and short range with bins shorter than a facet.
func TestLanesAgreeAtAnyScale(t *testing.T) {
	for _, set := range []struct{ scale, depth, altitude float64 }{{25, 12, 3}, {200, 40, 20}, {400, 80, 40}} {
		spec := twoChannels()
		spec.RangeScale = set.scale
		world := Ground{seabed.New(seabed.Spec{East: 2 * set.scale, North: 400, Depth: set.depth, Base: seabed.MediumSand, Relief: seabed.Relief{Height: 1, Wavelength: 30, Octaves: 3}}, 4)}
		e := newEngine(t, spec)
		ws := e.NewWorkspace()
		z := set.altitude - set.depth
		s := sectionOf(e, ws, world, Pose{X: 10, Y: 200, Z: z}, 1, 0)
		for c := range ws.lanes {
			for i := range ws.lanes[c].now {
				ws.lanes[c].now[i] = 1
			}
		}
		e.walk(ws, s, nil, 0, belowFish(s, z), z, nil, nil)
		ones := make([]float32, e.spec.Samples)
		for k := range ones {
			ones[k] = 1
		}
		for i := range ws.left {
			ws.left[i] = 1
		}
		l := newLaned(e, ws, s, z)
		l.walk(e)
		long := 0
		for _, mask := range l.long {
			long += bits.OnesCount16(mask)
		}
		got := l.settle(e, ws, 1)
		for c := range got {
			ws.gather(c, ones)
			level, rms, correlation := compareEnergy(got[c], ws.energy)
			where := fmt.Sprintf("range %g m, %g m up, channel %d: %+.5f dB, %.4f dB rms, correlation 1 - %.1g, %d of %d facets long", set.scale, set.altitude, c, level, rms, 1-correlation, long, len(s.G))
			t.Log(where)
			if math.Abs(level) > 0.002 || rms > 0.05 || correlation < 0.9999 {
				t.Error(where)
			}
		}
	}
}

// compareEnergy gives the level of one record over another, the rms of the difference, in dB,
// over bins that hold a hundredth of the median of those that answer, and the correlation
// of what they hold. What is left out is the last grain of facets all but shadowed, some
// 50 dB down, which float32 does not resolve.
func compareEnergy(got, want []float32) (level, rms, correlation float64) {
	var sum, sumWant, square, n, xx, yy, xy float64
	var answer []float32
	for k := range want {
		sum, sumWant = sum+float64(got[k]), sumWant+float64(want[k])
		if want[k] > 0 {
			answer = append(answer, want[k])
		}
	}
	slices.Sort(answer)
	least := 0.01 * answer[len(answer)/2]
	for k := range want {
		x, y := float64(got[k])-sum/float64(len(got)), float64(want[k])-sumWant/float64(len(got))
		xx, yy, xy = xx+x*x, yy+y*y, xy+x*y
		if want[k] > least {
			d := 10 * math.Log10(float64(got[k])/float64(want[k]))
			square, n = square+d*d, n+1
		}
	}
	return 10 * math.Log10(sum/sumWant), math.Sqrt(square / n), xy / math.Sqrt(xx*yy)
}

// BenchmarkWalkAtTheStepsOfLanes is the walk of one ray without its floor, as it is and in
// lanes.
func BenchmarkWalkAtTheStepsOfLanes(b *testing.B) {
	e := newEngine(b, twoChannels())
	ws := e.NewWorkspace()
	for _, scene := range scenes() {
		s := sectionOf(e, ws, Ground{seabed.New(scene.spec, 4)}, Pose{X: 100, Y: 100, Z: -4}, 1, 0)
		l := newLaned(e, ws, s, -4)
		for name, walk := range map[string]func(){
			"walk":  func() { e.walk(ws, s, nil, 0, belowFish(s, -4), -4, nil, nil) },
			"lanes": func() { l.walk(e) },
		} {
			b.Run(scene.name+"/"+name, func(b *testing.B) {
				for b.Loop() {
					walk()
				}
				b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N*len(s.G)), "ns/sample")
			})
		}
	}
}
