package dataset

import (
	"math"
	"math/rand/v2"
	"testing"

	"dryline/seabed"
	"dryline/sim"
	"dryline/sim/exercise"
	"dryline/sim/simtest"
	"dryline/sonar"
	"dryline/sonar/acoustics"
)

// session is one of the invented exercise.
func session(t *testing.T) *sim.Session {
	t.Helper()
	s, err := sim.New(simtest.Small(t), 1)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// What is measured of invented records is what they were made with: speckle alone has a
// contrast of 1, K-distributed records of shape 2 and 5 have 1 + 2/shape (Jakeman and Pusey
// 1976, intensity of one look: speckle times a gamma texture). A ratio within windows of 32
// comes out low where the texture is strong.
func TestContrastAndShapeOfInventedRecords(t *testing.T) {
	law := newFloorLaw(session(t).Engine())
	rng := rand.New(rand.NewPCG(1, 2))
	gamma := func(shape int) float64 { // of a whole shape, mean 1
		sum := 0.0
		for range shape {
			sum += rng.ExpFloat64()
		}
		return sum / float64(shape)
	}
	for _, c := range []struct {
		shape int // 0 is speckle alone
		slack float64
	}{{0, 0.01}, {5, 0.08}, {2, 0.25}} {
		const pings = 800
		f := floors{law: law}
		n := law.engine.Spec().Samples / window * window
		samples, labels := make([]uint16, n), make([]sonar.Label, n)
		for range pings {
			for k := range samples {
				intensity := rng.ExpFloat64()
				if c.shape > 0 {
					intensity *= gamma(c.shape)
				}
				samples[k] = uint16(min(3000*math.Sqrt(intensity), math.MaxUint16-1))
				labels[k] = sonar.Label{Kind: sonar.FloorLabel, Class: seabed.Mud, Ground: float32(5 / math.Tan(22*math.Pi/180)), Height: -5}
			}
			f.add(samples, labels, 0)
		}
		got := &f.sums[seabed.Mud][4] // 20 to 25 degrees
		if got.Windows != int64(pings*n/window) {
			t.Fatalf("%d windows, want all %d at 22 degrees", got.Windows, pings*n/window)
		}
		want := 1.0
		if c.shape > 0 {
			want += 2 / float64(c.shape)
		}
		measured, theory := got.contrastSquared()
		if math.Abs(measured-want) > c.slack || theory != 1 {
			t.Errorf("shape %d: contrast squared %.3f, want %.3f; that of mud is %v by theory", c.shape, measured, want, theory)
		}
		if math.Abs(got.level()-20*math.Log10(3000)) > 0.05 {
			t.Errorf("shape %d: level %.2f dB, want %.2f", c.shape, got.level(), 20*math.Log10(3000))
		}
	}
}

// The strength measured on a survey of smooth ground is the published one: APL-UW TR 9407
// (1994) by acoustics, asked by itself at the middle of the angles. Sums of two scenes are
// those of both.
func TestStrengthIsThePublished(t *testing.T) {
	if testing.Short() {
		t.Skip("flies a line twice")
	}
	for _, c := range []struct {
		class seabed.Class
		phi   float64
	}{{seabed.FineSand, 2.5}, {seabed.Silt, 6}} {
		ex := simtest.Small(t)
		ex.Seabed.Base, ex.Seabed.Objects = c.class, nil
		ex.Lines = []exercise.Line{{Name: "L1", A: ex.Lines[0].A, B: ex.Lines[0].B}}
		ex.Lines[0].A.Y, ex.Lines[0].B.Y = 260, 320
		ex.Plan.Order, ex.Plan.CableOut, ex.Plan.RunIn, ex.Plan.RunOut, ex.Plan.TimeLimit = []exercise.Run{{Line: 0}}, 15, 40, 5, 900
		s, err := sim.New(ex, 1)
		if err != nil {
			t.Fatal(err)
		}
		s.AttachMate()
		var f floors
		f.attend(s)
		for !s.Done() {
			s.Advance(100)
		}
		spec := s.Engine().Spec()
		bottom, err := acoustics.BottomForGrainSize(c.phi)
		if err != nil {
			t.Fatal(err)
		}
		list := f.all()
		twice := mergeFloors(mergeFloors(nil, list), list)
		seen := 0
		for i := range list {
			a, both := &list[i], &twice[i]
			if a.Sediment != c.class.String() {
				t.Fatalf("floor of %s on %v", a.Sediment, c.class)
			}
			if *both != (Floor{a.Sediment, a.Grazing, 2 * a.Windows, 2 * a.Cut, 2 * a.Intensity, 2 * a.Contrast, 2 * a.Law, 2 * a.Heard, 2 * a.Strength, 2 * a.StrengthLaw}) {
				t.Errorf("twice %+v is %+v", a, both)
			}
			if a.Grazing < 15 || a.Grazing >= 45 || a.Heard < 50 {
				continue
			}
			seen++
			measured, law := a.strength()
			want := bottom.Strength((float64(a.Grazing)+2.5)*math.Pi/180, spec.Channels[0].Frequency, s.Engine().SoundSpeed())
			if math.Abs(measured-want) > 1.2 || math.Abs(law-want) > 0.8 {
				t.Errorf("%v at %d to %d degrees: %.2f dB measured, %.2f dB by the law there, published %.2f dB", c.class, a.Grazing, a.Grazing+5, measured, law, want)
			}
			if contrast, _ := a.contrastSquared(); contrast < 0.85 || contrast > 1.25 {
				t.Errorf("%v at %d degrees: contrast squared %.3f, speckle has 1", c.class, a.Grazing, contrast)
			}
		}
		if seen < 3 {
			t.Errorf("%v: %d angles to compare", c.class, seen)
		}
	}
}
