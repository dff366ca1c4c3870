package survey

import (
	"math"

	"dryline/sonar/waterfall"
	"dryline/vessel/nav/geodesy"
)

// LineRecord is the log of one line.
type LineRecord struct {
	Name       string
	Track      geodesy.Track
	RangeScale float64 // it was logged with, metres
	Start, End float64 // seconds
	Pings      []PingRecord
	Rows       [][]Row // per channel: one row a ping, for pictures

	Bottom []BottomNote // by ping; nil unless the survey was worked up again
}

// PingRecord is the log of one ping.
type PingRecord struct {
	Number uint64
	Fix    Fix
	Height float64 // of the fish by the bottom track, metres
	Locked bool    // the bottom track found the bottom in this ping
	Along  float64 // of the fish along the line, metres
	Off    float64 // of the vessel off the line, metres, positive to its right
}

// Row is one levelled row as grey values, RowBins to a side.
type Row struct{ Port, Starboard []uint8 }

// RowBins is how many grey values a side of a stored row has at most.
const RowBins = 500

func newLineRecord(name string, t geodesy.Track, r Recorder) *LineRecord {
	return &LineRecord{Name: name, Track: t, RangeScale: r.RangeScale, Start: math.NaN(), Rows: make([][]Row, len(r.Channels))}
}

func (l *LineRecord) addPing(p Ping, height float64, locked bool) {
	if len(l.Pings) == 0 {
		l.Start = p.Fix.Time
	}
	l.End = p.Fix.Time
	along, _ := l.Track.Offset(p.Fix.X, p.Fix.Y)
	_, off := l.Track.Offset(p.Fix.VesselX, p.Fix.VesselY)
	l.Pings = append(l.Pings, PingRecord{Number: p.Number, Fix: p.Fix, Height: height, Locked: locked, Along: along, Off: off})
}

// addRow adds a row to a channel's, or puts it in place of those before if they
// are not kept.
func (l *LineRecord) addRow(channel int, port, starboard []float32, kept bool) {
	if !kept {
		l.Rows[channel] = l.Rows[channel][:0]
	}
	n := min(RowBins, len(port))
	row := Row{Port: make([]uint8, n), Starboard: make([]uint8, n)}
	shrink(row.Port, port)
	shrink(row.Starboard, starboard)
	l.Rows[channel] = append(l.Rows[channel], row)
}

// addBlank adds an empty row to every channel, for a ping that was lost.
func (l *LineRecord) addBlank() {
	for c := range l.Rows {
		l.Rows[c] = append(l.Rows[c], Row{})
	}
}

// shrink averages a levelled row into grey values: value i of n takes in the samples from i/n of the row to (i+1)/n.
func shrink(dst []uint8, row []float32) {
	n := max(len(dst), 1)
	whole, part := len(row)/n, len(row)%n
	from, over := 0, 0 // where the next begins, and n-ths of a sample beyond that
	for i := range dst {
		to := from + whole
		if over += part; over >= n {
			over, to = over-n, to+1
		}
		sum := float32(0)
		for _, v := range row[from:to] {
			sum += v
		}
		dst[i] = waterfall.Tone(sum / float32(to-from))
		from = to
	}
}
