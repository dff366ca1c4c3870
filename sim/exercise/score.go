package exercise

import (
	"dryline/seabed"
	"dryline/sim/mark"
)

// Score says what is wanted of a survey, what it must not fall short of, and what each
// is worth.
type Score struct {
	Rules                    string         // id of the rule set it is marked by, empty for none
	Area                     []seabed.Point // to be covered; empty: the lines' own strip
	Coverage                 float64        // share of it wanted, as it counts, 0..1
	Nadir                    bool           // ground under the fish counts only where a neighbour looks at it
	OffLine                  float64        // largest distance of the fish off line wanted, metres
	AltitudeMin, AltitudeMax float64        // share of range scale
	PingsPerMetre            float64        // at least
	ContactWithin            float64        // how far a mark may be from its object, metres; 0 is the survey's own
	Beta                     float64        // how much more a find counts than a false mark; 0 is 1
	Pass                     float64        // score needed, 0..100
	Weights                  mark.Weights   // of the items; nil is [mark.Default]
	Gates                    Gates
}

// Gates fail an exercise whatever the points.
type Gates struct {
	Coverage float64 // least share of the area that counts; 0 is 0.8 of what is wanted
	Aground  float64 // how long the fish may touch anything, seconds; 0 is [AgroundAllowed]
	Turn     float64 // share of the logged pings that may be from a turn; 0 is [TurnAllowed]
	Report   bool    // a contact report is asked for, where there is anything to report

	RubTest   bool    // both sides are to be rubbed before the first line
	Recovered float64 // most cable that may be out at the end, metres; 0 is any
}

// What the gates allow where an exercise does not say: our own choice.
const (
	AgroundAllowed = 2.0  // seconds
	TurnAllowed    = 0.05 // of the logged pings
	RequiredShare  = 0.8  // of the coverage wanted
)

// Within are the gates with what was not said filled in.
func (s *Score) Within() Gates {
	g := s.Gates
	if g.Coverage == 0 {
		g.Coverage = RequiredShare * s.Coverage
	}
	if g.Aground == 0 {
		g.Aground = AgroundAllowed
	}
	if g.Turn == 0 {
		g.Turn = TurnAllowed
	}
	return g
}
