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

// Steps of the receiver's settings.
const (
	gainStep   = 3.0  // dB
	spreadStep = 5.0  // of k in k log10(R)
	lossStep   = 10.0 // dB/km
)

// sonarPage sets how the channel shown is recorded and says how well it is.
type sonarPage struct {
	channel, gain, spread, loss, full, pace *widget.Text
	tone                                    *widget.Button
	shown                                   bool // as it was recorded
}

func (p *sonarPage) build(g *Game, w *Watch, r image.Rectangle) *widget.Container {
	l := g.Look
	say := func(longest string) *widget.Text { return l.Reading(longest, l.Body, l.Ink) }
	p.channel = say("channel 1000 kHz")
	p.gain, p.spread, p.loss = say("gain -60 dB"), say("TVG 30 log R"), say("TVG absorption 1000 dB/km")
	p.full = l.Label("\n", l.Small, l.Soft, r.Dx())
	p.pace = l.Label("\n", l.Small, l.Soft, r.Dx())
	pair := func(says *widget.Text, do order.Do, by float64, what string) widget.PreferredSizeLocateableWidget {
		c := l.Row(0, 6,
			explained(g, l.Button("−", look.Plain, func() { w.amplify(do, -by) }), "Less "+what),
			explained(g, l.Button("+", look.Plain, func() { w.amplify(do, by) }), "More "+what),
			says)
		centred(c)
		return c
	}
	p.tone = l.Button("As recorded", tone(w.asRecorded), func() { w.asRecorded = !w.asRecorded })
	head := l.Row(0, 6, explained(g, able(l.Button("Next", look.Plain, w.nextChannel), len(w.falls) > 1), "Show and set the next frequency of the sonar, if it has others (C)."), p.channel)
	centred(head)
	p.shown = w.asRecorded
	p.update(g, w)
	return l.Column(2, 6,
		l.Label("Receiver", l.Strong, l.Ink, 0), head,
		pair(p.gain, order.Gain, gainStep, "gain for the whole record, with the log off ([ and ]). Too much cuts off what is bright, too little loses what is weak."),
		pair(p.spread, order.TVG, spreadStep, "gain that grows with range, against spreading. 30 log R makes flat ground equally bright."),
		pair(p.loss, order.TVGLoss, lossStep, "gain that grows with range, against what the water absorbs at this frequency."),
		explained(g, p.tone, "Show the waterfall as the gain recorded it, not levelled over range and angle (A). The mosaic is always levelled."),
		p.full, p.pace,
	)
}

func (p *sonarPage) update(g *Game, w *Watch) {
	if p.channel == nil {
		return // chosen this frame and built in the next
	}
	if p.shown != w.asRecorded {
		p.shown = w.asRecorded
		g.Look.Retone(p.tone, tone(p.shown))
	}
	rec, v := &w.view.Recorder, w.view
	set := rec.Receivers[w.channel]
	p.channel.Label = "channel " + rec.Channels[w.channel]
	p.gain.Label = fmt.Sprintf("gain %+.0f dB", set.Gain)
	p.spread.Label = fmt.Sprintf("TVG %.0f log R", set.TVGSpreading)
	p.loss.Label = fmt.Sprintf("TVG absorption %.0f dB/km", set.TVGAbsorption)
	n := len(w.history)
	switch {
	case n > 0 && echoless(&w.history[n-1], w.channel):
		p.full.Label = "Nothing is heard now."
	case w.channel < len(v.Levels) && v.Levels[w.channel].Mean > 0:
		level := v.Levels[w.channel]
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
	p.pace.Label += fmt.Sprintf("; a sample is %.1f cm.", 100*rec.Bin())
}

// nextChannel shows the next channel.
func (w *Watch) nextChannel() { w.channel = (w.channel + 1) % len(w.falls) }

// amplify changes a setting of the channel shown.
func (w *Watch) amplify(do order.Do, by float64) {
	rec := &w.view.Recorder
	now, low, high := rec.Receivers[w.channel].Gain, -60.0, 60.0
	switch do {
	case order.TVG:
		now, low = rec.Receivers[w.channel].TVGSpreading, 0
	case order.TVGLoss:
		now, low, high = rec.Receivers[w.channel].TVGAbsorption, 0, 1000
	}
	if o := w.pending(do); o != nil && o.Text == rec.Channels[w.channel] {
		now = o.Value
	}
	w.give(order.Command{Do: do, Text: rec.Channels[w.channel], Value: min(max(now+by, low), high)})
}
