package assess

import (
	"time"
)

// tolerated is how far the clock on the wall may be off the exercise's between two records
// before it is told of, seconds: our own choice.
const tolerated = 5.0

// Gap is a stretch in which the clock on the wall went otherwise than the exercise.
type Gap struct {
	From    time.Time `json:"from_utc"`
	To      time.Time `json:"to_utc"`
	Tick    int64     `json:"from_tick"`
	Sailed  float64   `json:"sailed_s"` // of the exercise, seconds
	Passed  float64   `json:"passed_s"` // on the wall, seconds; negative where the clock was set back
	Resumed bool      `json:"left_and_resumed"`
}

// window is how long a stretch is looked at at least, seconds of either clock: records that
// follow each other closely hide nothing.
const window = 10.0

// Gaps finds the stretches of a watch in which time went otherwise than on the water. Those
// that follow each other are one. Work at the desk when the watch is over takes what it takes.
func Gaps(moments []Moment) []Gap {
	var gaps []Gap
	for from := 0; from+1 < len(moments); {
		to := from + 1
		for sailing(moments, from, to) && short(moments, from, to) && to+1 < len(moments) && sailing(moments, to, to+1) {
			to++
		}
		a, b := moments[from], moments[to]
		from = to
		if a.Over && !b.Resumed {
			continue
		}
		g := Gap{a.At, b.At, a.Tick, float64(b.Tick-a.Tick) / 10, b.At.Sub(a.At).Seconds(), b.Resumed}
		off := g.Passed - g.Sailed
		if !g.Resumed && g.Passed >= 0 && off < tolerated && off > -tolerated {
			continue
		}
		if n := len(gaps); n > 0 && gaps[n-1].goesOn(&g) {
			gaps[n-1].To = g.To
			gaps[n-1].Sailed += g.Sailed
			gaps[n-1].Passed += g.Passed
			continue
		}
		gaps = append(gaps, g)
	}
	return gaps
}

// short reports whether what lies between two moments is too short to be looked at by itself.
func short(moments []Moment, from, to int) bool {
	a, b := moments[from], moments[to]
	return max(float64(b.Tick-a.Tick)/10, b.At.Sub(a.At).Seconds()) < window
}

// sailing reports whether nothing lies between two moments but sailing, by a clock that goes on.
func sailing(moments []Moment, from, to int) bool {
	a, b := moments[from], moments[to]
	return !b.At.Before(a.At) && !b.Resumed && !a.Over && !b.Over
}

// goesOn reports whether another gap is of one kind with it and follows it.
func (g *Gap) goesOn(next *Gap) bool {
	return !g.Resumed && !next.Resumed && g.Passed >= 0 && next.Passed >= 0 && g.To.Equal(next.From) && (g.Passed > g.Sailed) == (next.Passed > next.Sailed)
}
