package sonar

import "dryline/sonar/lanes"

// GroundStep is how finely a sonar reads the floor along its rays.
type GroundStep int

// The steps. A 900 kHz chirp resolves 2.4 cm: read every 8 cm the floor is smoother
// than what it would see, and answers up to 0.15 dB less far out. Coarse steps are for
// where there are no vector instructions and little time: the browser.
const (
	FineSteps   GroundStep = iota // 1/64 m throughout, in lanes, see package lanes
	CoarseSteps                   // 8 to 10 cm, or one bin if that is longer
)

// Metres is the length of a step, the shortest if they differ.
func (s GroundStep) Metres() float64 {
	if s == CoarseSteps {
		return shortestStep
	}
	return lanes.Step
}

// String says the length in words.
func (s GroundStep) String() string {
	if s == CoarseSteps {
		return "8 cm"
	}
	return "1/64 m"
}
