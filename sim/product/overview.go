package product

import (
	"fmt"
	"image"
	"slices"
	"strconv"
	"strings"

	"dryline/sim/debrief"
	"dryline/sim/debrief/chart"
	"dryline/sim/order"
	"dryline/sim/survey"
	"dryline/sonar/mosaic"
)

const overviewWidth, overviewHeight = 1600, 1200 // pixels

// overview is the chart handed over: the mosaic as the desk made it, with the
// contacts the desk marked. The truth is not in it beyond the pipelines that were
// charted beforehand.
func (w *Writer) overview(shot mosaic.Picture) *image.RGBA {
	return w.overviewOf(w.chart(shot))
}

// remadeOverview is the overview of the survey worked up again.
func (w *Writer) remadeOverview(shot mosaic.Picture) *image.RGBA {
	c, set := w.chart(shot), w.work().Set
	c.Title += ", worked up again"
	c.Notes[0] = w.mosaicNote(set.MosaicChannel, set.MosaicCell)
	return w.overviewOf(c)
}

func (w *Writer) overviewOf(c chart.Chart) *image.RGBA {
	c.Pipelines = w.pipelines(true)
	byHand := 0
	for _, k := range w.session.Desk.Contacts {
		c.Contacts = append(c.Contacts, chart.Contact{Label: label(&k), X: k.X, Y: k.Y, Found: true})
		if k.ByHand {
			byHand++
		}
	}
	who := "all by the desk"
	if byHand > 0 {
		who = fmt.Sprintf("%d of them by hand", byHand)
	}
	c.Notes = append(c.Notes, fmt.Sprintf("%d contacts marked, %s.", len(c.Contacts), who))
	return chart.Draw(c, overviewWidth, overviewHeight)
}

// label returns what a contact is called on a chart: its number, or the name it was
// given.
func label(k *survey.Contact) string {
	if number := strconv.Itoa(k.Number); k.Name == "C"+number {
		return number
	}
	return k.Name
}

// scales says with which range scales the lines were run.
func (w *Writer) scales() string {
	var scales []float64
	for _, l := range w.session.Desk.Lines {
		scales = append(scales, l.RangeScale)
	}
	if len(scales) == 0 {
		scales = append(scales, w.session.Exercise.Sonar.RangeScale)
	}
	slices.Sort(scales)
	var words []string
	for _, v := range slices.Compact(scales) {
		words = append(words, strconv.FormatFloat(v, 'g', -1, 64))
	}
	return strings.Join(words, ", ")
}

// chart gathers what every chart of the session shows.
func (w *Writer) chart(shot mosaic.Picture) chart.Chart {
	ex, desk := w.session.Exercise, w.session.Desk
	c := chart.Chart{
		Title:    ex.Title,
		Subtitle: fmt.Sprintf("%s, %s", ex.Place.Name, ex.Start.UTC().Format("2 January 2006")),
		Grid:     ex.Place.Grid,
		Mosaic:   shot.Gray, MinX: shot.MinX, MaxY: shot.MaxY, Cell: shot.Cell,
	}
	for _, l := range ex.Sailed() {
		c.Lines = append(c.Lines, chart.Line{Name: l.Name, A: chart.Point{l.A.X, l.A.Y}, B: chart.Point{l.B.X, l.B.Y}})
	}
	for _, p := range desk.Track {
		c.Track = append(c.Track, chart.Point{p.Fix.VesselX, p.Fix.VesselY})
		c.FishTrack = append(c.FishTrack, chart.Point{p.Fix.X, p.Fix.Y})
	}
	for _, p := range ex.Score.Area {
		c.Area = append(c.Area, chart.Point{p.X, p.Y})
	}
	c.Notes = append(c.Notes, w.mosaicNote(ex.Desk.MosaicChannel, ex.Desk.MosaicCell))
	if ended := w.session.Ended(); ended != order.ReasonFinished {
		c.Notes = append(c.Notes, "Partial: the session was "+ended+".")
	}
	return c
}

// mosaicNote says what the mosaic of a channel in cells of so many metres is.
func (w *Writer) mosaicNote(channel int, cell float64) string {
	return fmt.Sprintf("Range scale %s m a side; mosaic of channel %s in cells of %g m.",
		w.scales(), ChannelLabel(w.session.Exercise.Sonar.Channels[channel]), cell)
}

// pipelines are where pipelines run: those that were charted beforehand, or all.
func (w *Writer) pipelines(charted bool) (runs [][]chart.Point) {
	for _, p := range w.session.Exercise.Seabed.Pipelines {
		if charted && !p.Charted {
			continue
		}
		var run []chart.Point
		for _, q := range p.Path {
			run = append(run, chart.Point{q.X, q.Y})
		}
		runs = append(runs, run)
	}
	return runs
}

// looked is the ground of the area as it counts, with the reason for every hole.
func (w *Writer) looked(r debrief.Report) *image.RGBA {
	c := w.chart(mosaic.Picture{})
	c.Title += ": what was looked at"
	c.Mosaic, c.Ground = nil, debrief.Ground(w.session, w.witness)
	c.Notes = []string{fmt.Sprintf("%s %% of the area counts.", survey.Percent(r.Coverage.Counted, 1))}
	return chart.Draw(c, overviewWidth, overviewHeight)
}

// reckoning is the debrief's chart: what truly lies there against what was
// marked.
func (w *Writer) reckoning(shot mosaic.Picture, r debrief.Report) *image.RGBA {
	c := w.chart(shot)
	c.Title += ": what lies there"
	c.Pipelines = w.pipelines(false)
	found := 0
	for _, t := range r.Targets {
		c.Contacts = append(c.Contacts, chart.Contact{Label: t.Name, X: t.X, Y: t.Y, Found: t.Contact != nil})
		if t.Contact != nil {
			found++
		}
	}
	for _, f := range r.FalseContacts {
		if f.Verdict == debrief.Candidate {
			continue // nobody said it was anything
		}
		c.Contacts = append(c.Contacts, chart.Contact{Label: strconv.Itoa(f.Number), X: f.X, Y: f.Y, False: true})
	}
	k := &r.Contacts
	c.Notes = append(c.Notes, fmt.Sprintf("%d of %d objects reported; %d contacts where nothing lies, %d on natural rock named as such; %d of the lookout's left as candidates.",
		found, len(r.Targets), k.False, k.Natural, k.Candidates))
	return chart.Draw(c, overviewWidth, overviewHeight)
}
