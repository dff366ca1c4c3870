package product

import (
	"errors"
	"io"

	"dryline/sim"
	"dryline/sim/debrief"
	"dryline/sim/record"
	"dryline/sonar/mosaic"
	"dryline/sonar/waterfall"
)

// Page writes the debrief's page alone, for those who want no folder. Attach it
// before the first step, as a [Writer]: it too lets the rows of closed lines go.
type Page struct {
	Record *record.Store // of the session, every ping of it
	writer *Writer
}

// AttachPage prepares a page. The recorder's pings go into a backing, to level the
// mosaic with what the whole survey taught, those of the lines alone if logged is set; without
// one the mosaic is as it was painted live.
func AttachPage(s *sim.Session, witness *sim.Witness, to record.Backing, logged bool) *Page {
	s.Desk.KeepRows = func(channel int) bool { return channel == s.Exercise.Desk.MosaicChannel } // the page has no others
	store := record.New(to)
	keep := sim.Keep
	if logged {
		keep = sim.KeepLogged
	}
	keep(s, store)
	w := Attach(s, witness, nil)
	w.Record = store
	return &Page{store, w}
}

// Write writes the page of the session as it stands.
func (p *Page) Write(out io.Writer) error {
	w := p.writer
	if w.err != nil {
		return w.err
	}
	m, err := w.mosaic()
	if errors.Is(err, record.ErrNotKept) {
		m, err = w.session.Desk.Mosaic, nil // as it was painted live
	}
	if err != nil {
		return err
	}
	shot, painted := m.Render(waterfall.Tone)
	if !painted {
		shot = mosaic.Picture{}
	}
	report := debrief.Make(w.session, w.witness)
	pictures, err := w.pictures(shot, report)
	if err != nil {
		return err
	}
	return debrief.WriteHTML(out, report, pictures)
}

// Evidence are pictures of every object of a report on the record, for those who show
// them beside something else than the page; none without a record.
func (p *Page) Evidence(r *debrief.Report) ([]debrief.Picture, error) {
	p.writer.attendWatch()
	return p.writer.evidence(r)
}
