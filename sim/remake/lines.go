package remake

import (
	"iter"
	"math"
	"slices"

	"dryline/sim/record"
	"dryline/sim/survey"
	"dryline/vessel/nav"
)

// Kept is a record that has the readings of the instruments as well, such as a
// [record.Store].
type Kept interface {
	Record
	// Readings goes through those from one time to another, seconds. Each is good until
	// the next.
	Readings(from, to float64) iter.Seq2[*nav.Reading, error]
}

// Lines works the lines of a desk up again by its review: where the fish was, from
// the readings, and how high it stood, from the samples. It changes nothing on the
// desk; [survey.Desk.TakeUp] does. With a review that asks for nothing the lines come
// out as they were logged, to the byte.
func Lines(d *survey.Desk, r survey.Review, from Kept) (*survey.Worked, error) {
	w := &survey.Worked{Review: r, Stretch: d.Stretch(&r)}
	for _, l := range d.Lines {
		copied := *l
		copied.RangeScale *= w.Stretch
		copied.Pings = slices.Clone(l.Pings)
		copied.Bottom = make([]survey.BottomNote, len(l.Pings))
		w.Lines = append(w.Lines, &copied)
	}
	if err := place(d, w, from); err != nil {
		return nil, err
	}
	for _, l := range w.Lines {
		if err := sound(d, w, l, from); err != nil {
			return nil, err
		}
	}
	return w, nil
}

// place navigates anew.
func place(d *survey.Desk, w *survey.Worked, from Kept) error {
	n := survey.NewNavigator(d.Reviewed(&w.Review, 0))
	late, _ := w.Review.Knob(survey.KnobLatency)
	line, at := 0, 0
	next := func() *survey.PingRecord {
		for line < len(w.Lines) && at == len(w.Lines[line].Pings) {
			line, at = line+1, 0
		}
		if line == len(w.Lines) {
			return nil
		}
		return &w.Lines[line].Pings[at]
	}
	p := next()
	first := true
	for reading, err := range from.Readings(0, math.Inf(1)) {
		if err != nil {
			return err
		}
		if p == nil {
			break
		}
		seen := *reading
		seen.FixTime -= late
		n.Settings = d.Reviewed(&w.Review, seen.Time)
		n.Navigate(seen)
		// A ping is sent before the reading that follows it; those of the very first tick
		// have its time.
		for p != nil && (p.Fix.Time < seen.Time || first && p.Fix.Time == seen.Time) {
			l := w.Lines[line]
			p.Fix = n.FixAt(p.Fix.Time)
			p.Along, _ = l.Track.Offset(p.Fix.X, p.Fix.Y)
			_, p.Off = l.Track.Offset(p.Fix.VesselX, p.Fix.VesselY)
			at++
			p = next()
		}
		first = false
	}
	if p != nil {
		return record.ErrNotKept
	}
	return nil
}

// sound finds the height anew, and grades it.
func sound(d *survey.Desk, w *survey.Worked, l *survey.LineRecord, from Record) error {
	if len(l.Pings) == 0 {
		return nil
	}
	channel := d.Reviewed(&w.Review, 0).MosaicChannel
	by := w.Review.BottomBy[d.Recorder.Channels[channel]]
	if by == "" {
		by = survey.BottomWatch
	}
	var tracker survey.BottomTracker
	at := 0
	for p, err := range from.Pings(l.Pings[0].Number, l.Pings[len(l.Pings)-1].Number) {
		if err != nil {
			return err
		}
		for at < len(l.Pings) && l.Pings[at].Number < p.Number {
			at++
		}
		if at == len(l.Pings) || l.Pings[at].Number != p.Number {
			continue
		}
		here, note := &l.Pings[at], &l.Bottom[at]
		bin := stretched(p.Recorder, w.Stretch).Bin()
		here.Height *= w.Stretch
		note.By = by
		switch {
		case by == survey.BottomAltimeter && here.Fix.Altitude > 0:
			here.Height, here.Locked = here.Fix.Altitude, true
		case by == survey.BottomFirst && !p.Lost:
			if h, locked := tracker.Find(p.Port[channel], p.Starboard[channel], bin, here.Fix.Altitude); h > 0 {
				here.Height, here.Locked = h, locked
			}
		default:
			note.By = survey.BottomWatch
		}
		if slant, ok := w.Review.BottomAt(p.Number); ok {
			here.Height, here.Locked, note.By = slant*w.Stretch, true, survey.BottomHand
		}
		if !p.Lost {
			note.Quality = survey.BottomQuality(p.Port[channel], p.Starboard[channel], bin, here.Height)
		}
	}
	survey.DoubtSteps(l)
	return nil
}
