package sea

import (
	"math"
	"testing"
)

// What the components say is what the surface does through a day at one place:
// half the sum of squares is its variance, and independent sines have kurtosis
// 3 - 3/2 sum(a^4)/sum(a^2)^2 (exact mathematics).
func TestSurfaceIsTheSumOfItsWaves(t *testing.T) {
	for _, seed := range []uint64{1, 2, 3} {
		s := New(Conditions{Hs: 1.2, Tp: 4.5, Depth: 15}, seed)
		m0, fourth := 0.0, 0.0
		for _, c := range s.Components() {
			m0 += c.Amplitude * c.Amplitude / 2
			fourth += math.Pow(c.Amplitude, 4)
		}
		sum, squares, quartic := 0.0, 0.0, 0.0
		const n = 100000
		for i := range n {
			z := s.Elevation(30, -12, 0.87*float64(i))
			sum, squares, quartic = sum+z, squares+z*z, quartic+z*z*z*z
		}
		if mean := sum / n; math.Abs(mean) > 2e-3 {
			t.Errorf("seed %d: got mean %.4f m, want 0", seed, mean)
		}
		if got := squares / n; math.Abs(got-m0) > 0.01*m0 {
			t.Errorf("seed %d: got variance %.5f m^2, want %.5f", seed, got, m0)
		}
		if got, want := quartic/n/(m0*m0), 3-1.5*fourth/(4*m0*m0); math.Abs(got-want) > 0.15 {
			t.Errorf("seed %d: got kurtosis %.3f, want %.3f", seed, got, want)
		}
	}
}

// Over seeds m0 is (Hs/4)^2, by definition of Hs, and the height of 20 minutes
// scatters as that of a Gaussian sea does,
//
//	1/2 sqrt(integral S^2 df / T) / m0
//
// (spectral theory; about 3 % by Tucker and Pitt, Waves in Ocean Engineering,
// 2001, from memory), summed up here over S by itself.
func TestHeightOfTwentyMinutesScatters(t *testing.T) {
	for _, c := range []Conditions{{Hs: 0.5, Tp: 3, Gamma: 3.3}, {Hs: 1, Tp: 4.5, Gamma: 1.8}, {Hs: 1.2, Tp: 6, Gamma: 1}} {
		const seeds, record = 400, 1200
		sum, squares, energy := 0.0, 0.0, 0.0
		for seed := range uint64(seeds) {
			s := New(c, seed)
			m0, mean := 0.0, 0.0
			for i := range record {
				z := s.Elevation(0, 0, float64(i))
				m0, mean = m0+z*z/record, mean+z/record
			}
			m0 -= mean * mean
			hs := 4 * math.Sqrt(m0)
			sum, squares, energy = sum+hs, squares+hs*hs, energy+m0
		}
		if got, want := energy/seeds, c.Hs*c.Hs/16; math.Abs(got-want) > 0.015*want { // 4 sigma
			t.Errorf("%+v: got mean variance %.5f m^2, want %.5f", c, got, want)
		}
		spectrum := JONSWAP(c.Hs, c.Tp, c.Gamma)
		integral := 0.0
		for omega := 0.0005; omega < 40; omega += 0.001 {
			s := 2 * math.Pi * spectrum.Density(omega) // to the hertz
			integral += s * s * 0.001 / (2 * math.Pi)
		}
		want := math.Sqrt(integral/record) / (2 * c.Hs * c.Hs / 16)
		if want < 0.025 || want > 0.04 {
			t.Errorf("%+v: theory gives %.4f, want about 3 %%", c, want)
		}
		mean := sum / seeds
		if got := math.Sqrt(squares/seeds-mean*mean) / mean; math.Abs(got-want) > 0.15*want {
			t.Errorf("%+v: the height scatters by %.4f of itself, want %.4f", c, got, want)
		}
	}
}

// Components obey the dispersion relation of their depth, travel by unit
// vectors, and the middle of their energy is that of the spectrum.
func TestSeaFollowsItsSpectrum(t *testing.T) {
	c := Conditions{Hs: 1.2, Tp: 4.5, Gamma: 2, Toward: 1, Depth: 8}
	spectrum := JONSWAP(c.Hs, c.Tp, c.Gamma)
	s := New(c, 11)
	below := 0
	half := 0.0
	for omega, sum := 0.001, 0.0; sum < 0.09/2; omega += 0.001 {
		sum += 0.001 * spectrum.Density(omega)
		half = omega
	}
	seen := map[float64]bool{}
	for _, w := range s.Components() {
		if got := math.Sqrt(gravity * w.WaveNumber * math.Tanh(w.WaveNumber*8)); math.Abs(got-w.Omega) > 1e-12 {
			t.Errorf("k %.4f belongs to omega %.6f, has %.6f", w.WaveNumber, got, w.Omega)
		}
		if got := math.Hypot(w.DX, w.DY); math.Abs(got-1) > 1e-12 {
			t.Errorf("direction has length %.15f, want 1", got)
		}
		if w.Omega < half {
			below++
		}
		seen[w.Omega] = true
	}
	if below < waves/2-1 || below > waves/2+1 {
		t.Errorf("got %d of %d waves below the middle of the spectrum, want half", below, waves)
	}
	if len(seen) != waves {
		t.Errorf("got %d frequencies, want %d different ones", len(seen), waves)
	}
}

// The mean of cos(theta) under cos^2s(theta/2) is s/(s+1) (Longuet-Higgins,
// Cartwright and Smith, 1963; a beta integral).
func TestSeaSpreadsAboutItsDirection(t *testing.T) {
	for _, spread := range []float64{2, 10, 75} {
		for _, toward := range []float64{0, 2, -1.3} {
			ahead, aside, n := 0.0, 0.0, 0.0
			for seed := range uint64(20) {
				for _, w := range New(Conditions{Hs: 1, Tp: 5, Toward: toward, Spread: spread}, seed).Components() {
					sin, cos := math.Sincos(toward)
					ahead, aside, n = ahead+w.DX*sin+w.DY*cos, aside+w.DX*cos-w.DY*sin, n+1
				}
			}
			if got, want := ahead/n, spread/(spread+1); math.Abs(got-want) > 0.005 {
				t.Errorf("s %g toward %g: got mean cosine %.4f, want %.4f", spread, toward, got, want)
			}
			if got := aside / n; math.Abs(got) > 0.01 {
				t.Errorf("s %g toward %g: got mean sine %.4f, want 0", spread, toward, got)
			}
		}
	}
}

// A crest moves at omega/k the way it should.
func TestComponentTravels(t *testing.T) {
	c := Component{Amplitude: 1, Omega: 1.3, WaveNumber: WaveNumber(1.3, 0), DX: 0.6, DY: 0.8, Phase: 0.4}
	speed := c.Omega / c.WaveNumber
	for _, s := range []float64{0, 3, 11} {
		if got, want := c.At(speed*s*0.6, speed*s*0.8, s), c.At(0, 0, 0); math.Abs(got-want) > 1e-12 {
			t.Errorf("riding along for %g s: got %.6f m, want %.6f", s, got, want)
		}
	}
	// Where it starts, the crest comes when omega t is the phase.
	if got := c.At(0, 0, c.Phase/c.Omega); math.Abs(got-1) > 1e-12 {
		t.Errorf("at the crest: got %.6f m, want 1", got)
	}
}

func TestSeaRepeatsBySeedOnly(t *testing.T) {
	c := Blown(9, 2, 30e3, 20)
	a, again, other := New(c, 5), New(c, 5), New(c, 6)
	if got, want := again.Elevation(3, 4, 500), a.Elevation(3, 4, 500); got != want {
		t.Errorf("same seed: got %g, want %g", got, want)
	}
	if a.Elevation(3, 4, 500) == other.Elevation(3, 4, 500) {
		t.Error("two seeds gave one sea")
	}
	// Two windows of ten minutes an hour apart are not the same sea.
	same := 0.0
	for i := range 600 {
		s := float64(i)
		same += a.Elevation(0, 0, s) * a.Elevation(0, 0, s+3600)
	}
	if got, most := same/600, 0.5*c.Hs*c.Hs/16; math.Abs(got) > most {
		t.Errorf("an hour later: covariance %.5f m^2, want below %.5f", got, most)
	}
}

// A wind from the west raises waves that go east.
func TestBlownGoesWithTheWind(t *testing.T) {
	east := 0.0
	for _, w := range New(Blown(10, 270*math.Pi/180, 20e3, 0), 1).Components() {
		east += w.DX / waves
	}
	if math.Abs(east-10.0/11) > 0.03 {
		t.Errorf("got mean direction %.3f east, want %.3f", east, 10.0/11)
	}
}

func TestNoWindIsFlat(t *testing.T) {
	s := New(Blown(0, 1, 0, 10), 3)
	if n := len(s.Components()); n != 0 {
		t.Errorf("got %d waves, want none", n)
	}
	if z := s.Elevation(1, 2, 3); z != 0 {
		t.Errorf("got %g m, want 0", z)
	}
}

func TestElevationAllocatesNothing(t *testing.T) {
	s := New(Blown(10, 1, 0, 10), 3)
	if n := testing.AllocsPerRun(100, func() { s.Elevation(1, 2, 3) }); n != 0 {
		t.Errorf("got %g allocations, want 0", n)
	}
}

func BenchmarkElevation(b *testing.B) {
	s := New(Blown(10, 1, 0, 10), 3)
	at := 0.0
	for b.Loop() {
		at += 0.1
		s.Elevation(10, 20, at)
	}
}
