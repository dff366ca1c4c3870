package nav

import "slices"

// Interrupt adds an outage to the instruments of some displays: of the fix or of the
// fish's altitude.
func (n *Instruments) Interrupt(displays Set, w Window) {
	for _, t := range []struct {
		of     Set
		timing *Timing
	}{{Fix, &n.spec.GNSS.Timing}, {FishAltitude, &n.spec.Altimeter.Timing}} {
		if displays.Has(t.of) {
			t.timing.Outages = append(slices.Clip(t.timing.Outages), w)
		}
	}
}

// Bias is a change of fixed errors.
type Bias struct {
	East, North float64 // of the fix, metres
	Heading     float64 // of the vessel, radians
	FishHeading float64 // radians
	CounterSlip float64 // metres not counted per metre hauled
}

// Mislead adds to the fixed errors of the instruments. What they were is put back by
// adding the opposite, but for the last digit of a float64.
func (n *Instruments) Mislead(by Bias) {
	s := &n.spec
	s.GNSS.BiasX += by.East
	s.GNSS.BiasY += by.North
	s.Heading.Bias += by.Heading
	s.Compass.Bias += by.FishHeading
	s.Counter.Slip += by.CounterSlip
}
