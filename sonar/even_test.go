package sonar

import (
	"fmt"
	"math"
	"slices"
	"sync"
	"testing"

	"dryline/seabed"
	"dryline/sonar/acoustics"
	"dryline/sonar/lanes"
)

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

// compareEnergy gives the level of one record over another, the rms of the difference, in dB,
// over bins that hold a ten-thousandth of the median of those that answer, and the correlation
// of what they hold. What is left out is the last grain of facets all but shadowed, over
// 40 dB down, which float32 does not resolve.
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
	least := 1e-4 * answer[len(answer)/2]
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

// evenScene is a floor, and what else there is, that even walks are held to plain ones over.
type evenScene struct {
	scene
	floor   Ground
	cast    []CastPoint
	effects Effects
	boosts  []float64
}

// evenScenes are laid out once.
var evenScenes = sync.OnceValue(func() []evenScene {
	var all []evenScene
	for _, s := range scenes() {
		all = append(all, evenScene{scene: s})
	}
	ground := all[0].spec
	span, tufts, plain := ground, ground, ground
	span.Pipelines = []seabed.Pipeline{{Path: []seabed.Point{{X: 116, Y: 60}, {X: 124, Y: 140}}, Diameter: 0.6, Spans: []seabed.Span{{From: 25, To: 60, Height: 0.8}}}}
	tufts.Patches = []seabed.Patch{{Class: seabed.Seagrass, Area: seabed.Area{Polygon: []seabed.Point{{X: 110, Y: 0}, {X: 125, Y: 0}, {X: 125, Y: 200}, {X: 110, Y: 200}}}}}
	plain.Featureless = true
	wreck := all[slices.IndexFunc(all, func(s evenScene) bool { return s.name == "wreck" })].spec
	all = append(all,
		evenScene{scene: scene{"span", span}},
		evenScene{scene: scene{"seagrass", tufts}},
		evenScene{scene: scene{"featureless", plain}},
		evenScene{scene: scene{"layered water", ground}, cast: thermocline},
		evenScene{scene: scene{"wreck in layered water, strengthened", wreck}, cast: thermocline, boosts: []float64{6}},
		evenScene{scene: scene{"wreck behind kelp and fish", wreck}, effects: Effects{
			Schools: []School{{X: 112, Y: 100, Depth: 7, Length: 8, Width: 5, Height: 3, Heading: 0.4, Density: 6, Fish: 0.25}},
			Kelp:    []Kelp{{Height: 3, Radius: 0.3, Density: 0.1, Through: 0.6}},
		}},
	)
	for i := range all {
		all[i].floor = Ground{seabed.New(all[i].spec, 4)}
	}
	return all
})

// engine is a sonar in the water of a scene, that walks in fine steps or not; what is not drawn
// of the relief counts alike.
func (s *evenScene) engine(t testing.TB, spec Spec, even bool) *Engine {
	t.Helper()
	sea := temperate()
	sea.Cast, spec.Effects, spec.Step = s.cast, s.effects, CoarseSteps
	if even {
		spec.Step = FineSteps
	}
	e, err := NewEngine(spec, sea, acoustics.Mackenzie(11, 34, 10), 1)
	if err != nil {
		t.Fatal(err)
	}
	e.remainders = newRemainders(FineSteps)
	e.Strengthen(s.boosts)
	return e
}

// engines are the same sonar that walks evenly and that does not, over a scene.
func (s *evenScene) engines(t testing.TB, spec Spec) (even, plain *Engine) {
	t.Helper()
	return s.engine(t, spec, true), s.engine(t, spec, false)
}

// stepEvenly lays out the walk of a workspace for a pose at the steps of lanes.
func stepEvenly(e *Engine, ws *Workspace, floor Floor, pose Pose) {
	ws.begin(e, floor, pose)
	ws.ground, ws.inverse = ws.ground[:0], ws.inverse[:0]
	for k := range lanes.Width * int(math.Ceil(float64(e.spec.Samples)*e.bin*lanes.PerMetre/lanes.Width)) {
		g := float64(k+1) * lanes.Step
		ws.ground, ws.inverse = append(ws.ground, g), append(ws.inverse, 1/g)
	}
}

// answered is the energy of a side by channel.
func answered(e *Engine, ws *Workspace, dst *Echo, floor Floor, pose Pose, side Side) [][]float32 {
	dst.Lit = dst.Lit[:0]
	ws.label(dst)
	e.sound(ws, dst, floor, &pose, side)
	var all [][]float32
	for c := range e.channels {
		for i := range ws.left {
			ws.left[i] = 1
		}
		ones := make([]float32, e.spec.Samples)
		for k := range ones {
			ones[k] = 1
		}
		ws.gather(c, ones)
		all = append(all, slices.Clone(ws.energy))
	}
	return all
}

// The whole side of a ping in lanes against the walk in float64 at the same steps: in all
// within 0.002 dB, bin by bin within 0.05 dB rms, correlated over 0.9999; the same objects
// seen.
func TestEvenWalkAgreesWithThePlainOne(t *testing.T) {
	for _, scene := range evenScenes() {
		even, plain := scene.engines(t, twoChannels())
		floor := scene.floor
		for n := range 6 {
			if testing.Short() && n > 0 {
				break
			}
			pose := Pose{X: 100, Y: 98 + float64(n%3), Z: []float64{-4, -8}[n%2], Heading: []float64{0, 0.15, -0.2}[n/2], Pitch: 0.02, Roll: 0.03 * float64(n-3), Speed: 2}
			side := Starboard
			if n == 5 {
				side = Port
			}
			ws, plainWs := even.NewWorkspace(), plain.NewWorkspace()
			echo, want := even.NewEcho(), plain.NewEcho()
			stepEvenly(plain, plainWs, floor, pose)
			got := answered(even, ws, &echo, floor, pose, side)
			for c, x := range answered(plain, plainWs, &want, floor, pose, side) {
				level, rms, correlation := compareEnergy(got[c], x)
				where := fmt.Sprintf("%s, ping %d, channel %d: %+.5f dB, %.4f dB rms, correlation 1 - %.1g", scene.name, n, c, level, rms, 1-correlation)
				t.Log(where)
				if !(math.Abs(level) <= 0.002 && rms <= 0.05 && correlation >= 0.9999) {
					t.Error(where)
				}
			}
			if !slices.Equal(echo.Lit, want.Lit) {
				t.Errorf("%s, ping %d: objects %v seen, want %v", scene.name, n, echo.Lit, want.Lit)
			}
			other := 0
			for k := range ws.grain {
				if ws.grain[k] != plainWs.grain[k] {
					other++
				}
			}
			if other > 2 { // where a facet ends on the border of a bin
				t.Errorf("%s, ping %d: %d bins of another grain", scene.name, n, other)
			}
		}
	}
}

// The same at the ends of what a sonar is set to: long range high up, where float32 has the
// least left of a metre, and short range with bins shorter than a facet.
func TestEvenWalkAgreesAtAnyScale(t *testing.T) {
	if lanes.Classes < seabed.Classes || lanes.DipSteps != dipSteps || lanes.StrengthSteps != strengthSteps || lanes.RestSteps != remainderSteps || lanes.Width != segmentBins {
		t.Fatal("tables of another size")
	}
	for _, set := range []struct{ scale, depth, altitude float64 }{{25, 12, 3}, {200, 40, 20}, {400, 80, 40}} {
		spec := twoChannels()
		spec.RangeScale = set.scale
		for _, one := range []bool{false, true} {
			if one { // and an odd number of channels
				spec.Channels = spec.Channels[:1]
			}
			scene := evenScene{}
			even, plain := scene.engines(t, spec)
			floor := Ground{seabed.New(seabed.Spec{East: 2 * set.scale, North: 400, Depth: set.depth, Base: seabed.MediumSand, Relief: seabed.Relief{Height: 1, Wavelength: 30, Octaves: 3}}, 4)}
			pose := Pose{X: 10, Y: 200, Z: set.altitude - set.depth, Speed: 2}
			ws, plainWs := even.NewWorkspace(), plain.NewWorkspace()
			echo, want := even.NewEcho(), plain.NewEcho()
			stepEvenly(plain, plainWs, floor, pose)
			got := answered(even, ws, &echo, floor, pose, Starboard)
			for c, x := range answered(plain, plainWs, &want, floor, pose, Starboard) {
				level, rms, correlation := compareEnergy(got[c], x)
				where := fmt.Sprintf("range %g m, %g m up, channel %d of %d: %+.5f dB, %.4f dB rms, correlation 1 - %.1g", set.scale, set.altitude, c, len(spec.Channels), level, rms, 1-correlation)
				t.Log(where)
				if !(math.Abs(level) <= 0.002 && rms <= 0.05 && correlation >= 0.9999) {
					t.Error(where)
				}
			}
		}
	}
}
