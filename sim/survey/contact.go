package survey

import (
	"math"
	"slices"
)

// Contact is something on the record that does not look like the floor round
// it. It is what the desk saw, not what is there.
type Contact struct {
	Number   int
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
}

// sameContact is the distance within which two sightings are one contact: the
// 95 % radius allowed to towed systems in the NOAA Field Procedures Manual,
// 1.5.7.1.2, is 10 m; two sightings are taken together within 0.8 of it.
const sameContact = 8.0

// correlate adds sightings to the contacts, joining those of one place.
func correlate(contacts, found []Contact) []Contact {
	for _, f := range found {
		best, at := sameContact+max(f.Length, f.Width)/4, -1
		for i := range contacts {
			c := &contacts[i]
			if slices.Contains(c.Lines, f.Lines[0]) {
				continue // two things on one line are two things
			}
			if d := math.Hypot(c.X-f.X, c.Y-f.Y); d < best {
				best, at = d, i
			}
		}
		if at < 0 {
			f.Number = len(contacts) + 1
			contacts = append(contacts, f)
			continue
		}
		c := &contacts[at]
		n := float64(len(c.Lines))
		c.X, c.Y = (c.X*n+f.X)/(n+1), (c.Y*n+f.Y)/(n+1)
		// Heights differ with the slope either side: the mean is the better one
		// (IHO C-13, chapter 4, 2.3.9.11).
		if c.Shadow > 0 && f.Shadow > 0 {
			c.Height = (c.Height*n + f.Height) / (n + 1)
		} else {
			c.Height = max(c.Height, f.Height)
		}
		c.Shadow = max(c.Shadow, f.Shadow)
		c.Length, c.Width = max(c.Length, f.Length), max(c.Width, f.Width)
		c.Contrast = max(c.Contrast, f.Contrast)
		c.Lines = append(c.Lines, f.Lines[0])
	}
	return contacts
}
