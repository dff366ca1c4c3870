package crew

import (
	"bytes"

	"dryline/sim/product"
	"dryline/sim/report"
)

// Drawn are the reports as they would be drawn up now: to be read, and as files.
type Drawn struct {
	Survey *report.Survey
	Log    []byte // the line log, CSV
	Files  []DrawnFile
}

// DrawnFile is a file of the reports.
type DrawnFile struct {
	Name    string
	Content []byte
}

// Reports draws the reports up as the survey stands, with the chips of all contacts.
func (b *Bench) Reports(p Papers) *Task[*Drawn] {
	return begin(func(by *progress) (*Drawn, error) {
		by.expect(pings(p.Desk.Lines))
		b.mu.Lock()
		defer b.mu.Unlock()
		work := b.taught(p, by)
		in := p.input(b.all.Set.MosaicCell)
		if b.Refused() == nil && len(p.Desk.Lines) > 0 {
			chips, err := product.Chips(p.Desk, work)
			if err != nil {
				return nil, inWords(err)
			}
			in.Chips = chips
		}
		made, err := report.Make(in)
		if err != nil {
			return nil, err
		}
		out := &Drawn{Survey: made}
		for _, f := range []struct {
			name  string
			write func(*bytes.Buffer) error
		}{
			{"survey-report.html", func(to *bytes.Buffer) error { return report.WriteSurvey(to, made) }},
			{"contact-report.html", func(to *bytes.Buffer) error { return report.WriteContacts(to, made) }},
			{"contact-report.csv", func(to *bytes.Buffer) error { return report.WriteContactsCSV(to, in) }},
			{"line-log.csv", func(to *bytes.Buffer) error { return report.WriteLineLog(to, in) }},
		} {
			var content bytes.Buffer
			if err := f.write(&content); err != nil {
				return nil, err
			}
			out.Files = append(out.Files, DrawnFile{f.name, content.Bytes()})
		}
		out.Log = out.Files[len(out.Files)-1].Content
		return out, nil
	})
}
