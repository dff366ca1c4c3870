// Package recorder is the sonar's recorder as a surveyor sees it: how it is set to
// amplify a channel, and the counts it writes. It knows neither water nor floor,
// so that the desk, which may not know them either, can name its settings.
package recorder

import "math"

// FullScale is the highest sample that a recorder of sixteen bits writes, counts.
const FullScale = 65535

// Receiver is how a channel is amplified, as the surveyor sets it: at slant range
// R, metres,
//
//	G + k log10(R) + 2 a R/1000 dB
//
// on the echo level, by the range that the recorder believes. With k = 30 and a
// the absorption of the water the sonar equation gives flat ground the same
// level at all ranges but for its grazing angle: spreading takes 40 log10(R),
// and the ground in the beam grows by 10 log10(R). What comes out above full
// scale is cut off there, and what comes out below one count is lost.
type Receiver struct {
	Gain          float64 // G, dB about its nominal setting
	TVGSpreading  float64 // k
	TVGAbsorption float64 // a, one way, dB/km
}

// TVG is the time-varying gain at a slant range, metres: what is added to G, dB.
// Nearer than a metre the spreading is that at a metre.
func (r Receiver) TVG(slant float64) float64 {
	return r.TVGSpreading*math.Log10(max(slant, 1)) + 2*r.TVGAbsorption*slant/1000
}
