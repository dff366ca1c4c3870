package crew

import (
	"errors"
	"fmt"
	"sync"

	"dryline/sim/product"
	"dryline/sim/provenance"
	"dryline/sim/record"
	"dryline/sim/remake"
	"dryline/sim/report"
	"dryline/sim/survey"
	"dryline/sim/survey/coverage"
	"dryline/sonar/mosaic"
	"dryline/sonar/waterfall"
)

// Bench is where the record is worked on: what is asked of it is a [Task] on papers as they were.
type Bench struct {
	record *record.Store
	priors func(channel int) waterfall.Prior

	mu  sync.Mutex        // held while chips are painted
	all *product.Painting // that chips are painted from, taught once
	of  *survey.Worked    // which it stands by
	n   int               // lines of it
}

// Refused is why nothing can be worked on from the record, nil if it can.
func (b *Bench) Refused() error { return b.record.Err() }

// inWords says a fault of the record in words.
func inWords(err error) error {
	if errors.Is(err, record.ErrNotKept) {
		return fmt.Errorf("the record of this session was not kept whole, and cannot be worked on here: dryline desk can, from the session's log (%w)", err)
	}
	return err
}

func pings(lines []*survey.LineRecord) (n int) {
	for _, l := range lines {
		n += len(l.Pings)
	}
	return n
}

// painting is the survey as it stands, each ping that is read of it a piece of a task.
func (b *Bench) painting(p Papers, by *progress) product.Painting {
	return product.PaintingOf(p.Desk, counted{b.record, by}, b.priors)
}

// Picture is a mosaic as it was painted, in tiles.
type Picture struct {
	Cell, X, Y float64 // how wide its cells are, and where the corner of one lies, metres
	Tiles      []*Tile
	Worked     *survey.Worked // as it was worked up for it; nil for the survey as it stands
}

// Stands paints the survey as it stands.
func (b *Bench) Stands(p Papers) *Task[*Picture] {
	return begin(func(by *progress) (*Picture, error) {
		by.expect(2 * pings(p.Desk.Lines))
		return b.paint(p, by)
	})
}

// Remake works the survey up again by the review as it is, and paints it. Nothing is changed: the
// order to work it up has it stand so.
func (b *Bench) Remake(p Papers) *Task[*Picture] {
	return begin(func(by *progress) (*Picture, error) {
		by.expect(3 * pings(p.Desk.Lines))
		worked, err := remake.Lines(p.Desk, p.Desk.Review.Clone(), counted{b.record, by})
		if err != nil {
			return nil, inWords(err)
		}
		p.Desk = p.Desk.Snapshot()
		p.Desk.Worked = worked
		out, err := b.paint(p, by)
		if err != nil {
			return nil, err
		}
		out.Worked = worked
		return out, nil
	})
}

// paint paints the mosaic of the survey as it stands.
func (b *Bench) paint(p Papers, by *progress) (*Picture, error) {
	work := b.painting(p, by)
	x, y := p.Brief.Place.Grid.Whole(work.Set.MosaicCell)
	m, err := p.Desk.NewMosaic(&work.Review, x, y)
	if err != nil {
		return nil, err
	}
	if err := work.Mosaic(m); err != nil {
		return nil, inWords(err)
	}
	return pictureOf(m), nil
}

// Chip is a contact on the record of one pass.
type Chip struct {
	Picture
	MidX, MidY, Half float64 // middle of the ground shown and half of its side, metres
	Pass             int
	Caption          string
}

// Chip cuts a contact from the record of a pass, by its index among the contact's; what comes is nil for one
// that is on no record.
func (b *Bench) Chip(p Papers, number, pass int) *Task[*Chip] {
	return begin(func(by *progress) (*Chip, error) {
		by.expect(pings(p.Desk.Lines))
		b.mu.Lock()
		defer b.mu.Unlock()
		for i := range p.Desk.Contacts {
			k := &p.Desk.Contacts[i]
			if k.Number != number {
				continue
			}
			c, ok, err := product.ChipOf(p.Desk, k, pass)
			if !ok || err != nil {
				return nil, err
			}
			if err := b.taught(p, by).Shots([]remake.Shot{c.Shot}); err != nil {
				return nil, inWords(err)
			}
			return &Chip{Picture: *pictureOf(c.Into), MidX: c.X, MidY: c.Y, Half: c.Half, Pass: pass, Caption: c.Caption}, nil
		}
		return nil, nil
	})
}

// pictureOf is a mosaic in tiles.
func pictureOf(m *mosaic.Mosaic) *Picture {
	out := &Picture{Cell: m.CellSize()}
	out.X, out.Y = m.Corner(0, 0)
	m.Fresh(func(t *mosaic.Tile) { out.Tiles = append(out.Tiles, grey(t)) })
	return out
}

// taught is the survey as it stands, that was taught before if it was.
func (b *Bench) taught(p Papers, by *progress) *remake.Work {
	if b.all == nil || b.of != p.Desk.Worked || b.n != len(p.Desk.Lines) {
		work := b.painting(p, by)
		b.all, b.of, b.n = &work, p.Desk.Worked, len(p.Desk.Lines)
	}
	b.all.Record = counted{b.record, by}
	return &b.all.Work
}

// Cover holds how much of the area was seen, as the survey stands.
type Cover struct {
	Map      *coverage.Map
	Holidays []coverage.Holiday
}

// Cover looks for holidays.
func (b *Bench) Cover(p Papers) *Task[*Cover] {
	return begin(func(*progress) (*Cover, error) {
		m, holidays, err := report.Covered(p.Brief, p.Desk)
		return &Cover{m, holidays}, err
	})
}

// input gathers what reports are drawn up from.
func (p *Papers) input(cell float64) *report.Input {
	return &report.Input{
		Brief: p.Brief, Desk: p.Desk, Surveyor: p.Surveyor, Now: p.Now, Ended: p.Ended, Engine: provenance.Engine,
		Licence: provenance.Licence, Caution: product.ReportCaution, Cell: cell,
	}
}
