package sea

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"

	"dryline/seabed/chance"
)

// Conditions are the waves of an exercise.
type Conditions struct {
	Hs, Tp float64 // metres, seconds; a height of 0 is flat water
	Gamma  float64 // peak enhancement; 0 takes [PeakEnhancement]
	Toward float64 // grid bearing the waves travel to, radians
	Spread float64 // s of the spreading; 0 takes that of a wind sea
	Depth  float64 // metres, 0 for deep water
}

// Blown returns the waves that a wind of U10 m/s from a grid bearing raises
// over a fetch; see [Grow].
func Blown(wind, from, fetch, depth float64) Conditions {
	hs, tp := Grow(wind, fetch, depth)
	return Conditions{Hs: hs, Tp: tp, Toward: from + math.Pi, Depth: depth}
}

// Component is one long-crested wave,
//
//	a cos(k (x dx + y dy) - omega t + phase)
type Component struct {
	Amplitude  float64 // a, metres
	Omega      float64 // rad/s
	WaveNumber float64 // k, rad/m
	DX, DY     float64 // unit vector of where it travels
	Phase      float64 // radians
}

// At returns the component's surface at a place and a time, metres.
func (c *Component) At(x, y, t float64) float64 {
	return c.Amplitude * math.Cos(c.WaveNumber*(x*c.DX+y*c.DY)-c.Omega*t+c.Phase)
}

// windSpread is s for wind waves (Mitsuyasu et al., J. Phys. Oceanogr. 5, 1975;
// the round value for design is Goda's, Random Seas and Design of Maritime
// Structures, 1985; from memory).
const windSpread = 10

// waves is how many components make a sea.
const waves = 32

// wavesRecord is the usual length of a wave record, for which a significant
// height is stated, seconds.
const wavesRecord = 20 * 60

// Sea is a surface of waves. The zero value is flat.
type Sea struct{ components []Component }

// New draws the sea of a seed. Each wave stands for an equal share of the energy,
// so that many fall near the peak; each frequency is drawn within its share, so
// that no two differ by the same step and the sea never repeats. Directions are
// spread as cos^2s of half the angle from the mean (Longuet-Higgins, Cartwright
// and Smith, 1963), alike at all frequencies, and dealt to the waves at random.
//
// Amplitudes scatter about the spectrum as in a record of T = 20 minutes. The
// harmonics of such a record lie 1/T apart and have Rayleigh amplitudes each, so
// their energies are exponential, and a wave that stands for a band B has the
// mean energy of n = B T of them, a gamma variate of shape n and mean 1 (chi
// square with 2n degrees of freedom; n = 1 is Rayleigh). The height that 20
// minutes have, 4 sqrt(m0) of the record, then scatters by
//
//	1/2 sqrt(integral S^2 df / T) / m0 ,
//
// some 3 % in a wind sea (Tucker and Pitt, Waves in Ocean Engineering, 2001;
// from memory). In a longer stay the height keeps what was drawn. Left out: the
// flattening of the spectrum in shallow water.
func New(c Conditions, seed uint64) *Sea {
	const ripple = 1e-3 // metres, seconds: below these the water is flat
	if !(c.Hs > ripple && c.Tp > ripple) {
		return &Sea{}
	}
	if c.Gamma <= 0 {
		c.Gamma = PeakEnhancement(c.Hs, c.Tp)
	}
	if c.Spread <= 0 {
		c.Spread = windSpread
	}
	frequencies, directions := chance.Stream(seed, "sea/frequency"), chance.Stream(seed, "sea/direction")
	phases, amplitudes := chance.Stream(seed, "sea/phase"), chance.Stream(seed, "sea/amplitude")
	energy, angle := energyShares(JONSWAP(c.Hs, c.Tp, c.Gamma)), spreadShares(c.Spread)
	deal := directions.Perm(waves)

	s := &Sea{make([]Component, waves)}
	for i := range s.components {
		omega := energy.at((float64(i) + 0.1 + 0.8*frequencies.Float64()) / waves)
		bearing := c.Toward + angle.at((float64(deal[i])+directions.Float64())/waves)
		sin, cos := math.Sincos(bearing)
		band := energy.at((float64(i)+1)/waves) - energy.at(float64(i)/waves)
		harmonics := max(band/(2*math.Pi)*wavesRecord, 1)
		share := distuv.Gamma{Alpha: harmonics, Beta: harmonics, Src: amplitudes}.Rand()
		s.components[i] = Component{
			Amplitude:  c.Hs / 4 * math.Sqrt(2.0/waves*share),
			Omega:      omega,
			WaveNumber: WaveNumber(omega, c.Depth),
			DX:         sin, DY: cos,
			Phase: 2 * math.Pi * phases.Float64(),
		}
	}
	return s
}

// Components returns the waves; they are the sea's own and not to be changed.
func (s *Sea) Components() []Component { return s.components }

// Elevation returns the height of the surface in metres above still water.
func (s *Sea) Elevation(x, y, t float64) float64 {
	z := 0.0
	for i := range s.components {
		z += s.components[i].At(x, y, t)
	}
	return z
}

// shares is a density summed up: sum[i] of it lies below x[i].
type shares struct{ x, sum []float64 }

func (s *shares) add(x, amount float64) {
	if n := len(s.sum); n > 0 {
		amount += s.sum[n-1]
	}
	s.x, s.sum = append(s.x, x), append(s.sum, amount)
}

// at returns the x below which a share of the whole lies.
func (s *shares) at(share float64) float64 {
	want := share * s.sum[len(s.sum)-1]
	i, _ := slices.BinarySearch(s.sum, want)
	i = min(max(i, 1), len(s.sum)-1)
	step := s.sum[i] - s.sum[i-1]
	if step <= 0 {
		return s.x[i]
	}
	return s.x[i-1] + (s.x[i]-s.x[i-1])*min(max((want-s.sum[i-1])/step, 0), 1)
}

func energyShares(spectrum Spectrum) shares {
	var s shares
	for i := range steps {
		omega, width := spectrum.slice(i)
		s.add(omega+width/2, spectrum.Density(omega)*width)
	}
	return s
}

func spreadShares(s float64) shares {
	var angles shares
	const pieces = 2000
	for i := range pieces {
		middle := 2 * math.Pi * ((float64(i)+0.5)/pieces - 0.5)
		angles.add(middle+math.Pi/pieces, math.Pow(math.Cos(middle/2), 2*s))
	}
	return angles
}
