package sonar

import (
	"math"

	"dryline/sonar/recorder"
)

// amplify sets the gain by bin, of which each is so many metres to the recorder.
func (t *tuned) amplify(r recorder.Receiver, bin float64) {
	t.spec.Receiver = r
	for k := range t.gain {
		believed := (float64(k) + 0.5) * bin
		t.gain[k] = float32(NominalCounts * math.Pow(10, (r.TVG(believed)+r.Gain-t.nominal)/20))
	}
}

// Amplify sets the receiver of a channel from the next ping on; no ping may be
// under way.
func (e *Engine) Amplify(channel int, r recorder.Receiver) {
	e.channels[channel].amplify(r, e.recorderBin)
}
