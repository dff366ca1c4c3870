package exercise

import "dryline/seabed"

// Score says what is wanted of a survey. Each limit is met or missed in proportion;
// how many points each is worth is the debrief's (sim/debrief/score.go).
type Score struct {
	Area                     []seabed.Point // to be covered; empty: the lines' own strip
	Coverage                 float64        // share of it wanted in the mosaic, 0..1
	OffLine                  float64        // largest distance off line wanted, metres
	AltitudeMin, AltitudeMax float64        // share of range scale
	PingsPerMetre            float64        // at least
	Pass                     float64        // score needed, 0..100
}
