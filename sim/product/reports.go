package product

import (
	"fmt"
	"image"
	"io"

	"dryline/sim/provenance"
	"dryline/sim/remake"
	"dryline/sim/report"
	"dryline/sonar/waterfall"
	"dryline/sonar/waterfall/picture"
)

// reports returns what the desk drew up, if it was asked to.
func (w *Writer) reports() ([]file, error) {
	s := w.session
	if s.Desk.Report == nil {
		return nil, nil
	}
	in := w.input()
	var err error
	if in.Chips, err = w.chips(); err != nil {
		return nil, err
	}
	drawn, err := report.Make(in)
	if err != nil {
		return nil, err
	}
	files := []file{
		{"survey-report.html", func(out io.Writer) error { return report.WriteSurvey(out, drawn) }},
		{"contact-report.html", func(out io.Writer) error { return report.WriteContacts(out, drawn) }},
		{"contact-report.csv", func(out io.Writer) error { return report.WriteContactsCSV(out, in) }},
		{"contact-report.geojson", func(out io.Writer) error { return report.WriteContactsGeoJSON(out, in, w.foreign()) }},
		{"holidays.geojson", func(out io.Writer) error { return report.WriteHolidays(out, in, drawn, w.foreign()) }},
		{"line-log.csv", func(out io.Writer) error { return report.WriteLineLog(out, in) }},
	}
	for _, c := range in.Chips {
		files = append(files, file{c.Name, func(out io.Writer) error { _, err := out.Write(c.PNG); return err }})
	}
	return files, nil
}

// input gathers what reports are drawn up from, pictures apart.
func (w *Writer) input() *report.Input {
	s := w.session
	return &report.Input{
		Brief: s.Brief, Desk: s.Desk, Surveyor: s.Attempt.Trainee, Now: s.Now(), Ended: s.Ended(),
		Engine: provenance.Engine, Licence: provenance.Licence, Caution: ReportCaution,
		Cell: w.work().Set.MosaicCell,
	}
}

// workedUpWith are the facts of the remade mosaic: what the survey was worked up with.
func (w *Writer) workedUpWith() []fact {
	var out []fact
	for i, f := range w.input().Changes() {
		out = append(out, fact{fmt.Sprintf("worked_up_%d", i+1), f.Name + ": " + f.Says})
	}
	return out
}

func (w *Writer) work() Painting {
	return PaintingOf(w.session.Desk, w.Record, w.session.Prior)
}

// chips are pictures of all contacts that are on a record; none without one.
func (w *Writer) chips() ([]report.Chip, error) {
	if w.Record == nil {
		return nil, nil
	}
	work := w.work()
	return Chips(w.session.Desk, &work.Work, w.pngTexts()...)
}

// chipOf draws a shot, its middle in the middle.
func chipOf(s *remake.Shot) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, chipPixels, chipPixels))
	ramp := picture.Kelp()
	cell := s.Into.CellSize()
	for j := range chipPixels {
		for i := range chipPixels {
			v, looks := s.Into.At(s.X-s.Half+(float64(i)+0.5)*cell, s.Y+s.Half-(float64(j)+0.5)*cell)
			tone := uint8(0)
			if looks > 0 {
				tone = waterfall.Tone(v)
			}
			img.SetRGBA(i, j, ramp[tone])
		}
	}
	return img
}
