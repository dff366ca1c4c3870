package debrief

import (
	"fmt"
	"math"
	"strings"

	"dryline/sim/survey"
)

// askewBy is how far along the track the ground at half range was laid askew, rms,
// metres.
func (r *Report) askewBy() float64 {
	reach := 0.0
	for i := range r.Lines {
		if l := &r.Lines[i]; l.Altitude != nil {
			reach = max(reach, survey.GroundReach(l.RangeScale, l.Altitude.Mean/100*l.RangeScale))
		}
	}
	if r.Position.Askew == nil {
		return 0
	}
	return reach * math.Sin(r.Position.Askew.RMS/2*math.Pi/180)
}

// largest tells the holidays by the largest of them.
func largest(c *Coverage) string {
	size := fmt.Sprintf("%.0f m²", c.Holidays[0].SquareMetres)
	if a := c.Holidays[0].SquareMetres; a >= 1e4 {
		size = fmt.Sprintf("%.1f ha", a/1e4)
	}
	if c.HolidayCount == 1 {
		return "1 holiday of " + size
	}
	return fmt.Sprintf("%d holidays, the largest of %s", c.HolidayCount, size)
}

func isAre(names []string) string {
	if len(names) == 1 {
		return names[0] + " was"
	}
	return few(names) + " were"
}

func itThem(names []string) string {
	if len(names) == 1 {
		return "it"
	}
	return "them"
}

// few lists names, but no more than a sentence can carry.
func few(names []string) string {
	const most = 4
	n := len(names)
	switch {
	case n == 1:
		return names[0]
	case n > most:
		return fmt.Sprintf("%s and %d more", strings.Join(names[:most], ", "), n-most)
	}
	return strings.Join(names[:n-1], ", ") + " and " + names[n-1]
}

// words writes a name for people.
func words(name string) string { return strings.ReplaceAll(name, "_", " ") }
