package product

import (
	"bytes"
	"fmt"
	"image"
	"io"
	"math"

	"dryline/sim/provenance"
	"dryline/sim/remake"
	"dryline/sim/report"
	"dryline/sim/survey"
	"dryline/sonar/mosaic"
	"dryline/sonar/waterfall"
	"dryline/sonar/waterfall/picture"
)

// reports are what the desk drew up, if it was asked to.
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

// input is what reports are drawn up from, pictures apart.
func (w *Writer) input() *report.Input {
	s := w.session
	return &report.Input{
		Brief: s.Brief, Desk: s.Desk, Surveyor: s.Attempt.Trainee, Now: s.Now(), Ended: s.Ended(),
		Engine: provenance.Engine, Licence: provenance.Licence, Caution: "Synthetic training data, not for navigation",
		Cell: w.work().set.MosaicCell,
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

// standing is the survey as it stands, to be painted.
type standing struct {
	remake.Work
	set    survey.Settings
	review survey.Review
}

func (w *Writer) work() standing {
	desk := w.session.Desk
	var out standing
	if desk.Worked != nil {
		out.review, out.Stretch, out.Levelling = desk.Worked.Review, desk.Worked.Stretch, desk.Worked.Review.Levelling
	}
	out.set = desk.Reviewed(&out.review, math.Inf(1))
	out.Record, out.Lines = w.Record, desk.Standing()
	out.Channel, out.Prior = out.set.MosaicChannel, w.session.Prior(out.set.MosaicChannel)
	out.Hide = func(line int) bool { return !out.review.Paints(line + 1) }
	return out
}

const (
	chipPixels  = 320
	chipHalf    = 8.0  // of the side of the ground shown, metres, at least
	chipLargest = 40.0 // and at most
)

// chips are a picture of each contact that is on a record, from its first pass by hand
// or else its first.
func (w *Writer) chips() ([]report.Chip, error) {
	desk := w.session.Desk
	if w.Record == nil {
		return nil, nil
	}
	var shots []remake.Shot
	var chips []report.Chip
	for i := range desk.Contacts {
		k := &desk.Contacts[i]
		if len(k.Passes) == 0 || !(math.Hypot(k.X, k.Y) < 1e6) {
			continue
		}
		pass := k.Passes[0]
		for _, p := range k.Passes {
			if p.ByHand {
				pass = p
				break
			}
		}
		if pass.Run < 1 || pass.Run > len(desk.Lines) {
			continue
		}
		half := min(max(chipHalf, 0.75*k.Length, k.Shadow+k.Length/2+2), chipLargest)
		m, err := mosaic.New(2*half/chipPixels, mosaic.Mean)
		if err != nil {
			return nil, err
		}
		shots = append(shots, remake.Shot{Line: pass.Run - 1, X: k.X, Y: k.Y, Half: half, Into: m})
		chips = append(chips, report.Chip{
			Contact: k.Number, Name: fmt.Sprintf("chip-%03d.png", k.Number),
			Caption: fmt.Sprintf("%.0f m across, north up; line %s, run %d", 2*half, pass.Line, pass.Run),
		})
	}
	work := w.work().Work
	if err := work.Shots(shots); err != nil {
		return nil, err
	}
	for i := range shots {
		var b bytes.Buffer
		if err := EncodePNG(&b, chipOf(&shots[i]), w.pngTexts()...); err != nil {
			return nil, err
		}
		chips[i].PNG = b.Bytes()
	}
	return chips, nil
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
