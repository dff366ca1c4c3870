package sonar

import "math"

const (
	dipSteps  = 1024  // of the vertical pattern, by sine
	rollStep  = 0.001 // the pattern is turned in these steps, radians
	tiltsKept = 64    // turned patterns: some two degrees of roll to each side
)

// tilts are vertical patterns as they lie for a roll. A fish rolls to and fro, and either side looks down by what the
// other looks up.
type tilts struct {
	depths []float64 // angle below horizontal of each step of the patterns
	kept   [tiltsKept]tilt
}

// tilt is the pattern of every channel for a roll in steps.
type tilt struct {
	key      int
	laid     bool
	vertical [][]float32 // two-way, by sine of the angle below horizontal
}

func (e *Engine) newTilts() tilts {
	t := tilts{depths: make([]float64, dipSteps)}
	for i := range t.depths {
		t.depths[i] = math.Asin(2*(float64(i)+0.5)/dipSteps - 1)
	}
	for k := range t.kept {
		for range e.channels {
			t.kept[k].vertical = append(t.kept[k].vertical, make([]float32, dipSteps))
		}
	}
	return t
}

// tilt turns each channel's vertical pattern to the roll of this side (positive: the side
// looks further down).
func (ws *Workspace) tilt(e *Engine, roll float64) {
	key := int(math.Round(roll / rollStep))
	if key == ws.rolled {
		return
	}
	ws.rolled = key
	turned := &ws.tilts.kept[key&(tiltsKept-1)]
	if !turned.laid || turned.key != key {
		turned.key, turned.laid = key, true
		roll = float64(key) * rollStep
		for c, t := range e.channels {
			v := turned.vertical[c]
			for i, depth := range ws.tilts.depths {
				step := int((depth - roll + math.Pi) * (verticalSteps / (2 * math.Pi)))
				v[i] = float32(t.vertical[step&(verticalSteps-1)])
			}
		}
	}
	for c := range ws.lanes {
		ws.lanes[c].vertical = turned.vertical[c]
	}
}
