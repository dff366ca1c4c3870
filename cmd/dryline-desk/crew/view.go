package crew

import (
	"dryline/sim/coach"
	"dryline/sim/exercise"
	"dryline/sim/order"
	"dryline/sim/passage"
	"dryline/sim/survey"
	"dryline/sonar/mosaic"
	"dryline/sonar/waterfall"
	"dryline/vessel/nav"
)

// View is the session at one moment. It is never changed once handed over.
type View struct {
	Now      float64 // seconds
	Tick     int64
	Reading  nav.Reading
	Fix      survey.Fix
	Settings survey.Settings
	Recorder survey.Recorder
	Bridge   passage.Bridge
	Crests   []float64       // heights of the waves along the vessel as the crew sees them, see [CrestsAhead]
	Scene    *passage.Scene  // nil unless the exercise lets the truth be seen
	Hints    []coach.Hint    // that stand, the most severe first; none without a coach
	Stands   coach.Judgement // how it stands to what the exercise wants
	Contacts []survey.Contact
	CanUndo  bool // something done to contacts can be taken back
	CanRedo  bool // or done again
	Track    []survey.TrackPoint
	Lines    []string           // logged and closed, by name
	Added    []exercise.Line    // to those of the exercise, in the session
	Own      bool               // these are run, and those given are set aside
	Order    []exercise.Run     // of the plan
	Shares   map[string]float64 // of each line that was logged, the open one's among them, 0..1
	Unseen   *Unseen            // ground that lines passed and did not see, nil before the first
	Levels   []survey.RecordLevel
	Height   float64 // of the fish by the bottom track, metres

	Asked, Reached float64 // rate of time, and what the machine keeps up with
	Restored       float64 // share of a resumed session gone through, 1 when it is back where it was
	Done           bool
	Ended          string
	Complaint      string // why the last order was refused, empty if it was not
	Complaints     int    // how many were refused so far

	Carried  int             // orders carried out so far
	Pending  []order.Command // given, and not carried out before they are written down
	CutShort bool            // a resumed session could not be brought back all the way
}

// The first of the heights of [View.Crests] is so far ahead of the vessel's origin, and each of the others a
// step farther astern, metres.
const (
	CrestsAhead = 40.0
	CrestsStep  = 1.5
	crestsCount = 96
)

// Ping is one row of the waterfall.
type Ping struct {
	Number     uint64
	Fix        survey.Fix
	Height     float64 // metres
	RangeScale float64 // metres
	Locked     bool
	Line       string       // logged, empty if none
	Echo       []bool       // by channel, whether anything was heard
	Rows       [][2][]uint8 // by channel and side, levelled; whoever has shown them may let them go
	Plain      [][2][]uint8 // as they were recorded
}

// Tile is one tile of the mosaic as grey values, row by row from the south, 0
// for no data.
type Tile struct {
	I, J int // of its first cell
	Grey [mosaic.TileCells * mosaic.TileCells]uint8
}

func grey(t *mosaic.Tile) *Tile {
	g := &Tile{I: t.I, J: t.J}
	for n, looks := range t.Looks {
		if looks > 0 {
			g.Grey[n] = waterfall.Tone(t.Value[n])
		}
	}
	return g
}
