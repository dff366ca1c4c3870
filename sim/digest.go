package sim

import (
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"fmt"
	"hash"
	"math"
	"slices"

	"dryline/sim/survey"
)

// digest sums up what a session gives, as it comes in: every logged ping as it
// was recorded, and the watch log.
type digest struct {
	sum    hash.Hash
	buffer []byte
}

func newDigest() digest { return digest{sum: sha256.New()} }

func (d *digest) numbers(values ...float64) {
	for _, v := range values {
		d.buffer = binary.LittleEndian.AppendUint64(d.buffer, math.Float64bits(v))
	}
}

func (d *digest) fix(f *survey.Fix) {
	d.numbers(f.Time, f.X, f.Y, f.Course, f.Heading, f.Depth, f.Altitude, f.Layback, f.VesselX, f.VesselY, f.Speed, f.CableOut, f.Lead)
	d.buffer = append(d.buffer, f.Fault...)
}

func (d *digest) flush() {
	d.sum.Write(d.buffer) // a hash never fails to write
	d.buffer = d.buffer[:0]
}

// ping takes in a logged ping.
func (d *digest) ping(p *survey.Ping) {
	d.buffer = binary.LittleEndian.AppendUint64(d.buffer, p.Number)
	d.fix(&p.Fix)
	for _, side := range [2][][]uint16{p.Port, p.Starboard} {
		for _, samples := range side {
			d.samples(samples)
		}
	}
	d.flush()
}

// samples takes in a row, four at a time.
func (d *digest) samples(row []uint16) {
	d.buffer = slices.Grow(d.buffer, 2*len(row))
	for ; len(row) >= 4; row = row[4:] {
		d.buffer = binary.LittleEndian.AppendUint64(d.buffer, uint64(row[0])|uint64(row[1])<<16|uint64(row[2])<<32|uint64(row[3])<<48)
	}
	for _, v := range row {
		d.buffer = binary.LittleEndian.AppendUint16(d.buffer, v)
	}
}

// note takes in a row of the watch log.
func (d *digest) note(e *event) {
	d.fix(&e.fix)
	d.numbers(float64(e.heading))
	d.flush()
}

// judgement takes in what a person said of a contact; nothing if nobody did.
func (d *digest) judgement(k *survey.Contact) {
	if said := [4]string{k.Description, string(k.Action), k.Reason, k.Remarks}; said != [4]string{} {
		fmt.Fprintf(d.sum, "said %q\n", said)
	}
	if k.Confidence != nil {
		fmt.Fprintf(d.sum, "confidence %v\n", *k.Confidence)
	}
	for i, p := range k.Passes {
		if p.ByHand && i > 0 { // where the first is, the place of the contact says
			fmt.Fprintf(d.sum, "pass %+v\n", p)
		}
	}
}

// desk takes in what was done to work the survey up again, and what came of it; nothing
// if nothing was done.
func (d *digest) desk(desk *survey.Desk) {
	for _, e := range desk.Remarks {
		fmt.Fprintf(d.sum, "remark %v %q %q\n", e.Time, e.Line, e.Text)
	}
	if r := desk.Report; r != nil {
		fmt.Fprintf(d.sum, "report %q\n", r.Text)
	}
	asked, nothing := fmt.Sprintf("%+v", desk.Review), fmt.Sprintf("%+v", survey.Review{})
	if asked != nothing { // maps are printed in the order of their keys
		fmt.Fprintf(d.sum, "review %s\n", asked)
	}
	if c := &desk.Calibrated; c.Layback != nil {
		fmt.Fprintf(d.sum, "layback %+v, applied %q\n", *c.Layback, c.Applied)
	}
	if c := &desk.Calibrated; c.System != nil {
		fmt.Fprintf(d.sum, "system on contact %d %+v\n", c.Object, *c.System)
	}
	w := desk.Worked
	if w == nil {
		return
	}
	fmt.Fprintf(d.sum, "worked up by %+v\n", w.Review)
	for _, l := range w.Lines {
		for i := range l.Pings {
			d.fix(&l.Pings[i].Fix)
			d.numbers(l.Pings[i].Height)
		}
		d.flush()
	}
}

// Digest is the SHA-256, in hex, of what the session gave so far and every
// product is made from: the logged pings as recorded with where the desk placed
// the fish, the watch log, the bottom track and the contacts; the mosaic is made of
// those. Two sessions with one digest hand over the same survey.
func (s *Session) Digest() string {
	s.develop()
	d := newDigest()
	fmt.Fprintf(d.sum, "%x\n", s.digest.sum.Sum(nil))
	for _, l := range s.Desk.Lines {
		fmt.Fprintf(d.sum, "line %q %d\n", l.Name, len(l.Pings))
		for i := range l.Pings {
			d.numbers(l.Pings[i].Height)
		}
		d.flush()
	}
	for _, k := range s.Desk.Contacts {
		fmt.Fprintf(d.sum, "contact %d %q %q %q %d\n", k.Number, k.Name, k.Class, k.Lines, k.Ping)
		d.numbers(k.X, k.Y, k.Range, k.Altitude, k.Length, k.Width, k.Shadow, k.Height, k.Contrast)
		d.flush()
		d.judgement(&k)
	}
	d.desk(s.Desk)
	return hex.EncodeToString(d.sum.Sum(nil))
}
