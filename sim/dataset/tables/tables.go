package tables

import (
	"errors"
	"io"

	"dryline/sim"
	"dryline/sim/dataset/cdf"
	"dryline/sim/dataset/parquet"
	"dryline/sim/dataset/pingfile"
	"dryline/sim/product"
)

// The names of the files.
const (
	PingFile   = "pings.parquet"
	ObjectFile = "objects.parquet"
)

// Of names the scene that the rows are of.
type Of struct{ Scene, Split, Exercise string }

// Writer gathers the rows of a session: what is told of a ping is small, and written at
// the end.
type Writer struct {
	session *sim.Session
	sink    product.Sink
	of      Of
	lines   []string  // by ping
	values  []float64 // by ping and column
	lit     map[uint16]int64
}

// Attach has the tables of a session gathered: ask for it before the first step.
func Attach(s *sim.Session, to product.Sink, of Of) *Writer {
	w := &Writer{session: s, sink: to, of: of, lit: map[uint16]int64{}}
	s.Observe(sim.Observer{Truth: true, Labels: true, Ping: func(p *sim.Ping) {
		if p.Line == "" {
			return
		}
		w.lines = append(w.lines, p.Line)
		w.values = pingfile.AppendRow(w.values, s, p)
		for _, side := range p.Truth.Lit {
			for _, o := range side {
				w.lit[o]++
			}
		}
	}})
	return w
}

// Close writes the tables once the session is over.
func (w *Writer) Close() error {
	return errors.Join(w.sink.Write(PingFile, w.pings), w.sink.Write(ObjectFile, w.objects))
}

// column is a column whose value in a row is worked out.
func column[T any](name string, rows int, of func(row int) T) parquet.Column {
	values := make([]T, rows)
	for i := range values {
		values[i] = of(i)
	}
	return parquet.Column{Name: name, Values: values}
}

// begin are the columns that every table begins with.
func (w *Writer) begin(rows int) []parquet.Column {
	return []parquet.Column{
		column("scene", rows, func(int) string { return w.of.Scene }),
		column("split", rows, func(int) string { return w.of.Split }),
		column("exercise", rows, func(int) string { return w.of.Exercise }),
	}
}

func (w *Writer) pings(out io.Writer) error {
	told, n := pingfile.Columns(), len(w.lines)
	columns := append(w.begin(n), parquet.Column{Name: "line", Values: append([]string{}, w.lines...)})
	for i, c := range told {
		at := func(row int) float64 { return w.values[row*len(told)+i] }
		switch c.Type {
		case cdf.UInt64, cdf.Int:
			columns = append(columns, column(c.Name, n, func(row int) int64 { return int64(at(row)) }))
		case cdf.UByte:
			columns = append(columns, column(c.Name, n, func(row int) bool { return at(row) != 0 }))
		default:
			columns = append(columns, column(c.Name, n, at))
		}
	}
	return parquet.Write(out, "pings", columns)
}

func (w *Writer) objects(out io.Writer) error {
	things := pingfile.Things(&w.session.Exercise.Seabed)
	n := len(things)
	text := func(name string, of func(t *pingfile.Thing) string) parquet.Column {
		return column(name, n, func(row int) string { return of(&things[row]) })
	}
	number := func(name string, of func(t *pingfile.Thing) float64) parquet.Column {
		return column(name, n, func(row int) float64 { return of(&things[row]) })
	}
	return parquet.Write(out, "objects", append(w.begin(n),
		column("object", n, func(row int) int64 { return int64(row + 1) }),
		text("name", func(t *pingfile.Thing) string { return t.Name }),
		text("kind", func(t *pingfile.Thing) string { return t.Kind }),
		text("made_of", func(t *pingfile.Thing) string { return t.Class.String() }),
		column("charted", n, func(row int) bool { return things[row].Charted }),
		column("times_lit", n, func(row int) int64 { return w.lit[uint16(row+1)] }),
		number("x", func(t *pingfile.Thing) float64 { return t.X }),
		number("y", func(t *pingfile.Thing) float64 { return t.Y }),
		number("heading_deg", func(t *pingfile.Thing) float64 { return t.Heading }),
		number("length_m", func(t *pingfile.Thing) float64 { return t.Length }),
		number("width_m", func(t *pingfile.Thing) float64 { return t.Width }),
		number("height_m", func(t *pingfile.Thing) float64 { return t.Height }),
		number("burial_m", func(t *pingfile.Thing) float64 { return t.Burial }),
	))
}
