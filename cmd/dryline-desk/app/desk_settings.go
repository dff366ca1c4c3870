package app

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"dryline/sim/order"
	"dryline/sim/survey"
	"dryline/sonar/mosaic"
)

// knobItem is a number that the survey can be worked up again with.
type knobItem struct {
	knob              survey.Knob
	do                order.Do
	name, unit, about string
	decimals          int
	of                func(s *survey.Settings) float64 // in the watch; nil if the watch had none
}

var knobItems = []knobItem{
	{survey.KnobFactor, order.ReworkFactor, "Catenary factor", "", "The share of the cable out that reaches from sheave to fish in a straight line; the rest is its curve. Too large, and everything lies too far astern.", 3, func(s *survey.Settings) float64 { return s.CatenaryFactor }},
	{survey.KnobSheaveHeight, order.ReworkSheaveHeight, "Sheave above water", "m", "How high the sheave is above the water.", 2, func(s *survey.Settings) float64 { return s.SheaveHeight }},
	{survey.KnobTowOffset, order.ReworkTowOffset, "Antenna aft to sheave", "m", "How far the sheave lies aft of the GNSS antenna.", 2, func(s *survey.Settings) float64 { return s.AntennaToTow }},
	{survey.KnobTowSide, order.ReworkTowSide, "Sheave to starboard", "m", "How far the sheave lies to starboard of the GNSS antenna.", 2, func(s *survey.Settings) float64 { return s.TowToStarboard }},
	{survey.KnobCourseTime, order.ReworkCourseTime, "Course taken over", "s", "The track made good is taken over so long. Longer is steadier, and late in a turn.", 1, func(s *survey.Settings) float64 { return s.CourseTime }},
	{survey.KnobSoundSpeed, order.ReworkSoundSpeed, "Sound speed", "m/s", "Times were recorded; ranges are made of them by this speed.", 1, func(s *survey.Settings) float64 { return s.SoundSpeed }},
	{survey.KnobLatency, order.ReworkLatency, "Fixes are older by", "s", "How much older the fixes are than they say. Opposite passes disagree by twice the way made in it.", 2, nil},
	{survey.KnobCell, order.ReworkCell, "Cells of the mosaic", "m", "How wide its cells are. Finer than the pings lie apart leaves gaps.", 2, func(s *survey.Settings) float64 { return s.MosaicCell }},
	{survey.KnobTide, order.ReworkTide, "Water over the datum", "m", "How far the water stood over the datum of depths: what contacts' depths are reduced by.", 2, nil},
}

// settings are the items of the mosaic's slate.
func (s *mosaicStation) settings() []item {
	d := s.desk
	p := d.papers.Desk
	watch := p.Reviewed(&survey.Review{}, math.Inf(1))
	var out []item
	for _, k := range knobItems {
		v, set := p.Review.Knob(k.knob)
		low, high := k.knob.Limits()
		says := "as in the watch"
		switch {
		case set:
			says = strings.TrimSpace(fmt.Sprintf("%.*f %s", k.decimals, v, k.unit))
		case k.of != nil:
			v = k.of(&watch)
			says = strings.TrimSpace(fmt.Sprintf("%.*f%s, as it was", k.decimals, v, spaced(k.unit)))
		}
		now := ""
		if set || k.of != nil {
			now = strconv.FormatFloat(v, 'f', k.decimals, 64)
		}
		out = append(out, item{
			name: k.name, says: says, now: now, about: fmt.Sprintf("%s From %g to %g%s.", k.about, low, high, spaced(k.unit)),
			typed: func(text string) {
				v, err := strconv.ParseFloat(strings.Replace(text, ",", ".", 1), 64)
				if err != nil {
					d.say(fmt.Sprintf("%q is no number", text))
					return
				}
				d.order(order.Command{Do: k.do, Value: v})
			},
		})
	}
	r := &p.Review
	out = append(out,
		d.choice("Fish placed by", "From the layback along the track made good or along the ship's heading; by its beacon; or by both, filtered.", string(r.Position), false, options(survey.Positions(), func(m survey.Position) string {
			if m.NeedsBeacon() && !d.brief.Beacon {
				return "there is no beacon"
			}
			return ""
		}), func(v string) order.Command {
			return order.Command{Do: order.ReworkPosition, Method: survey.Position(v)}
		}),
		d.choice("Swath square to", "The course made good, the ship's heading, or the fish's compass. In a crab the course lays it askew.", string(r.Swath), false, options(survey.SwathBearings(), nil), func(v string) order.Command { return order.Command{Do: order.ReworkSwath, Text: v} }),
		d.choice("Looks combined", "What a cell shows that was seen more than once: the mean, the strongest, the best look, the latest.", string(r.Combine), false, options(mosaic.Combines(), nil), func(v string) order.Command { return order.Command{Do: order.ReworkCombine, Text: v} }),
		d.choice("Levelled with", "What all lines taught, what each line taught itself, or what the sonar's papers foretell alone.", string(r.Levelling), false, options(survey.Levellings(), nil), func(v string) order.Command { return order.Command{Do: order.ReworkLevel, Text: v} }),
	)
	if names := p.Recorder.Channels; len(names) > 1 {
		var all []option
		for _, n := range names {
			all = append(all, option{value: n})
		}
		now := r.Channel
		if now == "" {
			now = names[p.Settings.MosaicChannel]
		}
		it := d.choice("Channel painted", "Which of the sonar's channels the mosaic is painted from.", now, true, all, func(v string) order.Command { return order.Command{Do: order.ReworkChannel, Text: v} })
		out = append(out, it)
	}
	for _, n := range p.Recorder.Channels {
		now := string(r.BottomBy[n])
		if now == "" {
			now = string(survey.BottomWatch)
		}
		out = append(out, d.choice("Bottom of "+n, "How the height of the fish is found: as it was tracked in the watch, by the first return of the channel itself, or by the fish's altimeter. Pieces laid by hand stand over it.", now, true,
			options(survey.BottomWays(), nil), func(v string) order.Command {
				return order.Command{Do: order.BottomBy, Text: n, Method: survey.Position(v)}
			}))
	}
	return out
}

func spaced(unit string) string {
	if unit == "" {
		return ""
	}
	return " " + unit
}

// option is one of several to choose from; not says why it cannot be.
type option struct{ value, not string }

func options[T ~string](all []T, not func(T) string) []option {
	var out []option
	for _, v := range all {
		o := option{value: string(v)}
		if not != nil {
			o.not = not(v)
		}
		out = append(out, o)
	}
	return out
}

// choice is an item that is chosen from options. Unless one of them always is, it can be as in the watch
// again, by an empty value.
func (d *Desk) choice(name, about, now string, always bool, of []option, give func(value string) order.Command) item {
	says := strings.ReplaceAll(now, "_", " ")
	if now == "" {
		says = "as it was"
	}
	return item{name: name, says: says, about: about, choose: func() *chooser {
		c := newChooser(name)
		if !always {
			c.offer("as in the watch", "", now == "", func() { d.order(give("")) })
		}
		for _, o := range of {
			c.offer(strings.ReplaceAll(o.value, "_", " "), o.not, o.value == now, func() { d.order(give(o.value)) })
		}
		return c
	}}
}

// say has something said at the foot with the next frame.
func (d *Desk) say(says string) { d.toSay = says }
