package survey

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"dryline/sim/survey/calibrate"
)

// Calibrated holds what the desk worked out of its own errors; nil parts were not asked
// for.
type Calibrated struct {
	Layback *calibrate.Layback
	Applied string // what was applied of it, in words; empty if nothing was
	System  *calibrate.System
	Object  int // the contact that the system was calibrated on
}

// sighting is a pass of a contact as the survey stands.
func (d *Desk) sighting(c *Contact, p *Pass, sigmaAlong, sigmaAcross float64) (s calibrate.Sighting, ok bool) {
	line := d.run(d.Worked, p.Run)
	if line == nil {
		return s, false
	}
	at := line.ping(p.Ping)
	if at == nil || at.Fix.Fault != "" || at.Height <= 0 {
		return s, false
	}
	var r Review
	if d.Worked != nil {
		r = d.Worked.Review
	}
	m := p.Mark
	m.Slant *= d.Worked.stretch()
	x, y, across := m.Ground(at)
	set := d.Reviewed(&r, at.Fix.Time)
	late, _ := r.Knob(KnobLatency)
	s = calibrate.Sighting{
		Object: c.Number, Pass: fmt.Sprintf("%s on run %d of the log, line %s", c.Name, p.Run, p.Line),
		X: x, Y: y, Course: at.Fix.Course, Across: across, Speed: at.Fix.Speed,
		Cable: at.Fix.CableOut, Drop: at.Fix.Depth + set.SheaveHeight, Factor: set.CatenaryFactor, Offset: set.AntennaToTow, Latency: late,
		SigmaAlong: sigmaAlong, SigmaAcross: sigmaAcross,
	}
	if set.Swath == "" || set.Swath == SwathByCourse {
		s.Crab = d.crabAt(at.Fix.Time)
	}
	return s, true
}

// crabAt is the ship's heading less the course made good at a time, radians, by the
// watch log.
func (d *Desk) crabAt(t float64) float64 {
	i, _ := slices.BinarySearchFunc(d.Track, t, func(p TrackPoint, t float64) int {
		return int(math.Copysign(1, p.Fix.Time-t))
	})
	if len(d.Track) == 0 {
		return 0
	}
	return d.Track[min(i, len(d.Track)-1)].Crab
}

// CheckSigmas refuses what no mark is good to, metres.
func CheckSigmas(sigmas ...float64) error {
	for _, v := range sigmas {
		if !(v >= 0.01 && v <= 100) {
			return fmt.Errorf("marks good to %g m (want 0.01 to 100)", v)
		}
	}
	return nil
}

// CalibrateLayback works out what the layback is wrong by from a contact, or with number 0
// from all, that was seen on several passes, whose marks are good to so many metres, one
// standard deviation, along the track and across it.
func (d *Desk) CalibrateLayback(number int, sigmaAlong, sigmaAcross float64) error {
	if err := CheckSigmas(sigmaAlong, sigmaAcross); err != nil {
		return err
	}
	if number != 0 && d.contact(number) == nil {
		return noContact(number)
	}
	var sightings []calibrate.Sighting
	for i := range d.Contacts {
		c := &d.Contacts[i]
		if number != 0 && c.Number != number || len(c.Passes) < 2 {
			continue
		}
		for k := range c.Passes {
			if s, ok := d.sighting(c, &c.Passes[k], sigmaAlong, sigmaAcross); ok {
				sightings = append(sightings, s)
			}
		}
	}
	r, err := calibrate.Solve(sightings)
	if err != nil {
		return err
	}
	d.Calibrated.Layback, d.Calibrated.Applied = &r, ""
	return nil
}

// ApplyCalibration has the survey worked up again by what the layback was found to be
// wrong by: by its parts, or if they did not come apart by the total, as an offset.
func (d *Desk) ApplyCalibration() error {
	l := d.Calibrated.Layback
	switch {
	case l == nil:
		return errors.New("the layback is not calibrated")
	case d.Calibrated.Applied != "":
		return errors.New("it was applied already")
	}
	if len(l.Parts) > 0 {
		knobs := []Knob{KnobFactor, KnobTowOffset, KnobLatency}
		for i, k := range knobs {
			if low, high := k.Limits(); l.Parts[i].Value < low || l.Parts[i].Value > high {
				return fmt.Errorf("a %s of %.3g is out of range (want %g to %g)", l.Parts[i].Name, l.Parts[i].Value, low, high)
			}
		}
		for i, k := range knobs {
			d.Turn(k, l.Parts[i].Value)
		}
		d.Calibrated.Applied = "factor, offset and latency"
		return nil
	}
	var r Review
	if d.Worked != nil {
		r = d.Worked.Review
	}
	offset := d.Reviewed(&r, math.Inf(1)).AntennaToTow + l.Total.Value
	if low, high := KnobTowOffset.Limits(); offset < low || offset > high {
		return fmt.Errorf("an offset of %.1f m is out of range (want %g to %g)", offset, low, high)
	}
	d.Turn(KnobTowOffset, offset)
	d.Calibrated.Applied = "the total, as an offset: right for this cable length and speed alone"
	return nil
}

// CheckSystem works out how well the system finds and places a contact that was passed
// on purpose: every run whose swath reaches it is a pass, those it was not picked on are
// misses.
func (d *Desk) CheckSystem(number int) error {
	c := d.contact(number)
	if c == nil {
		return noContact(number)
	}
	var tries []calibrate.Try
	for run := range d.Lines {
		if _, rejected := d.Review.Rejected[run+1]; rejected {
			continue
		}
		line := d.run(d.Worked, run+1)
		see, reached := line.Sighting(c.X, c.Y)
		i := slices.IndexFunc(c.Passes, func(p Pass) bool { return p.Run == run+1 })
		if i < 0 && !reached {
			continue
		}
		try := calibrate.Try{Pass: fmt.Sprintf("run %d, line %s", run+1, line.Name)}
		if i >= 0 {
			p := &c.Passes[i]
			at := line.ping(p.Ping)
			if at == nil || at.Fix.Fault != "" || at.Height <= 0 {
				continue
			}
			m := p.Mark
			m.Slant *= d.Worked.stretch()
			var across float64
			try.X, try.Y, across = m.Ground(at)
			try.Detected, try.Course, try.Starboard, try.Range = true, at.Fix.Course, p.Starboard, math.Abs(across)
			try.Reach = GroundReach(line.RangeScale, at.Height)
		} else {
			at := &line.Pings[see.Index]
			try.Course, try.Starboard, try.Range = at.Fix.Course, see.Starboard, see.Range
			try.Reach = GroundReach(line.RangeScale, at.Height)
		}
		tries = append(tries, try)
	}
	if len(tries) == 0 {
		return errors.New("no run passes it")
	}
	s := calibrate.Check(tries)
	if big := max(c.Length, c.Height); big > 0 && (big < 0.5 || big > 2) {
		s.Lacking, s.Met = append(s.Lacking, fmt.Sprintf("the object measures %.1f m (want about 1)", big)), false
	}
	d.Calibrated.System, d.Calibrated.Object = &s, number
	return nil
}
