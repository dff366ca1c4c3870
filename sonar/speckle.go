package sonar

import (
	"math"

	"dryline/seabed"
	"dryline/seabed/chance"
	"dryline/sonar/acoustics"

	"gonum.org/v1/gonum/stat/distuv"
)

// Speckle comes of the many scatterers in one cell interfering: the pressure
// is a circular Gaussian, the intensity exponential about its mean (Goodman,
// Speckle Phenomena in Optics, 2007). Where few scatterers share a cell the
// mean itself varies from cell to cell as a gamma variate of shape alpha, the
// number of scatterers in the cell, and the intensity is K-distributed
// (Abraham and Lyons, IEEE J. Oceanic Eng. 27, 800-813, 2002).
//
// Along range, bins that share a pulse share scatterers: the Gaussian is
// filtered by the pulse. Across pings the echo of the same ground
// changes as the array moves by half its length, which is what displaced phase
// centre arrays rely on (from memory): the field of a ping lies between those
// of two rows of the ground that far apart.
//
// Numbers come from a table of Gaussians entered at a place that depends on
// the row, the side and the channel: pings can be made in any order.
type speckle struct {
	table []complex64 // unit mean intensity, filtered by the pulse; begun again at its end, so that a row lies in one piece
	step  float64     // distance between independent rows, metres
}

const (
	speckleSize = 1 << 16 // of the table; a power of two
	speckleMask = speckleSize - 1
)

func newSpeckle(seed uint64, name string, pulse []float64, arrayLength float64, samples int) *speckle {
	rng := chance.Stream(seed, "sonar/speckle/"+name)
	raw := make([]complex128, speckleSize)
	for i := range raw {
		raw[i] = complex(rng.NormFloat64(), rng.NormFloat64())
	}
	energy := 0.0
	for _, a := range pulse {
		energy += a * a
	}
	s := &speckle{table: make([]complex64, speckleSize+samples), step: arrayLength / 2}
	scale := complex(math.Sqrt(0.5/energy), 0)
	for i := range speckleSize {
		var sum complex128
		for j, a := range pulse {
			sum += complex(a, 0) * raw[(i+j)&speckleMask]
		}
		s.table[i] = complex64(sum * scale)
	}
	for i := range samples {
		s.table[speckleSize+i] = s.table[i&speckleMask]
	}
	return s
}

// rows are the two rows of ground a ping's speckle lies between.
type rows struct {
	first, second int // where the table is entered
	a, b          float32
}

// rowsAt returns the rows at a run of the fish, for one side and channel.
func (s *speckle) rowsAt(run float64, salt uint64) rows {
	u := run / s.step
	j := math.Floor(u)
	enter := func(row float64) int {
		return int(chance.Mix(uint64(int64(row))^chance.Mix(salt)) & speckleMask)
	}
	// Powers add up to one at every place between the rows.
	sin, cos := math.Sincos((u - j) * math.Pi / 2)
	return rows{enter(j), enter(j + 1), float32(cos), float32(sin)}
}

// deviate is a normal deviate that belongs to bin k's ground.
func (s *speckle) deviate(r *rows, k int) float32 {
	p, q := s.table[(r.first+k+speckleSize/2)&speckleMask], s.table[(r.second+k+speckleSize/2)&speckleMask]
	return (r.a*real(p) + r.b*real(q)) * math.Sqrt2
}

// scatterers is how many strong scatterers a square metre holds, by class; 0
// for too many to count, as on the objects.
var scatterers = func() (counts [seabed.Classes]float32) {
	for _, name := range seabed.SedimentNames() {
		class, _ := seabed.ParseSediment(name)
		counts[class] = float32(acoustics.Sediment(name).Scatterers())
	}
	return counts
}()

// Cell is the area whose scatterers a sample of a channel has to itself, m^2: the width of
// the beam by the resolution in range.
func (e *Engine) Cell(channel, sample int) float64 { return float64(e.channels[channel].cell[sample]) }

// textures are gamma variates of mean one by shape and normal deviate: the
// spread of the local mean where few scatterers share a cell. Fewer than
// [FewestScatterers] count as that: the tail would be nothing but spikes.
type textures [textureShapes][textureSteps]float32

const (
	textureShapes = 8   // 0.25, 0.5 ... 32
	textureSteps  = 129 // deviates from -4 to 4
	manyShape     = 40  // above this it is plain speckle
)

// FewestScatterers is the least number of scatterers that a cell is taken to hold.
const FewestScatterers = 0.25

func newTextures() *textures {
	t := new(textures)
	for i := range t {
		shape := math.Exp2(float64(i) - 2)
		g := distuv.Gamma{Alpha: shape, Beta: shape}
		for j := range t[i] {
			z := 8*float64(j)/(textureSteps-1) - 4
			t[i][j] = float32(g.Quantile(distuv.UnitNormal.CDF(z)))
		}
	}
	return t
}

// at returns the texture of a shape at a normal deviate, between the tables of
// the shapes either side.
func (t *textures) at(shape, deviate float32) float32 {
	// The exponent and mantissa of a float read as one number are its binary
	// logarithm to within 0.09: near enough between tables an octave apart.
	bits := math.Float32bits(shape)
	u := min(max(float32(bits)*(1.0/(1<<23))-127+2, 0), textureShapes-1.001)
	i := int(u)
	f := u - float32(i)
	j := min(max(int(deviate*(textureSteps-1)/8+(textureSteps-1)/2+0.5), 0), textureSteps-1)
	return t[i][j] + f*(t[i+1][j]-t[i][j])
}

// pulseShape is the amplitude of the pulse on the bins with its sign, odd in
// number and centred, out to the last bin within pulseReach that holds more than
// a five-hundredth of the peak's power. The sign matters: it is the field that
// the pulse gathers, so what two samples share of it may cancel.
func pulseShape(p acoustics.Pulse, soundSpeed, bin float64) []float64 {
	const (
		pulseReach = 16
		least      = 0.045
	)
	half := 0
	for k := 1; k <= pulseReach; k++ {
		if p.Envelope(float64(k)*bin, soundSpeed) > least {
			half = k
		}
	}
	shape := make([]float64, 2*half+1)
	for i := range shape {
		shape[i] = p.Amplitude(float64(i-half)*bin, soundSpeed)
	}
	return shape
}
