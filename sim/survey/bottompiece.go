package survey

import (
	"errors"
	"fmt"
)

// BottomBy names a way of finding the height of the fish when the survey is worked up
// again.
type BottomBy string

// The ways.
const (
	BottomWatch     BottomBy = "watch"        // as it was tracked in the watch
	BottomFirst     BottomBy = "first_return" // in the record of the channel itself
	BottomAltimeter BottomBy = "altimeter"    // the fish's own
	BottomHand      BottomBy = "hand"         // corrected by hand; no way to choose
)

// BottomWays lists those that can be chosen.
func BottomWays() []BottomBy { return []BottomBy{BottomWatch, BottomFirst, BottomAltimeter} }

// BottomNote says of a ping's bottom, once the survey is worked up again, where it
// comes from and how well the record bears it out: 0 not at all, 1 in full; see
// [BottomQuality].
type BottomNote struct {
	By      BottomBy
	Quality float64
}

// BottomPiece is a piece of the bottom track put right by hand: from one ping to
// another, both included, the first return is at these slant ranges, metres by the
// sound speed of the watch, evenly from the one to the other.
type BottomPiece struct {
	From, To      uint64
	Slant, SlantB float64
}

// at is the slant range at a ping; ok is false for one outside of the piece.
func (b *BottomPiece) at(ping uint64) (slant float64, ok bool) {
	if ping < b.From || ping > b.To {
		return 0, false
	}
	if b.To == b.From {
		return b.Slant, true
	}
	return b.Slant + (b.SlantB-b.Slant)*float64(ping-b.From)/float64(b.To-b.From), true
}

// BottomAt is the slant range of the bottom at a ping as it was put right by hand, by
// the sound speed of the watch.
func (r *Review) BottomAt(ping uint64) (slant float64, ok bool) {
	for _, b := range r.Pieces {
		if s, in := b.at(ping); in {
			slant, ok = s, true
		}
	}
	return slant, ok
}

// SetBottom puts a piece of the bottom track right. It has effect when the survey is
// worked up again.
func (d *Desk) SetBottom(b BottomPiece) error {
	line, _ := d.logged(b.From)
	other, _ := d.logged(b.To)
	switch {
	case line == nil:
		return fmt.Errorf("ping %d is not on the log of a line", b.From)
	case other == nil:
		return fmt.Errorf("ping %d is not on the log of a line", b.To)
	case line != other || b.To < b.From:
		return fmt.Errorf("pings %d to %d are no piece of one line", b.From, b.To)
	}
	for _, s := range []float64{b.Slant, b.SlantB} {
		if !(s > 0 && s < line.RangeScale) {
			return fmt.Errorf("a bottom at %g m is out of range (want above 0, below %g)", s, line.RangeScale)
		}
	}
	d.Review.Pieces, d.Review.undone = append(d.Review.Pieces, b), nil
	return nil
}

// UndoBottom takes the last piece back, and again the one before.
func (d *Desk) UndoBottom() error {
	r := &d.Review
	n := len(r.Pieces)
	if n == 0 {
		return errors.New("no piece of the bottom track is corrected")
	}
	r.Pieces, r.undone = r.Pieces[:n-1:n-1], append(r.undone, r.Pieces[n-1])
	return nil
}

// RedoBottom makes the piece last taken back again.
func (d *Desk) RedoBottom() error {
	r := &d.Review
	n := len(r.undone)
	if n == 0 {
		return errors.New("no correction of the bottom track was taken back")
	}
	r.Pieces, r.undone = append(r.Pieces, r.undone[n-1]), r.undone[:n-1:n-1]
	return nil
}

// Undone is how many pieces that were taken back can be made again.
func (r *Review) Undone() int { return len(r.undone) }

// FindBottomBy chooses how the height is found for a channel.
func (d *Desk) FindBottomBy(channel string, by BottomBy) {
	if d.Review.BottomBy == nil {
		d.Review.BottomBy = map[string]BottomBy{}
	}
	d.Review.BottomBy[channel] = by
}
