package sim

import (
	"time"

	"dryline/seabed"
	"dryline/seabed/placing"
	"dryline/sim/survey"
	"dryline/sonar"
	"dryline/vessel"
	"dryline/vessel/nav"
	"dryline/vessel/nav/geodesy"
	"dryline/vessel/sea"
	"dryline/vessel/tow"
)

// Exercise is one training set-up in engine units, ready to run.
type Exercise struct {
	Name     string // short, used in file names
	Title    string
	Briefing string
	Goals    []string // what the trainee should learn, a sentence each
	Source   []byte   // the file it was read from, whole
	Hash     string   // SHA-256 of Source, hex
	Seed     uint64   // default seed
	Start    time.Time

	Place       Place
	Sea         Sea
	Seabed      seabed.Spec
	Placed      []placing.Group // on it, besides its own objects
	Vessel      vessel.Spec
	Tow         tow.Spec
	Instruments nav.Spec
	Sonar       sonar.Spec
	Lines       []Line
	Plan        Plan
	Desk        survey.Settings
	Score       Score
	Help        Help
}

// Place is where the world lies on the globe.
type Place struct {
	Name string
	Grid geodesy.LocalGrid
}

// Sea is the water and the weather.
type Sea struct {
	Water               sonar.Sea
	WindSpeed, WindFrom float64 // mean, m/s; grid bearing it blows from, radians
	Gusty               bool    // the wind gusts about its mean
	Waves               sea.Conditions
	Current             sea.Profile
	Tide                sea.Tide
}

// Line is a survey line, run from A to B.
type Line struct {
	Name string
	A, B seabed.Point
}

// Track returns the line as the autopilot follows it; reversed from B to A.
func (l Line) Track(reversed bool) geodesy.Track {
	if reversed {
		return geodesy.Track{AX: l.B.X, AY: l.B.Y, BX: l.A.X, BY: l.A.Y}
	}
	return geodesy.Track{AX: l.A.X, AY: l.A.Y, BX: l.B.X, BY: l.B.Y}
}

// Plan tells the mate how to run the lines unattended.
type Plan struct {
	Order     []Run
	Speed     float64 // over ground, m/s
	CableOut  float64 // at the start, metres
	RunIn     float64 // straight before the start of a line, metres
	RunOut    float64 // beyond its end, metres, besides the layback
	Lookahead float64 // of the line-of-sight guidance, metres

	Turn       vessel.Turn // from line to line
	TurnRadius float64     // metres

	// Altitude held by winch, from the fish altimeter; 0 leaves the cable alone.
	Altitude     float64 // metres
	AltitudeBand float64 // change the cable only when further off than this, metres

	TimeLimit float64 // seconds after which the exercise ends whatever is left
}

// Run is one line of the plan in the direction it is run.
type Run struct {
	Line     int // index in Exercise.Lines
	Reversed bool
}

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
