package exercise

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
	Trains   []string // of a published standard, that it supports practice towards
	Source   []byte   // the file it was read from, whole
	Hash     string   // SHA-256 of Source, hex
	Files    []File   // that it names
	Seed     uint64   // default seed
	Start    time.Time

	Place       Place
	Sea         Sea
	Seabed      seabed.Spec
	Placed      []placing.Group // on it, besides its own objects
	Elsewhere   *Elsewhere      // where uncharted objects lie with another seed, or nil
	Vessel      vessel.Spec
	Tow         tow.Spec
	Instruments nav.Spec
	Sonar       sonar.Spec
	Lines       []Line
	Added       []Line // in the session: to fill holidays, to look at contacts again
	Plan        Plan
	given       *asGiven // what was set aside in the session, nil if nothing was
	Desk        survey.Settings
	Score       Score
	Help        Help
	Events      []Event // that go wrong on purpose
	Snags       []Snag
	Traffic     []Sail
}

// File is one that an exercise rests on: it is the exercise only with the very same.
type File struct {
	Name string // beside the exercise
	Hash string // SHA-256, hex
	Data []byte
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

// Help says how the trainee is helped while the exercise runs. But for the helmsman it
// changes no result; who shows the exercise keeps to it.
type Help struct {
	Coach       bool    // hints are given
	TrueScene   bool    // the trainee may see the truth
	Pause       bool    // time may be stopped
	Helmsman    bool    // orders may be spoken to the wheel and the winch
	Mishears    float64 // share of these that are taken for others
	MostSpeedUp float64 // times real time at most; 0 is no limit
	SideView    bool    // the view from the side is shown in an assessment too

	// Assessed says that it is flown as an assessment; no file says so.
	Assessed bool
}
