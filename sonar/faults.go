package sonar

import "dryline/sonar/acoustics"

// Faults lists what ails the channels of the fish, by side: found by the daily check of
// a sonar with an object at the outer range and a hand that rubs the transducers (NOAA
// Field Procedures Manual, 1.5.7.2).
type Faults struct {
	Loss    [2]float64 // of what a side hears, dB; its receiver's own noise stays
	Dead    [2]bool    // a side hears nothing; its receiver's own noise stays
	Swapped bool       // each side writes what the other hears
	Rubbed  [2]bool    // a hand rubs the transducers of a side
}

// rubbing is the level of a hand that rubs a transducer, dB re 1 uPa in the band of a
// channel: our own choice, far over what the floor answers.
const rubbing = 155.0

// ail adds to and weakens what has come to the receiver of a side. Left out: that hum,
// which the receiver picks up itself, would stay.
func (f *Faults) ail(ws *Workspace, side Side) {
	if f.Rubbed[side] {
		loud := float32(acoustics.FromDecibels(rubbing))
		for k := range ws.stray {
			ws.stray[k] += loud
		}
	}
	share := float32(0)
	switch {
	case f.Dead[side]:
	case f.Loss[side] > 0:
		share = float32(acoustics.FromDecibels(-f.Loss[side]))
	default:
		return
	}
	for k := range ws.energy {
		ws.energy[k] *= share
	}
	for k := range ws.stray {
		ws.stray[k] *= share
	}
}

// hears is the side whose transducer is joined to the receiver of a side.
func (f *Faults) hears(side Side) Side {
	if f.Swapped {
		return Starboard - side
	}
	return side
}
