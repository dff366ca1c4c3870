package app

import (
	"fmt"
	"math"
)

// rates are the speeds of time to choose from.
var rates = []float64{1, 2, 5, 10, 20}

// pace is how fast time passes on watch.
type pace struct {
	*post
	rate   float64
	paused bool
}

// set sets the rate of time within what the exercise allows.
func (p *pace) set(rate float64, paused bool) {
	h := p.brief.Help
	p.rate = min(max(rate, 1), max(h.MostSpeedUp, 1))
	p.paused = paused && h.Pause
	p.crew.SetRate(p.rate, p.paused)
}

// step goes on to the next rate, or back to the one before.
func (p *pace) step(by int) {
	at := 0
	for i, r := range rates {
		if r <= p.rate {
			at = i
		}
	}
	p.set(rates[min(max(at+by, 0), len(rates)-1)], p.paused)
}

// says is how fast time passes, in words.
func (p *pace) says() string {
	reached := p.view.Reached
	behind := reached > 0 && reached < 0.9*p.rate
	switch {
	case p.paused:
		return "time stands still"
	case behind && p.rate == 1:
		return fmt.Sprintf("slower: %.1f times", reached)
	case behind:
		return fmt.Sprintf("%.0f times, reaches %.1f", p.rate, reached)
	case p.rate == 1:
		return "as on the water"
	}
	return fmt.Sprintf("%.0f times", math.Round(p.rate))
}
