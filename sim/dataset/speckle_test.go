package dataset

import (
	"math"
	"math/rand/v2"
	"testing"

	"dryline/seabed"
	"dryline/sonar"
)

// What is measured of invented records is what they were made with: speckle alone has a
// contrast of 1, K-distributed records of shape 2 and 5 have 1 + 2/shape (Jakeman and Pusey
// 1976, intensity of one look: speckle times a gamma texture). A ratio within windows of 32
// comes out low where the texture is strong.
func TestContrastAndShapeOfInventedRecords(t *testing.T) {
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
		var a Angles
		samples, labels := make([]uint16, window*500), make([]sonar.Label, window*500)
		for range 20 {
			for k := range samples {
				intensity := rng.ExpFloat64()
				if c.shape > 0 {
					intensity *= gamma(c.shape)
				}
				samples[k] = uint16(min(3000*math.Sqrt(intensity), math.MaxUint16-1))
				labels[k] = sonar.Label{Kind: sonar.FloorLabel, Class: seabed.Mud, Sine: float32(math.Sin(22 * math.Pi / 180))}
			}
			a.add(samples, labels)
		}
		got := &a[4] // 20 to 25 degrees
		if got.Windows != 10000 {
			t.Fatalf("%d windows, want all 10000 at 22 degrees: %v", got.Windows, a)
		}
		want := 1.0
		if c.shape > 0 {
			want += 2 / float64(c.shape)
		}
		if math.Abs(got.contrastSquared()-want) > c.slack {
			t.Errorf("shape %d: contrast squared %.3f, want %.3f", c.shape, got.contrastSquared(), want)
		}
		if level := 10 * math.Log10(got.Intensity/float64(got.Windows)); math.Abs(level-20*math.Log10(3000)) > 0.05 {
			t.Errorf("shape %d: level %.2f dB, want %.2f", c.shape, level, 20*math.Log10(3000))
		}
	}
}
