package sonar

import (
	"fmt"
	"math"
	"sync"

	"dryline/sonar/acoustics"
)

// NominalCounts is where an ordinary echo (sand at middle range) lies at
// nominal gain: 24 dB below full scale.
const NominalCounts = 4000.0

// tuned is a channel with all that does not change from ping to ping.
type tuned struct {
	spec       Channel
	wavelength float64
	array      acoustics.LineArray
	width      float64 // two-way equivalent rectangular beam, radians
	halfPower  float64 // two-way half-power beam, radians
	oneWay     float64 // one-way half-power beam, radians
	beam       *alongTrack
	strength   func() *strengths // of ground without micro-relief, which few ask for
	drawn      *strengths        // of the facets of ground with micro-relief
	propagate  []float32         // per bin: source level, two-way spreading and absorption
	noise      float32           // intensity in the band, after directivity
	nominal    float64           // echo level that is [NominalCounts] without any gain, dB re 1 uPa
	gain       []float32         // per bin: TVG and recorder gain on amplitude, counts
	kernel     []float32         // power of the pulse over the bins, sum one, odd in number
	speckle    *speckle
	cell       []float32 // per bin: width of the beam by range resolution, m^2
	vertical   []float64 // two-way vertical pattern by angle below horizontal
	quiet      quiet
}

const (
	density         = 1027.0 // of sea water, kg/m^3, for thermal noise
	verticalSteps   = 2048   // of the vertical pattern over a whole turn
	nominalStrength = -22.0  // dB: medium sand near 20 deg at side-scan frequencies
	backLobe        = -28.0  // dB, of a baffled array
	// nullFill keeps the vertical pattern from the nulls of its line, dB one way:
	// housing and edge of the baffle scatter. Common practice, no source; the first
	// return from straight below owes all it has to it.
	nullFill = -15.5
)

func (e *Engine) tune(c Channel) (*tuned, error) {
	t := &tuned{spec: c, wavelength: e.soundSpeed / c.Frequency}
	shading, err := shadingOf(c.ArrayShading)
	if err != nil {
		return nil, fmt.Errorf("sonar: channel %s: array: %w", c.Name, err)
	}
	t.array = acoustics.LineArray{Length: c.ArrayLength, Shading: shading}
	t.width = t.array.EquivalentWidth(t.wavelength)
	t.halfPower = t.array.TwoWayHalfPowerWidth(t.wavelength)
	t.oneWay = t.array.HalfPowerWidth(t.wavelength)
	t.beam = e.newAlongTrack(t)
	t.strength = sync.OnceValue(func() *strengths {
		s, _ := newStrengths(c.Frequency, e.soundSpeed, e.sea.FlatTrend, false) // the other is refused just so
		return s
	})
	if t.drawn, err = newStrengths(c.Frequency, e.soundSpeed, e.sea.FlatTrend, true); err != nil {
		return nil, err
	}
	alpha, err := acoustics.Absorption(e.sea.Absorption, c.Frequency, e.sea.Temperature, e.sea.Salinity, e.sea.Depth, e.sea.PH)
	if err != nil {
		return nil, fmt.Errorf("sonar: channel %s: %w", c.Name, err)
	}
	if shading, err = shadingOf(c.PulseShading); err != nil {
		return nil, fmt.Errorf("sonar: channel %s: pulse: %w", c.Name, err)
	}
	pulse := acoustics.Pulse{Duration: c.PulseLength, Bandwidth: c.Bandwidth, Shading: shading}
	resolution := pulse.Resolution(e.soundSpeed)
	shape := pulseShape(pulse, e.soundSpeed, e.bin)
	power := 0.0
	for _, a := range shape {
		power += a * a
	}
	for _, a := range shape {
		t.kernel = append(t.kernel, float32(a*a/power))
	}
	t.speckle = newSpeckle(e.seed, c.Name, shape, c.ArrayLength, e.spec.Samples)

	// One bin holds the echo of one bin of floor; the matched filter gathers the
	// pulse's energy, so a chirp gains its processing gain over the noise.
	t.propagate = make([]float32, e.spec.Samples+1)
	t.gain = make([]float32, e.spec.Samples)
	t.cell = make([]float32, e.spec.Samples)
	t.nominal = c.SourceLevel + nominalStrength + acoustics.Decibels(t.width*resolution)
	for k := range e.spec.Samples {
		r := (float64(k) + 0.5) * e.bin
		level := c.SourceLevel - 2*acoustics.TransmissionLoss(max(r, 1), alpha)
		// The step energies are sums over a bin of floor; a pulse as long as the
		// resolution would gather this many bins' worth at once.
		t.propagate[k] = float32(acoustics.FromDecibels(level) * resolution / e.bin * t.beam.between(r, (*beamAt).gained))
		t.cell[k] = float32(t.beam.between(r, (*beamAt).wide) * resolution)
	}
	t.amplify(c.Receiver, e.recorderBin)
	vertical := acoustics.VerticalBeam{
		Array:      acoustics.LineArrayForWidth(e.spec.VerticalBeam, t.wavelength, acoustics.Shading{}),
		Depression: e.spec.Depression,
		BackLobe:   backLobe,
		Fill:       nullFill,
	}
	t.vertical = make([]float64, verticalSteps)
	for i := range t.vertical {
		t.vertical[i] = vertical.TwoWay(angleOf(i), t.wavelength)
	}
	t.noise = float32(e.noiseOf(c, t, vertical.Array.Length, pulse))
	t.quiet = e.newQuiet(t)
	return t, nil
}

// shadingOf is the shading of a name, uniform if there is none.
func shadingOf(name string) (acoustics.Shading, error) {
	if name == "" {
		return acoustics.Shading{}, nil
	}
	return acoustics.ShadingNamed(name)
}

// noiseOf is the intensity of all noise after the receiver: thermal, wind and
// the receiver's own, in the band, less the directivity of the array, less
// the processing gain of a chirp.
func (e *Engine) noiseOf(c Channel, t *tuned, height float64, pulse acoustics.Pulse) float64 {
	spectrum := acoustics.AddLevels(
		acoustics.AmbientNoise(c.Frequency, e.sea.Wind, e.sea.Temperature, density, e.soundSpeed),
		acoustics.ThermalNoise(c.Frequency, e.sea.Temperature, density, e.soundSpeed)+c.NoiseFigure,
	)
	di := acoustics.PistonDirectivityIndex(c.ArrayLength, height, t.wavelength)
	level := acoustics.BandNoise(spectrum, pulse.NoiseBandwidth(), di) - pulse.ProcessingGain()
	return acoustics.FromDecibels(level)
}

// angleOf is the angle below horizontal of a step of the vertical pattern.
func angleOf(step int) float64 {
	return 2*math.Pi*float64(step)/verticalSteps - math.Pi
}

// longestKernel is how many bins the longest pulse of the channels takes.
func (e *Engine) longestKernel() int {
	longest := 0
	for _, t := range e.channels {
		longest = max(longest, len(t.kernel))
	}
	return longest
}
