package app

import (
	"math"
	"time"

	"dryline/sim/coach"

	"github.com/hajimehoshi/ebiten/v2/audio"
)

// sounder plays the quiet sounds of the window, if they are wanted: a low note
// for a caution, a pair of higher ones for an alarm. Both also show on screen.
type sounder struct {
	context *audio.Context
	failed  bool
	players map[coach.Severity]*audio.Player
	last    time.Time
}

const (
	soundRate = 48000
	soundRest = 2 * time.Second // between two sounds
	loudness  = 0.12            // of what the machine can do
)

// play plays the sound of a severity.
func (s *sounder) play(severity coach.Severity) {
	if s.failed || severity == coach.Note || time.Since(s.last) < soundRest {
		return
	}
	s.last = time.Now()
	if s.context == nil {
		if s.context = audio.CurrentContext(); s.context == nil {
			s.context = audio.NewContext(soundRate)
		}
		s.players = map[coach.Severity]*audio.Player{
			coach.Caution: s.context.NewPlayerF32FromBytes(notes(392)),
			coach.Alarm:   s.context.NewPlayerF32FromBytes(notes(587, 784)),
		}
	}
	p := s.players[severity]
	if err := p.Rewind(); err != nil {
		s.failed = true // a machine without sound stays silent
		return
	}
	p.Play()
}

// notes are notes of some frequencies, one after the other, as 32-bit floats
// for two ears.
func notes(frequencies ...float64) []byte {
	const each = 0.16 // seconds
	var out []byte
	put := func(v float32) {
		bits := math.Float32bits(v)
		for range 2 {
			out = append(out, byte(bits), byte(bits>>8), byte(bits>>16), byte(bits>>24))
		}
	}
	for _, f := range frequencies {
		n := int(each * soundRate)
		for i := range n {
			t := float64(i) / soundRate
			swell := math.Sin(math.Pi * float64(i) / float64(n)) // no clicks
			put(float32(loudness * swell * (math.Sin(2*math.Pi*f*t) + 0.3*math.Sin(4*math.Pi*f*t))))
		}
	}
	return out
}

// ears tell which hints and alarms are new.
type ears struct {
	hints  map[string]coach.Severity // by ID at the last frame
	alarms int                       // of the bridge so far
}

// hear is how severe the worst is that has come since the last frame.
func (e *ears) hear(hints []coach.Hint, alarms int) coach.Severity {
	heard := map[string]coach.Severity{}
	worst := coach.Note
	for _, h := range hints {
		heard[h.ID] = h.Severity
		if before, there := e.hints[h.ID]; (!there || h.Severity > before) && h.Severity > worst {
			worst = h.Severity
		}
	}
	if alarms > e.alarms {
		e.alarms, worst = alarms, coach.Alarm
	}
	e.hints = heard
	return worst
}
