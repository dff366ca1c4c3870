package tiles

import (
	"fmt"
	"math"
	"strings"

	"dryline/sim"
	"dryline/sim/product"
	"dryline/sim/survey"
	"dryline/sonar"
	"dryline/vessel/nav/geodesy"
)

// Rows is how many pings a tile has at most.
const Rows = 512

// mostColumns is how many columns a tile has at most.
const mostColumns = 1024

// AnnotationFile is the name of the annotations of a scene.
const AnnotationFile = "coco.json"

// Writer cuts the tiles of a session.
type Writer struct {
	session *sim.Session
	sink    product.Sink
	scene   string
	each    int // samples to a column
	columns int

	stem  string // of the line under way, for file names
	line  string
	runs  map[string]int
	tiles []*tile // under way: of every channel, side and geometry
	cut   int     // tiles of the line so far
	spans [2][]spanOf
	sheet *Sheet
	err   error
}

// spanOf is the samples of a column.
type spanOf struct{ from, to int }

// Attach has tiles cut of a session's lines: ask for it before the first step. scene
// stands in every annotation.
func Attach(s *sim.Session, to product.Sink, scene string) *Writer {
	samples := s.Desk.Recorder.Samples
	w := &Writer{session: s, sink: to, scene: scene, runs: map[string]int{}, each: (samples + mostColumns - 1) / mostColumns}
	w.columns = samples / w.each
	w.sheet = NewSheet(s)
	s.Observe(sim.Observer{
		Truth: true, Labels: true,
		Open: func(line string, _ geodesy.Track) { w.open(line) },
		Ping: func(p *sim.Ping) {
			if p.Line != "" && w.err == nil {
				w.add(p)
			}
		},
		Line: func(*survey.LineRecord) { w.flush() },
	})
	return w
}

// Close writes the annotations once the session is over.
func (w *Writer) Close() error {
	if w.err != nil {
		return fmt.Errorf("tiles: %w", w.err)
	}
	return w.sink.Write(AnnotationFile, w.sheet.Write)
}

// open begins the tiles of a line.
func (w *Writer) open(line string) {
	w.line, w.stem, w.cut = line, line, 0
	key := strings.ToLower(line)
	if w.runs[key]++; w.runs[key] > 1 {
		w.stem = fmt.Sprintf("%s-run%d", line, w.runs[key])
	}
	w.tiles = nil
	for c := range w.session.Desk.Recorder.Channels {
		for side := range 2 {
			for _, ground := range []bool{false, true} {
				w.tiles = append(w.tiles, newTile(c, sonar.Side(side), ground, w.columns))
			}
		}
	}
}

// add puts a ping into the tiles under way.
func (w *Writer) add(p *sim.Ping) {
	if w.tiles == nil {
		return
	}
	bin := w.session.Desk.Recorder.Bin()
	height := 0.0
	if open := w.session.Desk.OpenLine(); open != nil && len(open.Pings) > 0 {
		if last := &open.Pings[len(open.Pings)-1]; last.Number == p.Number {
			height = last.Height
		}
	}
	w.lay(bin, height)
	samples := [2][][]uint16{p.Port, p.Starboard}
	var shadows [2][]uint16
	for side := range shadows {
		shadows[side] = Cast(p.Truth.Labels[side], p.Truth.Pose.Z)
	}
	for _, t := range w.tiles {
		spans := w.spans[0]
		if t.ground {
			spans = w.spans[1]
		}
		t.add(p.Number, spans, samples[t.side][t.channel], p.Truth.Labels[t.side], shadows[t.side])
	}
	if w.tiles[0].rows == Rows {
		w.flush()
		w.restart()
	}
}

// lay says which samples are in which column, in slant and in ground range.
func (w *Writer) lay(bin, height float64) {
	n := w.session.Desk.Recorder.Samples
	for g := range w.spans {
		w.spans[g] = w.spans[g][:0]
	}
	cell := bin * float64(w.each)
	for k := range w.columns {
		w.spans[0] = append(w.spans[0], spanOf{k * w.each, (k + 1) * w.each})
		s := spanOf{}
		if height > 0 {
			s.from = int(math.Hypot(float64(k)*cell, height) / bin)
			s.to = max(int(math.Hypot(float64(k+1)*cell, height)/bin), s.from+1)
		}
		if s.to > n {
			s = spanOf{}
		}
		w.spans[1] = append(w.spans[1], s)
	}
}

func (w *Writer) restart() {
	for _, t := range w.tiles {
		t.clear()
	}
}

// flush hands the tiles under way over.
func (w *Writer) flush() {
	if w.tiles == nil || w.tiles[0].rows == 0 || w.err != nil {
		return
	}
	w.cut++
	for _, t := range w.tiles {
		if w.err = w.write(t); w.err != nil {
			return
		}
	}
}

// Cast says of every sample whose shadow it is in, 0 for nobody's; see the package.
func Cast(labels []sonar.Label, fish float64) []uint16 {
	const (
		gap   = 3    // samples that a shadow may miss and go on
		graze = 0.02 // of the tangent: what roughness lifts
	)
	out := make([]uint16, len(labels))
	var object uint16
	last, ray := 0, math.Inf(-1)
	for k := range labels {
		l := &labels[k]
		tangent := math.Inf(-1)
		if l.Ground > 0 {
			tangent = (float64(l.Height) - fish) / float64(l.Ground)
		}
		switch l.Kind {
		case sonar.ObjectLabel, sonar.LayoverLabel:
			if l.Object != object {
				object, ray = l.Object, math.Inf(-1)
			}
			last, ray = k, max(ray, tangent)
		case sonar.ShadowLabel:
			if object != 0 && k-last <= gap && tangent <= ray+graze*math.Abs(ray) {
				out[k], last = object, k
			}
		}
	}
	return out
}
