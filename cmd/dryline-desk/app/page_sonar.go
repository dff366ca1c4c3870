package app

import (
	"fmt"
	"image"
	"math"

	"dryline/cmd/dryline-desk/look"
	"dryline/sim/order"
	"dryline/sonar/acoustics"

	"github.com/ebitenui/ebitenui/widget"
)

// sonarPage sets how the channel shown is recorded and says how well it is.
type sonarPage struct {
	channel, gain, spread, loss, full, pace *widget.Text
	recorded                                *widget.Button
	shown                                   bool // as it was recorded
}

func (p *sonarPage) build(g *Game, w *Watch, r image.Rectangle) *widget.Container {
	l := g.Look
	say := func(longest string) *widget.Text { return l.Reading(longest, l.Body, l.Ink) }
	p.channel = say("channel 1000 kHz")
	p.gain, p.spread, p.loss = say("gain -60 dB"), say("TVG 30 log R"), say("TVG absorption 1000 dB/km")
	p.full = l.Label("\n", l.Small, l.Soft, r.Dx())
	p.pace = l.Label("\n", l.Small, l.Soft, r.Dx())
	pair := func(less, more *widget.Button, says *widget.Text, do order.Do) widget.PreferredSizeLocateableWidget {
		return centredRow(l.Row(0, 6, less, more, typedOf(g, w, says, do)))
	}
	change := func(says *widget.Text, do order.Do, by float64, what string) widget.PreferredSizeLocateableWidget {
		return pair(explained(g, l.Button("−", look.Plain, func() { w.amplify(w.fall.channel, do, -by) }), "Less "+what),
			explained(g, l.Button("+", look.Plain, func() { w.amplify(w.fall.channel, do, by) }), "More "+what), says, do)
	}
	p.recorded = w.button(g, asRecorded, chosenIf(w.fall.asRecorded))
	head := centredRow(l.Row(0, 6, w.labelled(g, nextChannel, "Next", look.Plain), p.channel))
	p.shown = w.fall.asRecorded
	p.update(g, w)
	return l.Column(2, 6,
		l.Label("Receiver", l.Strong, l.Ink, 0), head,
		pair(w.button(g, gainDown, look.Plain), w.button(g, gainUp, look.Plain), p.gain, order.Gain),
		change(p.spread, order.TVG, spreadStep, "gain that grows with range, against spreading. 30 log R makes flat ground equally bright."),
		change(p.loss, order.TVGLoss, lossStep, "gain that grows with range, against what the water absorbs at this frequency."),
		p.recorded,
		p.full, p.pace,
		l.Row(0, 4, p.hands(g, w)...),
	)
}

// hands are the buttons for work done to the fish by hand.
func (p *sonarPage) hands(g *Game, w *Watch) []widget.PreferredSizeLocateableWidget {
	rub := func(label string, side int) widget.PreferredSizeLocateableWidget {
		return explained(g, g.Look.Button(label, look.Plain, func() { w.give(order.Command{Do: order.Rub, Number: side}) }),
			"With the fish alongside: have a hand rub the transducers of that side, and see which side of the record hears it. One side after the other.")
	}
	return []widget.PreferredSizeLocateableWidget{
		rub("Rub port", 1), rub("Rub stbd", 2),
		explained(g, g.Look.Button("Plugs", look.Plain, func() { w.give(order.Command{Do: order.Mend}) }),
			"With the fish alongside: have plugs and leads of the fish seen to. It takes a minute and a half; a dead, weak or swapped channel is well then."),
	}
}

func (p *sonarPage) update(g *Game, w *Watch) {
	if p.channel == nil {
		return // chosen this frame and built in the next
	}
	if p.shown != w.fall.asRecorded {
		p.shown = w.fall.asRecorded
		g.Look.Emphasise(p.recorded, chosenIf(p.shown))
	}
	rec, v := &w.view.Recorder, w.view
	set := rec.Receivers[w.fall.channel]
	p.channel.Label = "channel " + rec.Channels[w.fall.channel]
	p.gain.Label = fmt.Sprintf("gain %+.0f dB", set.Gain)
	p.spread.Label = fmt.Sprintf("TVG %.0f log R", set.TVGSpreading)
	p.loss.Label = fmt.Sprintf("TVG absorption %.0f dB/km", set.TVGAbsorption)
	last := w.fall.last()
	switch {
	case last != nil && echoless(last, w.fall.channel):
		p.full.Label = "Nothing is heard now."
	case w.fall.channel < len(v.Levels) && v.Levels[w.fall.channel].Mean > 0:
		level := v.Levels[w.fall.channel]
		p.full.Label = fmt.Sprintf("The ground fills the recorder to %.0f dB of full scale; %.1f %% of it is cut off.",
			20*math.Log10(level.Mean), 100*level.Clipped)
	default:
		p.full.Label = "Nothing is recorded yet."
	}
	interval := acoustics.PingInterval(rec.RangeScale, v.Settings.SoundSpeed)
	p.pace.Label = fmt.Sprintf("A ping every %.0f ms", 1000*interval)
	if v.Fix.Speed > 0.3 {
		p.pace.Label += fmt.Sprintf(", %.1f a metre at this speed", 1/(interval*v.Fix.Speed))
	}
	p.pace.Label += fmt.Sprintf("; a sample is %.1f cm; the floor is read every %s.", 100*rec.Bin(), w.brief.Sonar.Step)
}
