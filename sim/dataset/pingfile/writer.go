package pingfile

import (
	"bufio"
	"fmt"
	"io"
	"math"

	"dryline/sim"
	"dryline/sim/dataset/cdf"
	"dryline/sim/product"
	"dryline/sim/record"
	"dryline/sim/survey"
	"dryline/sonar"
	"dryline/vessel/nav/geodesy"
)

// Formats says as what pings are written: the same variables either way.
type Formats struct {
	NetCDF bool
	Zarr   bool // in a zip file, compressed
}

// Writer writes the pings of the lines of a session, each as it is closed.
type Writer struct {
	session *sim.Session
	sink    product.Sink
	backing func() (record.Backing, error)
	formats Formats

	line *line
	err  error
}

// line is a line under way: the files of its channels in the making.
type line struct {
	name  string
	files []file
	pings int64
}

// file gathers the records of one channel in a backing: how many there are stands at
// the head of the file, which is written when the line is closed.
type file struct {
	head    head
	layout  *cdf.Layout
	backing record.Backing
	out     *bufio.Writer
	record  []byte
	slabs   slabs
}

// slabs are where the variables lie in a record.
type slabs struct {
	perPing, perSide                         [][]byte
	samples, ground, object, label, sediment []byte
}

// Attach has the pings of a session's lines written to a sink: ask for it before the first
// step. What a line has so far lies in a backing of its own for each channel. The files
// change no other product.
func Attach(s *sim.Session, to product.Sink, formats Formats, backing func() (record.Backing, error)) *Writer {
	w := &Writer{session: s, sink: to, formats: formats, backing: backing}
	s.Observe(sim.Observer{
		Truth: true, Labels: true,
		Open: func(name string, _ geodesy.Track) { w.fail(w.open(name)) },
		Ping: func(p *sim.Ping) {
			if p.Line != "" && w.line != nil {
				w.fail(w.add(p))
			}
		},
		Line: func(*survey.LineRecord) { w.fail(w.close()) },
	})
	return w
}

// Err returns the first thing that went wrong, nil if nothing did.
func (w *Writer) Err() error { return w.err }

func (w *Writer) fail(err error) {
	if err == nil {
		return
	}
	if w.err == nil {
		w.err = fmt.Errorf("pings: %w", err)
	}
	w.drop()
}

// drop lets go of a line's backings.
func (w *Writer) drop() {
	if w.line == nil {
		return
	}
	for i := range w.line.files {
		w.line.files[i].backing.Close()
	}
	w.line = nil
}

func (w *Writer) open(name string) error {
	w.drop()
	if w.err != nil {
		return nil
	}
	w.line = &line{name: name}
	for c := range w.session.Desk.Recorder.Channels {
		b, err := w.backing()
		if err != nil {
			return err
		}
		w.line.files = append(w.line.files, file{
			head:    head{session: w.session, line: name, channel: c},
			backing: b, out: bufio.NewWriterSize(b, 1<<18),
		})
	}
	return nil
}

// begin lays the files out at the first ping of a line.
func (l *line) begin(at float64) error {
	for i := range l.files {
		f := &l.files[i]
		f.head.start = at
		var err error
		if f.layout, err = f.head.layout(); err != nil {
			return err
		}
		f.record = make([]byte, f.layout.RecordSize())
		slab := func(name string) []byte { return f.layout.Slab(f.record, name) }
		for _, v := range perPing {
			f.slabs.perPing = append(f.slabs.perPing, slab(v.name))
		}
		for _, v := range perSide {
			f.slabs.perSide = append(f.slabs.perSide, slab(v.name))
		}
		f.slabs.samples, f.slabs.ground, f.slabs.object = slab("samples"), slab("ground_range"), slab("object")
		f.slabs.label, f.slabs.sediment = slab("label"), slab("sediment")
	}
	return nil
}

func (w *Writer) add(p *sim.Ping) error {
	l, s := w.line, w.session
	if l.pings == 0 {
		if err := l.begin(p.Fix.Time); err != nil {
			return err
		}
	}
	m := momentOf(s, p)
	first := &l.files[0]
	first.encode(&m)
	for c := range l.files {
		f := &l.files[c]
		if c > 0 { // every channel's record is laid out alike
			copy(f.record, first.record)
		}
		half := len(f.slabs.samples) / 2
		cdf.PutUint16(f.slabs.samples[:half], p.Port[c]...)
		cdf.PutUint16(f.slabs.samples[half:], p.Starboard[c]...)
		if _, err := f.out.Write(f.record); err != nil {
			return err
		}
	}
	l.pings++
	return nil
}

// encode fills the record with all but the samples.
func (f *file) encode(m *moment) {
	for i := range perPing {
		perPing[i].put(f.slabs.perPing[i], 0, perPing[i].of(m, sonar.Port))
	}
	for i := range perSide {
		for side := range 2 {
			perSide[i].put(f.slabs.perSide[i], side, perSide[i].of(m, sonar.Side(side)))
		}
	}
	for side, labels := range m.ping.Truth.Labels {
		n := len(labels)
		ground, object := f.slabs.ground[2*n*side:2*n*(side+1)], f.slabs.object[2*n*side:2*n*(side+1)]
		kind, sediment := f.slabs.label[n*side:n*(side+1)], f.slabs.sediment[n*side:n*(side+1)]
		for k := range labels {
			l := &labels[k]
			kind[k], sediment[k] = uint8(l.Kind), uint8(l.Class)
			g := uint16(noGround)
			if l.Ground > 0 {
				g = uint16(min(math.Round(float64(l.Ground)/groundStep), noGround-1))
			}
			ground[2*k], ground[2*k+1] = uint8(g>>8), uint8(g)
			object[2*k], object[2*k+1] = uint8(l.Object>>8), uint8(l.Object)
		}
	}
}

// close hands the line's files over.
func (w *Writer) close() error {
	l := w.line
	if l == nil {
		return nil
	}
	if l.pings > 0 {
		for i := range l.files {
			f := &l.files[i]
			if err := f.out.Flush(); err != nil {
				return err
			}
			channel := w.session.Desk.Recorder.Channels[f.head.channel]
			stem := fmt.Sprintf("pings-%s-%s", l.name, channel)
			if w.formats.NetCDF {
				if err := w.sink.Write(product.Free(w.sink, stem, ".nc"), func(out io.Writer) error {
					if err := f.layout.WriteHead(out, l.pings); err != nil {
						return err
					}
					_, err := io.Copy(out, io.NewSectionReader(f.backing, 0, l.pings*f.layout.RecordSize()))
					return err
				}); err != nil {
					return err
				}
			}
			if w.formats.Zarr {
				if err := w.sink.Write(product.Free(w.sink, stem, ".zarr.zip"), func(out io.Writer) error { return f.writeZarr(out, l.pings) }); err != nil {
					return err
				}
			}
		}
	}
	w.drop()
	return nil
}
