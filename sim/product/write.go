package product

import (
	"errors"
	"fmt"
	"image"
	"io"
	"strconv"
	"strings"

	"dryline/sim"
	"dryline/sim/debrief"
	"dryline/sim/product/folder"
	"dryline/sim/record"
	"dryline/sim/remake"
	"dryline/sim/report"
	"dryline/sim/survey"
	"dryline/sonar"
	"dryline/sonar/mosaic"
	"dryline/sonar/waterfall"
	"dryline/sonar/waterfall/picture"
)

// SessionFile is the session log's name in a folder.
const SessionFile = "session.jsonl"

// Writer hands over the products of a session. Attach it before the first
// step: waterfalls are drawn as their lines are closed, so that their rows
// need not be kept.
type Writer struct {
	session *sim.Session
	witness *sim.Witness
	sink    Sink

	// Record has the session's pings as the recorder kept them, to level the mosaic with what the
	// whole survey taught. Without one it is the mosaic that was painted live.
	Record remake.Record

	// Model has the mate's run laid beside the trainee's in the debrief.
	Model bool

	// Apart, if not nil, takes what nobody under assessment may see: debrief, truth and
	// session log. The other files then say neither the seed nor the file of the exercise
	// that they were made from, and their list is the caller's to write ([Writer.Contents]).
	Apart Sink

	watch *remake.Work      // that the mosaic was painted by, from the record
	runs  map[string]int    // how often each line was closed
	small []debrief.Picture // waterfalls for the debrief
	err   error
}

// Attach prepares a writer of a session and of what a witness sees of it. Without
// a sink it keeps the debrief's pictures and writes nothing.
func Attach(s *sim.Session, witness *sim.Witness, to Sink) *Writer {
	w := &Writer{session: s, witness: witness, sink: to, runs: map[string]int{}}
	s.Observe(sim.Observer{Line: func(l *survey.LineRecord) {
		if err := w.waterfalls(l); err != nil && w.err == nil {
			w.err = err
		}
	}})
	return w
}

const (
	waterfallWidth, waterfallHeight = 1200, 3600 // pixels
	insetWidth, insetHeight         = 760, 1500  // of those in the debrief
)

// waterfalls draws every channel of a line and lets its rows go.
func (w *Writer) waterfalls(l *survey.LineRecord) error {
	spec := w.session.Exercise.Sonar
	w.runs[l.Name]++
	name := "line " + l.Name
	if run := w.runs[l.Name]; run > 1 {
		name = fmt.Sprintf("%s, run %d", name, run)
	}
	type sheet struct{ large, small *drawing }
	sheets := make([]sheet, len(spec.Channels))
	for c, channel := range spec.Channels {
		img := picture.Waterfall{
			Title:   fmt.Sprintf("%s, %s", w.session.Exercise.Title, name),
			Channel: ChannelLabel(channel), RangeScale: l.RangeScale,
		}
		if len(l.Rows[c]) == 0 {
			continue
		}
		for i, row := range l.Rows[c] {
			img.Port = append(img.Port, row.Port)
			img.Starboard = append(img.Starboard, row.Starboard)
			img.BottomTrack = append(img.BottomTrack, l.Pings[i].Height)
			img.Times = append(img.Times, l.Pings[i].Fix.Time)
			img.AlongTrack = append(img.AlongTrack, l.Pings[i].Along)
		}
		if w.sink != nil {
			sheets[c].large = draw(func() *image.RGBA { return picture.Draw(img, waterfallWidth, waterfallHeight) }, w.pngTexts()...)
		}
		if c == w.session.Exercise.Desk.MosaicChannel {
			sheets[c].small = draw(func() *image.RGBA { return picture.Draw(img, insetWidth, insetHeight) })
		}
		l.Rows[c] = nil
	}
	for c, channel := range spec.Channels {
		if d := sheets[c].large; d != nil {
			if err := w.sink.Write(Free(w.sink, fmt.Sprintf("waterfall-%s-%s", l.Name, channel.Name), ".png"), d.writeTo); err != nil {
				return err
			}
		}
		if d := sheets[c].small; d != nil {
			png, err := d.png()
			if err != nil {
				return err
			}
			w.small = append(w.small, debrief.Picture{
				Title:   strings.ToUpper(name[:1]) + name[1:],
				Caption: fmt.Sprintf("Waterfall, %s, newest ping at the top.", ChannelLabel(channel)),
				PNG:     png,
			})
		}
	}
	return nil
}

// ChannelLabel names a channel as people do: its frequency, after its name if
// that says something else.
func ChannelLabel(c sonar.Channel) string {
	frequency := strconv.FormatFloat(c.Frequency/1000, 'f', -1, 64)
	if c.Name == frequency {
		return frequency + " kHz"
	}
	return c.Name + " (" + frequency + " kHz)"
}

// Finish writes everything that needs the whole session and returns the
// debrief. The session must be over.
func (w *Writer) Finish() (debrief.Report, error) {
	if w.err != nil {
		return debrief.Report{}, w.err
	}
	m, err := w.mosaic()
	if err != nil {
		return debrief.Report{}, err
	}
	w.session.Desk.Mosaic = m
	outcome := debrief.Make(w.session, w.witness)
	if w.Model {
		if err := debrief.AddModel(&outcome, w.session); err != nil {
			return outcome, err
		}
	}
	shot, painted := m.Render(waterfall.Tone)
	if !painted {
		shot = mosaic.Picture{} // nothing was logged; the rest still stands
	}
	overview := draw(func() *image.RGBA { return w.overview(shot) }, w.pngTexts()...)
	pictures, err := w.pictures(shot, outcome)
	if err != nil {
		return outcome, err
	}

	files := []file{
		{"overview.png", overview.writeTo},
		{"track.csv", w.track},
		{"lines.geojson", w.lines},
		{"contacts.geojson", w.contacts},
	}
	told := []file{
		{"debrief.json", func(out io.Writer) error { return debrief.WriteJSON(out, outcome) }},
		{"debrief.html", func(out io.Writer) error { return debrief.WriteHTML(out, outcome, pictures) }},
		{"truth.geojson", func(out io.Writer) error { return debrief.WriteTruth(out, w.session, w.foreign()) }},
		{SessionFile, w.session.WriteLog},
	}
	if w.Apart == nil {
		files = append(files, told...)
	}
	if painted {
		files = append(files,
			file{"mosaic.tif", func(out io.Writer) error { return w.mosaicTIFF(out, shot) }},
			file{"coverage.tif", func(out io.Writer) error { return w.coverageTIFF(out, shot) }})
	}
	for _, named := range w.session.Exercise.Files { // so that the log flies again from here
		files = append(files, file{named.Name, func(out io.Writer) error {
			_, err := out.Write(named.Data)
			return err
		}})
	}
	again, err := w.again()
	if err != nil {
		return outcome, err
	}
	files = append(files, again...)
	drawn, err := w.reports()
	if err != nil {
		return outcome, err
	}
	files = append(files, drawn...)
	if w.Apart != nil {
		if err := put(w.Apart, told); err != nil {
			return outcome, err
		}
	} else {
		files = append(files, file{folder.ListFile, w.Contents}) // what it lists is written by then
	}
	return outcome, put(w.sink, files)
}

func put(to Sink, files []file) error {
	for _, f := range files {
		if err := to.Write(f.name, f.write); err != nil {
			return err
		}
	}
	return nil
}

// mosaic is the one the products show: painted anew from the record, or without
// one as it was painted live.
func (w *Writer) mosaic() (*mosaic.Mosaic, error) {
	desk := w.session.Desk
	if w.Record == nil {
		return desk.Mosaic, nil
	}
	m, err := desk.BlankMosaic()
	if err != nil {
		return nil, err
	}
	w.attendWatch()
	return m, w.watch.Mosaic(m)
}

// attendWatch sets the watch's record and lines out to be painted from.
func (w *Writer) attendWatch() {
	if w.Record != nil {
		desk := w.session.Desk
		channel := desk.Settings.MosaicChannel
		w.watch = &remake.Work{Record: w.Record, Lines: desk.Lines, Channel: channel, Prior: w.session.Prior(channel)}
	}
}

// again is the mosaic of the survey worked up again, beside the one of the watch; none
// if it was not.
func (w *Writer) again() ([]file, error) {
	m, err := w.remade()
	if m == nil || err != nil {
		return nil, err
	}
	shot, painted := m.Render(waterfall.Tone)
	if !painted {
		return nil, nil
	}
	return []file{
		{"mosaic-remade.tif", func(out io.Writer) error { return w.mosaicTIFF(out, shot, w.workedUpWith()...) }},
		{"coverage-remade.tif", func(out io.Writer) error { return w.coverageTIFF(out, shot, w.workedUpWith()...) }},
		{"bottom-track.csv", func(out io.Writer) error { return report.WriteBottom(out, w.input()) }},
		{"overview-remade.png", func(out io.Writer) error { return EncodePNG(out, w.remadeOverview(shot), w.pngTexts()...) }},
	}, nil
}

// remade is the mosaic of the survey worked up again, nil if it was not.
func (w *Writer) remade() (*mosaic.Mosaic, error) {
	desk := w.session.Desk
	if desk.Worked == nil || w.Record == nil {
		return nil, nil
	}
	work := w.work()
	x, y := w.session.Exercise.Place.Grid.Whole(work.Set.MosaicCell)
	m, err := desk.NewMosaic(&work.Review, x, y)
	if err != nil {
		return nil, err
	}
	return m, work.Mosaic(m)
}

// pictures are those of the debrief's page.
func (w *Writer) pictures(shot mosaic.Picture, report debrief.Report) ([]debrief.Picture, error) {
	charts := [2]*drawing{
		draw(func() *image.RGBA { return w.reckoning(shot, report) }),
		draw(func() *image.RGBA { return w.looked(report) }),
	}
	evidence, err := w.evidence(&report)
	if err != nil && !errors.Is(err, record.ErrNotKept) {
		return nil, err
	}
	var drawn [2][]byte
	for i, d := range charts {
		if drawn[i], err = d.png(); err != nil {
			return nil, err
		}
	}
	return append([]debrief.Picture{{
		Title: "What lies there", Caption: "The mosaic, with every object that truly lies there and every mark where nothing does.",
		PNG: drawn[0],
	}, {
		Title: "What was looked at", Caption: "The ground as it counts, where the fish truly was: hatched where it does not, by the reason.",
		PNG: drawn[1],
	}}, append(evidence, w.small...)...), nil
}

// file is one product and how it is written.
type file struct {
	name  string
	write func(io.Writer) error
}
