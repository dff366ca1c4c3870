package debrief

import (
	"math"

	"dryline/seabed"
)

// groundReach is how far round a contact its ground is looked for, metres: our own
// choice.
const groundReach = 4.0

// groundAt says what a contact without an object lies on: rock or cobble where
// there is any within reach, for those throw echoes and shadows of their own,
// otherwise the sediment at the point.
func groundAt(w *seabed.World, x, y float64) seabed.Class {
	spec := w.Spec()
	if x < 0 || y < 0 || x > spec.East || y > spec.North {
		return w.ClassAt(min(max(x, 0), spec.East), min(max(y, 0), spec.North))
	}
	here := w.ClassAt(x, y)
	if isStony(here) {
		return here
	}
	const rings, spokes = 4, 12
	for ring := 1; ring <= rings; ring++ {
		for spoke := range spokes {
			sin, cos := math.Sincos(2 * math.Pi * float64(spoke) / spokes)
			r := groundReach * float64(ring) / rings
			if c := w.ClassAt(x+r*sin, y+r*cos); isStony(c) {
				return c
			}
		}
	}
	return here
}

// isStony reports ground that has single stones or ledges to mark.
func isStony(c seabed.Class) bool { return c == seabed.Rock || c == seabed.Cobble }

// Natural reports whether the contact is a natural feature that was named as one.
func (f FalseContact) Natural() bool { return f.Verdict == string(natural) }
