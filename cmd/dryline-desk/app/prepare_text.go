package app

import (
	"fmt"
	"strings"

	"dryline/sim/order"
	"dryline/sim/survey"
)

// piece is part of a sentence: words, a figure to be typed, or one of several to be chosen.
type piece struct {
	words  string
	figure *entered
	picker *picker
}

// picker is a button in a sentence that says which of several is chosen, and goes on to the next.
type picker struct {
	says func() string
	all  []string // it may say
	tip  string
	next func(*Game)
}

// chapter holds the sheet's sentences about one part of the vessel, under its heading.
type chapter struct {
	heading string
	pieces  []piece
}

// rate says how often an instrument speaks.
func rate(aSecond float64) string {
	switch {
	case aSecond <= 0:
		return "ten times a second"
	case aSecond == 1:
		return "once a second"
	case aSecond < 1:
		return fmt.Sprintf("every %.3g s", 1/aSecond)
	}
	return fmt.Sprintf("%.3g times a second", aSecond)
}

// methodSays is a way to place the fish in words that stand in a sentence.
func methodSays(m survey.Position) string {
	switch m {
	case survey.ByHeading:
		return "along the heading"
	case survey.ByBeacon:
		return "by its beacon"
	case survey.ByFiltered:
		return "by layback and beacon"
	}
	return "along the track made good"
}

var methodsSay = []string{"along the track made good", "along the heading", "by its beacon", "by layback and beacon"}

// sentences are the sheet, from bow to stern and on to the fish and its record.
func (s *mobilisation) sentences(nextMethod, nextChannel func(*Game)) []chapter {
	b := s.brief
	d, r := &b.Desk, &b.Rates
	say := func(format string, args ...any) piece { return piece{words: fmt.Sprintf(format, args...)} }
	typed := func(do order.Do) piece { return piece{figure: s.of(do, "")} }
	at := b.Place.Grid.ToLatLon(0, 0)
	forward := []piece{
		say("%s draws %.1f m. Positions are in WGS 84 / UTM %s (EPSG %d), and the chart begins at %s %s.",
			b.Vessel.Name, b.Vessel.Draft, b.Place.Grid.String(), b.Place.Grid.EPSG(),
			minutes(at.Lat, "N", "S"), minutes(at.Lon, "E", "W")),
		say("The satellite receiver gives a fix %s, the heading comes %s.", rate(r.GNSS), rate(r.Heading)),
	}
	stern := []piece{
		say("From the antenna the sheave lies"), typed(order.TowOffset), say("m aft and"), typed(order.TowSide), say("m to starboard,"),
		typed(order.SheaveHeight), say("m above the water. There are %.0f m of cable, %.3g mm thick, and %.0f m are out when the watch begins; the counter speaks %s.",
			b.Tow.Cable.Length, 1000*b.Tow.Cable.Diameter, b.Plan.CableOut, rate(r.Counter)),
		say("Straight from sheave to fish it is"), typed(order.Factor), say("of the cable out: the catenary factor."),
	}
	f := &b.Tow.Fish
	fish := []piece{say("The fish is placed"), {picker: &picker{func() string { return methodSays(s.method) }, methodsSay, "Another way to place the fish (M).", nextMethod}}, say("(the track is taken over %.3g s).", d.CourseTime)}
	if f.Length > 0 {
		fish = append(fish, say("It is %.2f m long, with its tow point %.2f m ahead of the middle.", f.Length, f.TowForward))
	}
	fish = append(fish, say("Its depth comes %s, its height over the floor %s, its compass %s.", rate(r.FishDepth), rate(r.Altimeter), rate(r.Compass)))
	if b.Beacon {
		fish = append(fish, say("Its beacon answers %s.", rate(r.Beacon)))
	}
	record := []piece{
		say("%s The desk takes sound to go at", s.castSays()), typed(order.SoundSpeed), say("m/s at every depth. The range scale is"), typed(order.Range), say("m to a side, in %d samples.", b.Sonar.Samples),
	}
	for _, c := range b.Sonar.Channels {
		pulse := fmt.Sprintf("pulses of %.3g ms", 1000*c.PulseLength)
		if c.Bandwidth > 0 {
			pulse = fmt.Sprintf("a chirp %.0f kHz wide", c.Bandwidth/1000)
		}
		record = append(record, say("Channel %s sends %.0f kHz in %s; its gain is", c.Name, c.Frequency/1000, pulse),
			piece{figure: s.of(order.Gain, c.Name)}, say("dB and grows by"), piece{figure: s.of(order.TVG, c.Name)},
			say("log R and"), piece{figure: s.of(order.TVGLoss, c.Name)}, say("dB a kilometre."))
	}
	channel := say("%s,", s.painted)
	if all := s.channels(); len(all) > 1 {
		channel = piece{picker: &picker{func() string { return s.painted }, all, "Another channel is painted (C).", nextChannel}}
	}
	record = append(record, say("The mosaic is of channel"), channel, say("in cells of"), typed(order.MosaicCell), say("m; where looks overlap it takes %s.", combineSays(string(d.Combine))))
	return []chapter{{"Forward", forward}, {"At the stern", stern}, {"The fish", fish}, {"The record", record}, {"On the water, before you trust it", []piece{say("%s", s.steps())}}}
}

func combineSays(combine string) string {
	switch combine {
	case "mean":
		return "their mean"
	case "", "best":
		return "the best"
	}
	return "the " + strings.ReplaceAll(combine, "_", " ")
}

// steps tells how the water shows whether the sheet is right.
func (s *mobilisation) steps() string {
	b := s.brief
	var all []string
	if b.Score.Gates.RubTest {
		all = append(all, "Have both sides of the fish rubbed while it hangs alongside, before the first line.")
	}
	charted := "something that is charted"
	for i := range b.Charted {
		if !b.Charted[i].Pipeline() {
			charted = b.Charted[i].Name
			break
		}
	}
	if len(b.Charted) > 0 {
		all = append(all, fmt.Sprintf("Pass %s both ways and compare where the record has it: a figure that is wrong shows there.", charted))
	} else {
		all = append(all, "Look for one thing on two lines run both ways: placed by a wrong figure it stands in two places.")
	}
	if m := b.Score.Gates.Recovered; m > 0 {
		all = append(all, fmt.Sprintf("Bring the fish home, to %.0f m of cable or less, before the watch ends.", m))
	}
	return strings.Join(all, " ")
}
