package seabed

import (
	"math"

	"dryline/seabed/chance"

	"gonum.org/v1/gonum/dsp/fourier"
)

// Patches are periodic squares of microSide nodes. Those of the micro-relief have
// nodes microStep metres apart.
const (
	microSide = 512
	microStep = 0.08
	microMask = microSide - 1
)

// patch is one periodic square of relief, heights in metres. Indices under the mask
// need no check against a fixed length.
type patch [microSide * microSide]float32

// newPatch synthesises a patch with the roughness spectrum
//
//	W2(K) = w2 (K^2 + K0^2)^(-gamma/2) ,  gamma = 3.25 ,  w2 = 0.00207 h^2
//
// for a roughness of h = 1 m over one metre, between two wavelengths; its nodes are
// step metres apart. With K0 = 0 it is the power law of APL-UW TR 9407 (1994),
// section IV, equations 7, 8 and 10 (K in 1/cm, h in cm). K0 = 2 pi / outer ends it
// towards long waves; an outer without end does not. Left out: anisotropy.
func newPatch(step, shortest, longest, outer float64, seed uint64, name string) *patch {
	const (
		gamma = 3.25
		cm    = 0.01
		w2    = 0.00207 / (cm * cm)
	)
	rng := chance.Stream(seed, "seabed/micro/"+name)
	field := make([]complex128, microSide*microSide)
	kMin, kMax := 2*math.Pi/longest, 2*math.Pi/shortest
	kOuter := 2 * math.Pi / outer
	dk := 2 * math.Pi / (microSide * step)
	for j := range microSide {
		for i := range microSide {
			k := dk * math.Hypot(float64(wrapped(i)), float64(wrapped(j)))
			re, im := rng.NormFloat64(), rng.NormFloat64()
			if k >= kMin && k <= kMax {
				a := math.Sqrt(w2*math.Pow(math.Hypot(k, kOuter)*cm, -gamma)) * cm * cm * dk
				field[j*microSide+i] = complex(a*re, a*im)
			}
		}
	}
	transform2(field)
	// The real part of a field of independent complex amplitudes has the
	// spectrum asked for; the imaginary part is a second sample, not needed.
	p := new(patch)
	for i, c := range field {
		p[i] = float32(real(c))
	}
	return p
}

// wrapped maps an FFT index to its signed frequency.
func wrapped(i int) int {
	if i > microSide/2 {
		return i - microSide
	}
	return i
}

func transform2(field []complex128) {
	fft := fourier.NewCmplxFFT(microSide)
	for j := range microSide {
		row := field[j*microSide : (j+1)*microSide]
		fft.Sequence(row, row)
	}
	const abreast = 8 // columns at once: a row of one alone would be fetched for a place of it
	var columns [abreast][microSide]complex128
	for i := 0; i < microSide; i += abreast {
		for j := range microSide {
			for k, c := range field[j*microSide+i : j*microSide+i+abreast] {
				columns[k][j] = c
			}
		}
		for k := range columns {
			fft.Sequence(columns[k][:], columns[k][:])
		}
		for j := range microSide {
			for k := range columns {
				field[j*microSide+i+k] = columns[k][j]
			}
		}
	}
}

// at interpolates the patch bilinearly at (u, v) in nodes; u and v must be
// positive.
func (p *patch) at(u, v float64) float64 {
	i, j := int(u), int(v)
	fu, fv := u-float64(i), v-float64(j)
	j0, j1 := (j&microMask)*microSide, ((j+1)&microMask)*microSide
	i0, i1 := i&microMask, (i+1)&microMask
	a := float64(p[j0+i0]) + fu*float64(p[j0+i1]-p[j0+i0])
	b := float64(p[j1+i0]) + fu*float64(p[j1+i1]-p[j1+i0])
	return a + fv*(b-a)
}

// newTufts makes a patch of plants: clumps that stand out of bare ground, as
// half of a smoothed roughness patch squared, with the mean taken off and the
// rms height set to 1. A choice of our own: seagrass is a canopy, not grains.
func newTufts(seed uint64) *patch {
	p := newPatch(microStep, 2*microStep, longestMicro, math.Inf(1), seed, "tufts")
	_, rms := p.moments()
	smooth := new(patch)
	for j := range microSide {
		for i := range microSide {
			sum := float32(0)
			for dj := -1; dj <= 1; dj++ {
				for di := -1; di <= 1; di++ {
					sum += p[(j+dj)&microMask*microSide+(i+di)&microMask]
				}
			}
			z := max(sum/9/float32(rms)+0.2, 0)
			smooth[j*microSide+i] = z * z
		}
	}
	mean, rms := smooth.moments()
	for i, z := range smooth {
		smooth[i] = float32((float64(z) - mean) / rms)
	}
	return smooth
}

// moments returns the mean height and the rms height about it.
func (p *patch) moments() (mean, rms float64) {
	square := 0.0
	for _, z := range p {
		mean += float64(z) / float64(len(p))
		square += float64(z) * float64(z) / float64(len(p))
	}
	return mean, math.Sqrt(square - mean*mean)
}
