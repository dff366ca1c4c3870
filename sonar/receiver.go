package sonar

import "math"

// Receiver is how the recorder amplifies a channel: at slant range R, metres,
//
//	G + k log10(R) + 2 a R/1000 dB
//
// on the echo level, by the range that the recorder believes. With k = 30 and a
// the absorption of the water the sonar equation gives flat ground the same
// level at all ranges but for its grazing angle: spreading takes 40 log10(R),
// and the ground in the beam grows by 10 log10(R). What comes out above full
// scale of the sixteen bits is cut off there, and what comes out below one count
// is lost.
type Receiver struct {
	Gain          float64 // G, dB about its nominal setting
	TVGSpreading  float64 // k
	TVGAbsorption float64 // a, one way, dB/km
}

// amplify sets the gain by bin, of which each is so many metres to the recorder.
func (t *tuned) amplify(r Receiver, bin float64) {
	t.spec.Receiver = r
	for k := range t.gain {
		believed := (float64(k) + 0.5) * bin
		tvg := r.TVGSpreading*math.Log10(max(believed, 1)) + 2*r.TVGAbsorption*believed/1000
		t.gain[k] = float32(NominalCounts * math.Pow(10, (tvg+r.Gain-t.nominal)/20))
	}
}

// Amplify sets the receiver of a channel from the next ping on; no ping may be
// under way.
func (e *Engine) Amplify(channel int, r Receiver) { e.channels[channel].amplify(r, e.recorderBin) }

// FullScale is the highest sample that a recorder of sixteen bits writes.
const FullScale = 65535
