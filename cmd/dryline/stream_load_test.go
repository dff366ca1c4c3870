package main

import (
	"slices"
	"strings"
	"testing"

	"dryline/vessel/nav/nmea"
)

// A line of 8 data bits, a start and a stop bit carries a tenth of its baud in
// bytes a second ("NMEA Revealed" v2.24, gpsd project). What goes on it takes no
// more, and nothing goes by the board that would fit.
func TestFitToTheLine(t *testing.T) {
	p := pondPlayer(t, 1)
	size := p.source.Size
	for _, row := range []struct {
		name    string
		kinds   []nmea.Kind
		chosen  bool
		baud    int
		reports float64
		want    string // "" for refused
		dropped string
	}{
		{"all at 4800", nmea.Kinds(), false, 4800, 1, "GGA,RMC,HDT,ROT,DPT,MWV,XDR", "VTG,ZDA,DBT"},
		{"all at 9600", nmea.Kinds(), false, 9600, 1, "GGA,RMC,VTG,ZDA,HDT,ROT,DPT,DBT,MWV,XDR", ""},
		{"twice a second at 4800", nmea.Kinds(), false, 4800, 2, "GGA,RMC,HDT", "VTG,ZDA,ROT,DPT,DBT,MWV,XDR"},
		{"five times a second at 4800", nmea.Kinds(), false, 4800, 5, "RMC", "GGA,VTG,ZDA,HDT,ROT,DPT,DBT,MWV,XDR"},
		{"ten times a second at 4800", nmea.Kinds(), false, 4800, 10, "", ""},
		{"ten times a second at 115200", nmea.Kinds(), false, 115200, 10, "GGA,RMC,VTG,ZDA,HDT,ROT,DPT,DBT,MWV,XDR", ""},
		{"chosen, enough room", []nmea.Kind{nmea.RMC, nmea.VTG, nmea.DBT}, true, 4800, 2, "RMC,VTG,DBT", ""},
		{"chosen, too much", nmea.Kinds(), true, 4800, 1, "", ""},
	} {
		fits, note, err := fit(row.kinds, row.chosen, row.baud, row.reports, size)
		if got := nmea.Join(fits); got != row.want || (err != nil) != (row.want == "") {
			t.Errorf("%s: got %q, %v, want %q", row.name, got, err, row.want)
		}
		if (note != "") != (row.dropped != "") || !strings.HasSuffix(note, row.dropped+strings.Repeat(" left out", min(len(note), 1))) || strings.Contains(note, "\n") {
			t.Errorf("%s: said %q, want one line about %q", row.name, note, row.dropped)
		}
		if load := float64(size(fits)) * row.reports; err == nil && load > float64(row.baud)/10 {
			t.Errorf("%s: %.0f bytes/s on a line of %d baud", row.name, load, row.baud)
		}
	}
	if every := slices.Sorted(slices.Values(byNeed)); !slices.Equal(every, slices.Sorted(slices.Values(nmea.Kinds()))) {
		t.Errorf("by need there are %v, want every kind once", every)
	}
}

// What the default stream says at a report a second does go over 4800 baud: the
// bytes of every second of an exercise.
func TestDefaultStreamFitsTheDefaultLine(t *testing.T) {
	p := pondPlayer(t, 1)
	kinds, _, err := fit(nmea.Kinds(), false, 4800, 1, p.source.Size)
	if err != nil {
		t.Fatal(err)
	}
	all := p.kinds
	most, mostOfAll := 0, 0
	for !p.passage.Done() && p.passage.Now() < 60 {
		p.passage.Advance(10)
		for _, which := range []struct {
			kinds []nmea.Kind
			most  *int
		}{{kinds, &most}, {all, &mostOfAll}} {
			p.kinds = which.kinds
			bytes := 0
			for _, sentence := range p.report() {
				bytes += len(sentence)
			}
			*which.most = max(*which.most, bytes)
		}
	}
	if most > 480 || most < 300 || mostOfAll <= 480 {
		t.Errorf("got up to %d bytes a second, %d of all kinds; want some hundreds that fit 480, and all that do not", most, mostOfAll)
	}
}
