package product

import (
	"bytes"
	"fmt"
	"math"
	"slices"

	"dryline/sim/remake"
	"dryline/sim/report"
	"dryline/sim/survey"
	"dryline/sonar/mosaic"
	"dryline/sonar/waterfall"
)

// Painting is a survey as it stands at the desk, to be painted.
type Painting struct {
	remake.Work
	Set    survey.Settings // of the desk, the review's among them
	Review survey.Review   // by which it stands; nothing if it does as in the watch
}

// PaintingOf is how the survey of a desk stands: as in the watch, or as it was worked up again.
// priors tells what a channel is expected to write.
func PaintingOf(desk *survey.Desk, from remake.Record, priors func(channel int) waterfall.Prior) Painting {
	var out Painting
	if desk.Worked != nil {
		out.Review, out.Stretch, out.Levelling = desk.Worked.Review, desk.Worked.Stretch, desk.Worked.Review.Levelling
	}
	out.Set = desk.Reviewed(&out.Review, math.Inf(1))
	out.Record, out.Lines = from, desk.LatestLines()
	out.Channel, out.Prior = out.Set.MosaicChannel, priors(out.Set.MosaicChannel)
	out.Hide = func(line int) bool { return !out.Review.Paints(line + 1) }
	return out
}

const (
	chipPixels  = 320
	chipHalf    = 8.0  // of the side of the ground shown, metres, at least
	chipLargest = 40.0 // and at most
)

// Chip is the piece of ground that a contact is shown on, from one pass.
type Chip struct {
	remake.Shot
	Contact int
	Pass    int // of those of the contact
	Caption string
}

// ChipOf is the piece of ground of a contact on a pass of its own, nothing painted on it yet; ok is false
// for one that is on no record.
func ChipOf(desk *survey.Desk, k *survey.Contact, pass int) (c Chip, ok bool, err error) {
	if pass < 0 || pass >= len(k.Passes) || !(math.Hypot(k.X, k.Y) < 1e6) {
		return c, false, nil
	}
	seen := k.Passes[pass]
	if seen.Run < 1 || seen.Run > len(desk.Lines) {
		return c, false, nil
	}
	half := min(max(chipHalf, 0.75*k.Length, k.Shadow+k.Length/2+2), chipLargest)
	m, err := mosaic.New(2*half/chipPixels, mosaic.Mean)
	return Chip{
		Shot:    remake.Shot{Line: seen.Run - 1, X: k.X, Y: k.Y, Half: half, Into: m},
		Contact: k.Number, Pass: pass, Caption: fmt.Sprintf("%.0f m across, north up; line %s, run %d", 2*half, seen.Line, seen.Run),
	}, true, err
}

// FirstByHand is the first pass of a contact that was picked by a person, or else its first.
func FirstByHand(k *survey.Contact) int {
	return max(slices.IndexFunc(k.Passes, func(p survey.Pass) bool { return p.ByHand }), 0)
}

// Chips are a picture of each contact that is on a record, from its first pass by hand or else its first.
func Chips(desk *survey.Desk, work *remake.Work, texts ...Text) ([]report.Chip, error) {
	var shots []remake.Shot
	var chips []report.Chip
	for i := range desk.Contacts {
		k := &desk.Contacts[i]
		c, ok, err := ChipOf(desk, k, FirstByHand(k))
		if err != nil {
			return nil, err
		}
		if ok {
			shots = append(shots, c.Shot)
			chips = append(chips, report.Chip{Contact: k.Number, Name: fmt.Sprintf("chip-%03d.png", k.Number), Caption: c.Caption})
		}
	}
	if err := work.Shots(shots); err != nil {
		return nil, err
	}
	for i := range shots {
		var b bytes.Buffer
		if err := EncodePNG(&b, chipOf(&shots[i]), texts...); err != nil {
			return nil, err
		}
		chips[i].PNG = b.Bytes()
	}
	return chips, nil
}
