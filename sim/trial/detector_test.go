package trial

import (
	"math"
	"math/rand/v2"
	"testing"
)

// speckled is a record of one-look speckle: amplitudes whose squares are exponential.
func speckled(rng *rand.Rand, rows, cols int, mean float64, level func(i, j int) float64) [][]uint16 {
	out := make([][]uint16, rows)
	for i := range out {
		out[i] = make([]uint16, cols)
		for j := range out[i] {
			out[i][j] = uint16(min(math.Sqrt(mean*level(i, j)*rng.ExpFloat64()), 65535))
		}
	}
	return out
}

func even(int, int) float64 { return 1 }

// The mean of n independent one-look pixels is gamma distributed, so that the share of
// 9-pixel shadows 10 dB down that lie below the threshold of a false alarm rate of 1e-3 is
// 0.9999, of 4-pixel ones 0.620, and of 9-pixel ones 3 dB down 0.061 (worked out from the
// regularised gamma function, for the one-sided test of a gamma mean). The detector's own
// pixels obey that law: on speckle it draws, the blocks it forms have these shares.
func TestShadowBlocksObeyTheGammaLaw(t *testing.T) {
	d := Detector{Bin: 0.05, Advance: 0.2}
	rng := rand.New(rand.NewPCG(1, 2))
	for _, c := range []struct {
		decibels   float64
		rows, cols int
		below      float64 // threshold on the mean of so many unit exponentials, for 1e-3
		want       float64
	}{
		{-10, 3, 3, 0.2612, 0.9999}, {-10, 2, 2, 0.1071, 0.6202}, {-3, 3, 3, 0.2612, 0.0613},
	} {
		const trials = 2000
		level := math.Pow(10, c.decibels/10)
		hit := 0
		for range trials / 100 {
			// A hundred patches in one record, far apart in range.
			rows := speckled(rng, 60, 100*260, 1e6, func(i, j int) float64 {
				if i >= 30 && i < 30+c.rows && j%260 >= 130 && j%260 < 130+c.cols {
					return level
				}
				return 1
			})
			b := d.NewBlock(rows)
			for k := range 100 {
				j := 260*k + 130
				if b.box(b.dark, 30, j, 30+c.rows, j+c.cols)/float64(c.rows*c.cols) < c.below {
					hit++
				}
			}
		}
		got := float64(hit) / trials
		// The background is an estimate of some thousand pixels, and binomial noise is left.
		if tol := 4*math.Sqrt(c.want*(1-c.want)/trials) + 0.012; math.Abs(got-c.want) > tol {
			t.Errorf("%g dB, %d by %d pixels: %.4f, want %.4f", c.decibels, c.rows, c.cols, got, c.want)
		}
	}
}

// A single bright pixel on exponential clutter is found with Pd = Pfa^(1/(1+SNR)) (any
// text on detection in exponential clutter): 0.2499 at 6 dB and 0.7192 at 13 dB for 1e-3.
// The detector has a little less, 0.243 and 0.715 in sixty thousand: it takes the brighter of
// two estimates of the surroundings, which lies over their mean.
func TestEchoPixelsObeyTheExponentialLaw(t *testing.T) {
	d := Detector{Bin: 0.05, Advance: 0.2}
	rng := rand.New(rand.NewPCG(3, 4))
	const pfa = 1e-3
	trials := 6000
	if testing.Short() {
		trials = 1500
	}
	threshold := -math.Log(pfa)
	for _, snr := range []float64{6, 13} {
		s := math.Pow(10, snr/10)
		want := math.Pow(pfa, 1/(1+s))
		hit := 0
		for range trials / 100 {
			rows := speckled(rng, 60, 100*260, 1e5, func(i, j int) float64 {
				if i == 30 && j%260 == 130 {
					return 1 + s
				}
				return 1
			})
			b := d.NewBlock(rows)
			for k := range 100 {
				if b.box(b.bright, 30, 260*k+130, 31, 260*k+131) > threshold {
					hit++
				}
			}
		}
		if got := float64(hit) / float64(trials); math.Abs(got-want) > 4*math.Sqrt(want*(1-want)/float64(trials))+0.004 {
			t.Errorf("%g dB: %.4f, want %.4f", snr, got, want)
		}
	}
}

// An echo with its shadow stands far over what speckle alone reaches.
func TestGreatestTellsAnObjectFromSpeckle(t *testing.T) {
	d := Detector{Bin: 0.05, Advance: 0.2}
	rng := rand.New(rand.NewPCG(5, 6))
	over := 0.0
	for range 20 {
		over = max(over, d.Greatest(d.NewBlock(speckled(rng, 40, 400, 1e6, even)), 10, 100, 30, 300))
	}
	object := speckled(rng, 40, 400, 1e6, func(i, j int) float64 {
		switch {
		case i < 17 || i >= 22:
			return 1
		case j >= 180 && j < 190:
			return 6
		case j >= 190 && j < 225:
			return 0.1
		}
		return 1
	})
	if got := d.Greatest(d.NewBlock(object), 10, 160, 30, 240); got < 2*over {
		t.Errorf("the object has %.1f, speckle up to %.1f", got, over)
	}
}
