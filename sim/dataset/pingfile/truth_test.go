package pingfile_test

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"

	"dryline/seabed"
	"dryline/sim"
	"dryline/sim/dataset/cdf/cdftest"
	"dryline/sim/dataset/pingfile"
	"dryline/sim/exercise"
	"dryline/sim/product"
	"dryline/sim/record"
	"dryline/sim/simtest"
	"dryline/sonar"
)

var block = seabed.Object{Name: "block", Kind: "block", At: seabed.Point{X: 126, Y: 280}, Length: 2.4, Width: 1, Height: 1.2}

// tiny is the invented exercise with one short line past a block on smooth flat ground,
// half of it gravel.
func tiny(t testing.TB) *exercise.Exercise {
	t.Helper()
	ex := simtest.Small(t)
	ex.Seabed.East, ex.Seabed.North, ex.Seabed.Base, ex.Seabed.Featureless = 300, 500, seabed.MediumSand, true
	ex.Seabed.Objects = []seabed.Object{block}
	ex.Seabed.Patches = []seabed.Patch{{Class: seabed.Gravel, Area: seabed.Area{Polygon: []seabed.Point{{X: 52, Y: 220}, {X: 88, Y: 220}, {X: 88, Y: 340}, {X: 52, Y: 340}}}}}
	ex.Lines = []exercise.Line{{Name: "L1", A: seabed.Point{X: 100, Y: 250}, B: seabed.Point{X: 100, Y: 310}}}
	ex.Plan.Order, ex.Plan.CableOut, ex.Plan.RunIn, ex.Plan.RunOut, ex.Plan.TimeLimit = []exercise.Run{{Line: 0}}, 15, 40, 5, 900
	simtest.Exact(ex)
	return ex
}

// seen is a ping as the session told of it.
type seen struct {
	port, starboard []uint16
	pose            sonar.Pose
}

// fly flies the exercise and returns its ping files, by name, and what a second observer
// saw of each logged ping.
func fly(t *testing.T, ex *exercise.Exercise) (*sim.Session, *product.Memory, []seen) {
	t.Helper()
	s, err := sim.New(ex, 1)
	if err != nil {
		t.Fatal(err)
	}
	s.AttachMate()
	var files product.Memory
	w := pingfile.Attach(s, &files, func() (record.Backing, error) { return record.InMemory(), nil })
	var all []seen
	s.Observe(sim.Observer{Truth: true, Ping: func(p *sim.Ping) {
		if p.Line != "" {
			all = append(all, seen{append([]uint16(nil), p.Port[0]...), append([]uint16(nil), p.Starboard[0]...), p.Truth.Pose})
		}
	}})
	for !s.Done() {
		s.Advance(100)
	}
	if err := w.Err(); err != nil {
		t.Fatal(err)
	}
	return s, &files, all
}

// What the files say against physics and against the sea floor that was asked by itself.
func TestTruthOfPings(t *testing.T) {
	s, files, all := fly(t, tiny(t))
	world, engine := s.World(), s.Engine()
	content := files.Content("pings-L1-450.nc")
	if content == nil {
		t.Fatalf("no file of the line, only %v", files.Files())
	}
	f := cdftest.Read(t, content)
	n, samples := f.Records, engine.Spec().Samples
	if n != len(all) || n < 100 {
		t.Fatalf("%d records of %d pings", n, len(all))
	}
	v := func(name string) []float64 {
		t.Helper()
		if f.Vars[name] == nil {
			t.Fatalf("no variable %s", name)
		}
		return f.Vars[name].Values
	}
	if diff := cmp.Diff([]string{"ping", "side", "sample"}, f.Vars["samples"].Dims); diff != "" {
		t.Error(diff)
	}
	for name, want := range map[string]any{"Conventions": "CF-1.11, ACDD-1.3", "synthetic": "true", "license": "CC0-1.0", "seed": []float64{1}, "exercise_sha256": "none"} {
		if diff := cmp.Diff(want, f.Attrs[name]); diff != "" {
			t.Errorf("%s: %s", name, diff)
		}
	}
	// The slant range of a sample as anybody would take it from the file.
	bin := v("sample_interval")[0] * v("true_sound_speed")[0] / 2
	if math.Abs(bin-engine.Bin()) > 1e-12 {
		t.Errorf("a sample is %v m by the file, %v m by the sonar", bin, engine.Bin())
	}
	scale := f.Vars["ground_range"].Attrs["scale_factor"].([]float64)[0]
	beam := 0.886 * v("true_sound_speed")[0] / (v("frequency")[0] * v("array_length")[0])

	count := map[int]int{}
	pixels, strayed, ground, elsewhere := 0, 0, 0, 0
	for p := range n {
		if p%7 == 0 {
			for side, row := range [2][]uint16{all[p].port, all[p].starboard} {
				for k, want := range row {
					if got := v("samples")[(2*p+side)*samples+k]; got != float64(want) {
						t.Fatalf("ping %d, sample %d: %v counts, the sonar gave %d", p, k, got, want)
					}
				}
			}
		}
		if got, want := v("true_z")[p], all[p].pose.Z; got != want {
			t.Fatalf("ping %d: the fish is at %v m, was at %v", p, got, want)
		}
		z := v("true_z")[p]
		for side := range 2 {
			i := 2*p + side
			sin, cos := math.Sincos(v("across_bearing")[i] * math.Pi / 180)
			at := func(g float64) (x, y float64) { return v("across_x")[i] + g*sin, v("across_y")[i] + g*cos }

			// The bottom is where the surface is nearest.
			nearest := math.Inf(1)
			for g := 0.0; g < 12; g += 0.05 {
				x, y := at(g)
				nearest = min(nearest, math.Hypot(g, z-world.HeightAt(x, y)))
			}
			if got, want := v("true_bottom_sample")[i], math.Floor(nearest/bin); math.Abs(got-want) > 1 {
				t.Errorf("ping %d, side %d: bottom at sample %v, the surface is nearest at %v", p, side, got, want)
			}
			for k := range samples {
				j := i*samples + k
				kind := sonar.LabelKind(v("label")[j])
				count[int(kind)]++
				packed := v("ground_range")[j]
				x, y := at(packed * scale)
				slant := (float64(k) + 0.5) * bin
				switch kind {
				case sonar.ObjectLabel, sonar.LayoverLabel:
					// It lies on the block, give or take a cell of 0.25 m and half the beam, which
					// within the array's near field, L^2/lambda or 69 m, is as wide as the array.
					pixels++
					off := 0.25 + max(slant*beam, v("array_length")[0])/2
					if v("object")[j] != 1 || math.Abs(x-block.At.X) > block.Width/2+off || math.Abs(y-block.At.Y) > block.Length/2+off {
						strayed++
					}
				case sonar.FloorLabel:
					if v("object")[j] != 0 {
						t.Fatalf("ping %d, sample %d: floor that is object %v", p, k, v("object")[j])
					}
					if p%11 != 0 || k%5 != 0 {
						continue
					}
					_, class, object := world.SurfaceAt(x, y)
					border := object >= 0
					for _, d := range [][2]float64{{1, 0}, {-1, 0}, {0, 1}, {0, -1}} {
						_, c, o := world.SurfaceAt(x+d[0], y+d[1])
						border = border || c != class || o >= 0
					}
					if border { // where the beam holds some of both
						continue
					}
					ground++
					if v("sediment")[j] != float64(class) {
						elsewhere++
					}
				}
			}
		}
	}
	if pixels < 20 || strayed > 0 {
		t.Errorf("%d of %d samples of the block lie beside it", strayed, pixels)
	}
	if ground < 1000 || elsewhere > 0 {
		t.Errorf("%d of %d samples of floor are made of something else", elsewhere, ground)
	}
	total := 0
	for kind, c := range count {
		if kind >= len(sonar.LabelKinds()) {
			t.Errorf("%d samples of a kind %d", c, kind)
		}
		total += c
	}
	if total != n*2*samples || count[int(sonar.ShadowLabel)] == 0 {
		t.Errorf("%d labels on %d samples: %v", total, n*2*samples, count)
	}

	// The shadow gives the height: by similar triangles it ends at
	// g = back h/(h - height), where back is the far edge of the block's top (Fish and
	// Carr, Sound Underwater Images, 1990, from memory).
	abreast, least := -1, math.Inf(1)
	for p := range n {
		_, y := v("across_x")[2*p+1], v("across_y")[2*p+1]
		if d := math.Abs(y - block.At.Y); d < least {
			abreast, least = p, d
		}
	}
	i := 2*abreast + 1
	last := 0
	for k := range samples {
		if sonar.LabelKind(v("label")[i*samples+k]) == sonar.ShadowLabel {
			last = k
		}
	}
	h := v("true_altitude")[abreast]
	tip := math.Sqrt(math.Pow((float64(last)+1)*bin, 2) - h*h)
	back := (block.At.X + block.Width/2 - v("across_x")[i]) / math.Sin(v("across_bearing")[i]*math.Pi/180)
	want := back * h / (h - block.Height)
	if math.Abs(math.Hypot(tip, h)-math.Hypot(want, h)) > bin {
		t.Errorf("the shadow ends at ground range %.3f m, %.3f m by its height: a sample is %.3f m", tip, want, bin)
	}
	if height := h * (1 - back/tip); math.Abs(height-block.Height) > 0.05 {
		t.Errorf("the shadow gives a height of %.3f m, it is %.3f m", height, block.Height)
	}
}
