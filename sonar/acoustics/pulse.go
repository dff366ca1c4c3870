package acoustics

import "math"

// CWResolution returns the range resolution c τ/2, in metres, of a pulse of
// constant frequency.
func CWResolution(durationS, soundSpeed float64) float64 { return soundSpeed * durationS / 2 }

// ChirpResolution returns the range resolution c/2B, in metres, of a chirp
// after compression.
func ChirpResolution(bandwidthHz, soundSpeed float64) float64 { return soundSpeed / (2 * bandwidthHz) }

// Pulse is the sound that the sonar sends. Without a bandwidth it is a plain tone burst;
// with one, a chirp of constant level that the receiver compresses.
type Pulse struct {
	Duration  float64 // τ, s
	Bandwidth float64 // B, Hz; zero for a tone burst
	Shading   Shading // weights of the compression over the band
}

// Resolution returns the range extent in metres of the ideal pulse of equal
// peak and energy: c τ/2 for a tone burst, c/2B for a chirp without shading and
// longer with it.
func (p Pulse) Resolution(soundSpeed float64) float64 {
	if p.Bandwidth == 0 {
		return CWResolution(p.Duration, soundSpeed)
	}
	return ChirpResolution(p.Bandwidth, soundSpeed) / p.Shading.Efficiency()
}

// HalfPowerWidth returns the range extent in metres between the half-power
// points of the received envelope: c τ/2 for a tone burst, 0.886 c/2B for a
// chirp without shading.
func (p Pulse) HalfPowerWidth(soundSpeed float64) float64 {
	if p.Bandwidth == 0 {
		return CWResolution(p.Duration, soundSpeed)
	}
	u := p.Shading.crossing(math.Sqrt2 / 2)
	return 2 * u / math.Pi * ChirpResolution(p.Bandwidth, soundSpeed)
}

// Amplitude returns the received pulse over its peak, for a reflector that lies
// offset metres of slant range from the sample; a compressed chirp changes sign
// from side lobe to side lobe. It is that of a time-bandwidth product well above
// one.
func (p Pulse) Amplitude(offset, soundSpeed float64) float64 {
	if p.Bandwidth == 0 {
		if math.Abs(offset) <= CWResolution(p.Duration, soundSpeed)/2 {
			return 1
		}
		return 0
	}
	return p.Shading.Transform(math.Pi * offset / ChirpResolution(p.Bandwidth, soundSpeed))
}

// Envelope returns the size of [Pulse.Amplitude].
func (p Pulse) Envelope(offset, soundSpeed float64) float64 {
	return math.Abs(p.Amplitude(offset, soundSpeed))
}

// ProcessingGain returns the gain of the compression in signal-to-noise ratio,
// in dB: 10 log10(B τ), less the loss of the shading; zero for a tone burst.
func (p Pulse) ProcessingGain() float64 {
	if p.Bandwidth == 0 {
		return 0
	}
	return Decibels(p.Bandwidth * p.Duration * p.Shading.Efficiency())
}

// NoiseBandwidth returns the band in hertz through which noise reaches a
// receiver matched to the pulse, before compression: B, or 1/τ for a tone
// burst.
func (p Pulse) NoiseBandwidth() float64 {
	if p.Bandwidth == 0 {
		return 1 / p.Duration
	}
	return p.Bandwidth
}
