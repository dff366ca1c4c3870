package coverage

import (
	"math"

	"dryline/sim/survey"
	"dryline/sonar/mosaic"
)

// Live is an area while its lines are being run. Ground is due once the line that lies nearest to it has been
// logged abreast of it: what is due and was not seen is a holiday now, though a line to come may still fill it.
//
// Looks are laid ping by ping, so that following a survey costs no more than the survey.
type Live struct {
	area    *Map
	lines   []Planned
	belongs []belonging
	logged  []logged // by line
	seen    *mosaic.Mosaic

	painter *mosaic.Painter // of the line being run, nil between lines
	open    string
	row     []float32
}

// belonging is the line that a cell of the area lies nearest to.
type belonging struct {
	cell  int
	x, y  float64
	line  int
	along float64 // metres from its start
}

// logged is the stretch of a line that pings were logged abreast of, metres from its start; to is less than from
// where there were none.
type logged struct{ from, to float64 }

// mostLive bounds the cells of a live map: it is gone through again and again.
const mostLive = 300_000

// liveSamples is how many samples of a side are laid: as many as keep steps of a cell of a metre apart.
const liveSamples = 200

// NewLive returns a map of an area of three corners or more before the first line, in cells of a metre, or of so
// much more that there are not too many.
func NewLive(corners []Point, lines []Planned) (*Live, error) {
	cell := 1.0
	if m, err := Take(corners, 4, nil, nil); err == nil {
		cell = max(cell, math.Sqrt(m.Square()/mostLive))
	}
	m, err := Take(corners, cell, nil, nil)
	if err != nil {
		return nil, err
	}
	seen, err := mosaic.New(m.Cell, mosaic.Latest)
	if err != nil {
		return nil, err
	}
	x0, y0 := float64(m.i0)*m.Cell, float64(m.j0)*m.Cell
	seen.Within(x0, y0, x0+float64(m.nx)*m.Cell, y0+float64(m.ny)*m.Cell)
	l := &Live{area: m, seen: seen, row: make([]float32, liveSamples+1)}
	m.each(corners, func(n int, x, y float64) { l.belongs = append(l.belongs, belonging{cell: n, x: x, y: y}) })
	l.Plan(lines)
	return l, nil
}

// Plan says which lines are to be run. Those that were there before come first, in the order they had.
func (l *Live) Plan(lines []Planned) {
	for len(l.logged) < len(lines) {
		l.logged = append(l.logged, logged{math.Inf(1), math.Inf(-1)})
	}
	l.lines = lines
	for k := range l.belongs {
		b := &l.belongs[k]
		nearest := math.Inf(1)
		for i, line := range lines {
			along, across := line.Track.Offset(b.x, b.y)
			if d := math.Hypot(across, max(-along, along-line.Track.Length(), 0)); d < nearest {
				nearest, b.line, b.along = d, i, along
			}
		}
	}
}

// Ping takes a ping in that was logged on a line.
func (l *Live) Ping(line string, f survey.Fix, height, rangeScale float64) {
	if l.painter == nil || line != l.open {
		l.Close()
		l.painter, l.open = mosaic.NewPainter(l.seen), line
	}
	for i := range l.lines {
		if l.lines[i].Name == line {
			along, _ := l.lines[i].Track.Offset(f.X, f.Y)
			l.logged[i].from, l.logged[i].to = min(l.logged[i].from, along), max(l.logged[i].to, along)
		}
	}
	if f.Fault == "" && height > 0 {
		l.painter.Paint(survey.Swath(f, height, survey.Recorder{RangeScale: rangeScale, Samples: liveSamples}, l.row, l.row))
	}
}

// Close says that the line that was run is closed.
func (l *Live) Close() {
	if l.painter != nil {
		l.seen.EndLook()
		l.painter, l.open = nil, ""
	}
}

// Holidays are the stretches of ground that are due and that no ping has seen, as those of a [Map]. Near the
// pings that come in now nothing is due yet: the swath swings to and fro with the fish.
func (l *Live) Holidays() []Holiday {
	const swings = 8 // metres of a line
	for k := range l.area.looks {
		l.area.looks[k] = 1
	}
	for k := range l.belongs {
		b := &l.belongs[k]
		if len(l.lines) == 0 {
			break
		}
		span := l.logged[b.line]
		if l.lines[b.line].Name == l.open {
			span.from, span.to = span.from+swings, span.to-swings
		}
		along := min(max(b.along, 0), l.lines[b.line].Track.Length())
		if along < span.from || along > span.to {
			continue
		}
		if _, looks := l.seen.At(b.x, b.y); looks == 0 {
			l.area.looks[b.cell] = 0
		}
	}
	return l.area.Holidays()
}

// Cell is how wide its cells are, metres.
func (l *Live) Cell() float64 { return l.area.Cell }
