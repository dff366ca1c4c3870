package exercise

import "dryline/seabed"

// Score says what counts and how much. Each limit is met or missed in
// proportion; the weights need not add up to anything.
type Score struct {
	Area                     []seabed.Point // to be covered; empty: the lines' own strip
	Coverage                 float64        // share of it wanted in the mosaic, 0..1
	OffLine                  float64        // largest distance off line wanted, metres
	AltitudeMin, AltitudeMax float64        // share of range scale
	PingsPerMetre            float64        // at least
	Pass                     float64        // score needed, 0..100
}

// Help is what help the trainee has while the exercise runs. It changes no
// result; who shows the exercise keeps to it.
type Help struct {
	Coach       bool    // hints are given
	TrueScene   bool    // the trainee may see the truth
	Pause       bool    // time may be stopped
	MostSpeedUp float64 // times real time at most; 0 is no limit
}
