package survey

import (
	"fmt"
	"math"
	"slices"
)

// Contact is something on the record that does not look like the floor round
// it. It is what the desk saw, not what is there.
type Contact struct {
	Number   int
	Name     string // by default C and the number
	Class    Class
	ByHand   bool     // marked by a person, not by the lookout
	Measured bool     // a person measured it: the lookout leaves its sizes alone
	Lines    []string // lines it was seen on, in order
	Side     string   // "port" or "starboard" on the first of them
	Time     float64  // of the first sighting, seconds
	Ping     uint64   // of the first sighting
	X, Y     float64  // metres; the mean of all sightings
	Range    float64  // ground range of the first sighting, metres
	Altitude float64  // of the fish then, metres
	Length   float64  // longest extent of the echo, metres
	Width    float64  // extent at right angles to that, metres
	Shadow   float64  // length on the ground, metres; 0 if it throws none
	Height   float64  // from the shadow, metres
	Contrast float64  // of the echo over the floor round it, amplitude

	Description string
	Confidence  *float64  // 0..1, that it is of its class; nil if nobody said
	Action      Action    // what is to come of it; empty if nobody said
	Reason      string    // for dismissing it
	Remarks     string    // on anything else
	Passes      []Pass    // that it was seen on, in order
	Measures    []Measure // by hand, in order; the last of a kind on a pass stands
}

// sameContact is the distance within which two sightings are one contact: the
// 95 % radius allowed to towed systems in the NOAA Field Procedures Manual,
// 1.5.7.1.2, is 10 m; two sightings are taken together within 0.8 of it.
const sameContact = 8.0

// correlate adds the sightings of a line to the contacts, joining those of one
// place. What a person marked stays as it was marked, but for the line it was
// seen on as well.
func (d *Desk) correlate(found []Contact) {
	contacts := d.Contacts
	taken := map[int]bool{} // marks by hand that a sighting has gone to
	for _, f := range found {
		if c := handMark(contacts, taken, &f); c != nil {
			taken[c.Number] = true
			if !slices.Contains(c.Lines, f.Lines[0]) {
				c.Lines = append(slices.Clone(c.Lines), f.Lines[0])
			}
			c.see(f.Passes)
			continue
		}
		best, at := sameContact+max(f.Length, f.Width)/4, -1
		for i := range contacts {
			c := &contacts[i]
			if c.ByHand || slices.Contains(c.Lines, f.Lines[0]) {
				continue // two things on one line are two things
			}
			if d := math.Hypot(c.X-f.X, c.Y-f.Y); d < best {
				best, at = d, i
			}
		}
		if at < 0 {
			f.Number = d.number()
			f.Name, f.Class = fmt.Sprintf("C%d", f.Number), Unclassified
			contacts = append(contacts, f)
			continue
		}
		c := &contacts[at]
		n := float64(len(c.Lines))
		c.X, c.Y = (c.X*n+f.X)/(n+1), (c.Y*n+f.Y)/(n+1)
		c.Contrast = max(c.Contrast, f.Contrast)
		c.Lines = append(c.Lines, f.Lines[0])
		c.see(f.Passes)
		if c.Measured {
			continue
		}
		// Heights differ with the slope either side: the mean is the better one
		// (IHO C-13, chapter 4, 2.3.9.11).
		if c.Shadow > 0 && f.Shadow > 0 {
			c.Height = (c.Height*n + f.Height) / (n + 1)
		} else {
			c.Height = max(c.Height, f.Height)
		}
		c.Shadow = max(c.Shadow, f.Shadow)
		c.Length, c.Width = max(c.Length, f.Length), max(c.Width, f.Width)
	}
	d.Contacts = contacts
}

// handMark is the nearest mark by hand that a sighting is of and that none of
// the same line has gone to, nil if there is none.
func handMark(contacts []Contact, taken map[int]bool, f *Contact) *Contact {
	best := sameContact + max(f.Length, f.Width)/4
	var at *Contact
	for i := range contacts {
		c := &contacts[i]
		if d := math.Hypot(c.X-f.X, c.Y-f.Y); c.ByHand && !taken[c.Number] && d < best {
			best, at = d, c
		}
	}
	return at
}
