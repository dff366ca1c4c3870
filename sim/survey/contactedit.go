package survey

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Class says what a contact is taken for, in the trade's plain words; the list is
// our own.
type Class string

// Unclassified is the class of a contact nobody has judged.
const Unclassified Class = "unclassified"

var classes = []Class{
	Unclassified, "wreck", "debris", "boulder", "rock", "pipe_or_cable", "mooring", "fishing_gear", "other",
}

// Classes returns the classes a contact may have.
func Classes() []Class { return slices.Clone(classes) }

// Extent names what is measured of a contact.
type Extent string

// The extents.
const (
	Length Extent = "length"
	Width  Extent = "width"
	Shadow Extent = "shadow" // and from it the height
)

// Extents returns what can be measured of a contact.
func Extents() []Extent { return []Extent{Length, Width, Shadow} }

// LongestName is how many characters the name of a contact may have.
const LongestName = 40

// change is one thing done to a contact by hand, to be undone field by field:
// the lookout may have added sightings to the contact since.
type change struct {
	what          kind
	before, after Contact // one of them empty for a mark and for a deletion
}

type kind int

const (
	marked kind = iota
	deleted
	named
	classed
	measured
	sighted
	described
	rated
	decided
	remarked
)

// Rehearse does something to contacts or to the review and leaves the desk as it was: what it
// returns says whether it could be done.
func (d *Desk) Rehearse(do func(*Desk) error) error {
	return do(d.copied())
}

// copied is a desk of its own as far as contacts and review go.
func (d *Desk) copied() *Desk {
	c := *d
	c.Contacts, c.changes, c.undone = slices.Clone(d.Contacts), slices.Clone(d.changes), slices.Clone(d.undone)
	c.Review, c.Remarks = d.Review.Clone(), slices.Clone(d.Remarks)
	return &c
}

// Snapshot is the desk as it is now with the log off, to be read while the desk itself goes
// on: its finished lines, contacts, review and what was worked up of them. It takes no pings.
func (d *Desk) Snapshot() *Desk {
	c := d.copied()
	c.Lines, c.Track, c.settings = slices.Clip(d.Lines), slices.Clip(d.Track), slices.Clip(d.settings)
	c.Mosaic, c.watchers, c.listeners, c.levellers, c.painter, c.line, c.lookout = nil, nil, nil, nil, nil, nil, nil
	if d.Report != nil {
		r := *d.Report
		c.Report = &r
	}
	return c
}

// Mark marks a contact at a point on the ground, metres, at a time in seconds,
// and returns its number, which no other contact ever has. ping, if not 0, is
// the logged ping it was seen in, from which side, range and the height of the
// fish follow; a mark on the mosaic has none of them.
func (d *Desk) Mark(x, y float64, ping uint64, now float64) (int, error) {
	c := Contact{X: x, Y: y, Time: now, Ping: ping, Lines: []string{}, Class: Unclassified, ByHand: true}
	if ping != 0 {
		line, p := d.logged(ping)
		if p == nil {
			return 0, fmt.Errorf("ping %d is not on the log of a line", ping)
		}
		along, across := p.offset(x, y)
		if r := math.Hypot(along, across); r > line.RangeScale {
			return 0, fmt.Errorf("the point is %.0f m from ping %d, beyond its range scale of %g m", r, ping, line.RangeScale)
		}
		c.Lines, c.Side, c.Time = []string{line.Name}, sideName(across > 0), p.Fix.Time
		k := d.Worked.stretch() // these two are by the sound speed of the watch
		c.Range, c.Altitude = math.Abs(across)/k, p.Height/k
		c.Passes = []Pass{{Line: line.Name, Run: d.runOf(line), ByHand: true, Mark: d.markAt(p, x, y)}}
	}
	c.Number = d.number()
	c.Name = fmt.Sprintf("C%d", c.Number)
	d.put(c)
	d.did(change{what: marked, after: c})
	return c.Number, nil
}

// Measure measures a contact between two points on the ground, metres. Of a
// shadow it works out the height as well, by the height of the fish and the
// range to the shadow's end at a sighting: that of ping, or else that of the
// contact's own, or else, for a mark on the mosaic, the line that the shadow
// points away from; if no line does so the height is 0. Heights of several passes
// are averaged ([Contact.MeanHeight]). pixel is that of [Measure].
func (d *Desk) Measure(number int, what Extent, x, y, x2, y2 float64, ping uint64, pixel float64) error {
	c := d.contact(number)
	if c == nil {
		return noContact(number)
	}
	long := math.Hypot(x2-x, y2-y)
	if least, most := 0.01, 1000.0; long < least || long > most {
		return fmt.Errorf("the points are %.3g m apart (want %g to %g m)", long, least, most)
	}
	before := *c
	var line *LineRecord
	var p *PingRecord
	switch {
	case !slices.Contains(Extents(), what):
		return fmt.Errorf("%q is not measured (want one of %v)", what, Extents())
	case ping != 0:
		if line, p = d.logged(ping); p == nil {
			return fmt.Errorf("ping %d is not on the log of a line", ping)
		}
	case c.Ping != 0:
		line, p = d.logged(c.Ping)
	case what == Shadow:
		line, p = d.castBy(x, y, x2, y2)
	}
	taken := Measure{What: what, X: x, Y: y, X2: x2, Y2: y2, Metres: long, Pixel: pixel}
	if p != nil {
		taken.Line, taken.Run, taken.Ping = line.Name, d.runOf(line), p.Number
	}
	switch what {
	case Length:
		c.Length = long
	case Width:
		c.Width = long
	case Shadow:
		if p != nil {
			taken.Height = shadowHeight(p, x, y, x2, y2)
		}
		c.Shadow = long
	}
	c.Measures = append(slices.Clone(c.Measures), taken)
	if what == Shadow {
		c.Height = c.MeanHeight()
	}
	c.Measured = true
	d.did(change{what: measured, before: before, after: *c})
	return nil
}

// shadowHeight is H = h S/(G+S) over the ground range of the shadow's end, as
// the lookout takes it (IHO C-13, chapter 4, 2.3.11.4), metres.
func shadowHeight(p *PingRecord, x, y, x2, y2 float64) float64 {
	tip := max(math.Hypot(x-p.Fix.X, y-p.Fix.Y), math.Hypot(x2-p.Fix.X, y2-p.Fix.Y))
	shadow := math.Hypot(x2-x, y2-y)
	if tip <= 0 || shadow > tip {
		return 0
	}
	return p.Height * shadow / tip
}

// castBy is the ping that cast a shadow seen on the mosaic: of the lines whose
// swath covers it, the one it points most nearly away from, and within 25
// degrees; nil if there is none.
func (d *Desk) castBy(x, y, x2, y2 float64) (line *LineRecord, by *PingRecord) {
	best := math.Cos(25 * math.Pi / 180)
	long := math.Hypot(x2-x, y2-y)
	for _, s := range d.Sightings(x, y) {
		p := &s.Line.Pings[s.Index]
		dx, dy := x-p.Fix.X, y-p.Fix.Y
		if away := ((x2-x)*dx + (y2-y)*dy) / (long * math.Hypot(dx, dy)); away > best {
			best, line, by = away, s.Line, p
		}
	}
	return line, by
}

// Rename gives a contact a name of 1 to [LongestName] printable characters.
func (d *Desk) Rename(number int, name string) error {
	c := d.contact(number)
	if c == nil {
		return noContact(number)
	}
	if n := utf8.RuneCountInString(name); n > LongestName || strings.TrimSpace(name) == "" {
		return fmt.Errorf("the name has %d characters (want 1 to %d, not all of them blank)", n, LongestName)
	}
	if !utf8.ValidString(name) || strings.ContainsFunc(name, func(r rune) bool { return !unicode.IsPrint(r) }) {
		return errors.New("the name holds characters that cannot be printed")
	}
	before := *c
	c.Name = name
	d.did(change{what: named, before: before, after: *c})
	return nil
}

// Classify says what a contact is taken for.
func (d *Desk) Classify(number int, class Class) error {
	c := d.contact(number)
	if c == nil {
		return noContact(number)
	}
	if !slices.Contains(classes, class) {
		return fmt.Errorf("%q is no class (want one of %v)", class, classes)
	}
	before := *c
	c.Class = class
	d.did(change{what: classed, before: before, after: *c})
	return nil
}

// Delete takes a contact out of the list. Its number is not given again.
func (d *Desk) Delete(number int) error {
	c := d.contact(number)
	if c == nil {
		return noContact(number)
	}
	before := *c
	d.take(number)
	d.did(change{what: deleted, before: before})
	return nil
}

// SetLookout says whether the desk marks contacts by itself at the end of a
// line, as it does unless told not to.
func (d *Desk) SetLookout(on bool) { d.lookoutOff = !on }

// Lookout reports whether the desk marks contacts by itself.
func (d *Desk) Lookout() bool { return !d.lookoutOff }

// LastContact is the number given last, 0 if none was.
func (d *Desk) LastContact() int { return d.numbered }

func (d *Desk) number() int {
	d.numbered++
	return d.numbered
}

func (d *Desk) contact(number int) *Contact {
	i := slices.IndexFunc(d.Contacts, func(c Contact) bool { return c.Number == number })
	if i < 0 {
		return nil
	}
	return &d.Contacts[i]
}

// put puts a contact where its number has it.
func (d *Desk) put(c Contact) {
	i, _ := slices.BinarySearchFunc(d.Contacts, c.Number, func(c Contact, n int) int { return c.Number - n })
	d.Contacts = slices.Insert(d.Contacts, i, c)
}

func (d *Desk) take(number int) {
	d.Contacts = slices.DeleteFunc(d.Contacts, func(c Contact) bool { return c.Number == number })
}

func noContact(number int) error { return fmt.Errorf("no contact has the number %d", number) }

func sideName(starboard bool) string {
	if starboard {
		return "starboard"
	}
	return "port"
}
