package main

import (
	"fmt"
	"image"
	"slices"

	"dryline/scenarios"
	"dryline/sim"
	"dryline/sim/exercise"
	"dryline/sim/product"
	"dryline/sim/survey"
	"dryline/sonar"
	"dryline/sonar/waterfall/picture"
)

// record is the first line of a view's session: as the desk keeps it, and as it
// came up the cable.
type record struct {
	exercise *exercise.Exercise
	bin      float64 // slant range of a sample, metres
	heard    []heard // a ping each
}

// heard is one ping of the channel shown.
type heard struct {
	sides  [2][]uint16 // samples of port and starboard
	row    survey.Row  // levelled, or plain where the view asks for it
	height float64     // by the bottom track, metres
	along  float64     // of the fish along the line, as the desk believes, metres
	pose   sonar.Pose  // truth
	lit    [2][]uint16 // truth: numbers of the objects heard
}

// fly runs the view's session and returns the record of its line.
func (v *view) fly() (*record, error) {
	ex, err := scenarios.Parse("gallery.yaml", ground)
	if err != nil {
		return nil, err
	}
	if v.change != nil {
		v.change(ex)
	}
	s, err := sim.New(ex, ex.Seed)
	if err != nil {
		return nil, err
	}
	s.Workers = 1
	s.Desk.Unpainted = true
	s.AttachMate()
	r := &record{exercise: ex, bin: ex.Sonar.RangeScale / float64(ex.Sonar.Samples)}
	var plain survey.Row
	s.Desk.Watch(func(p survey.LivePing) {
		if len(p.Plain) > v.channel && !p.Lost {
			plain = p.Plain[v.channel]
		}
	})
	s.Observe(sim.Observer{Truth: true, Ping: func(p *sim.Ping) {
		if p.Line == "" {
			return
		}
		h := heard{
			sides: [2][]uint16{slices.Clone(p.Port[v.channel]), slices.Clone(p.Starboard[v.channel])},
			pose:  p.Truth.Pose,
			lit:   [2][]uint16{slices.Clone(p.Truth.Lit[0]), slices.Clone(p.Truth.Lit[1])},
		}
		if v.asRecorded {
			h.row = survey.Row{Port: slices.Clone(plain.Port), Starboard: slices.Clone(plain.Starboard)}
		}
		r.heard = append(r.heard, h)
	}})
	for !s.Done() {
		s.Advance(1000)
	}
	if len(s.Desk.Lines) == 0 {
		return nil, fmt.Errorf("%s: no line was logged", v.caption)
	}
	l := s.Desk.Lines[0]
	if len(r.heard) < len(l.Pings) {
		return nil, fmt.Errorf("%s: %d pings logged, %d heard", v.caption, len(l.Pings), len(r.heard))
	}
	r.heard = r.heard[:len(l.Pings)]
	for i := range r.heard {
		h := &r.heard[i]
		h.height, h.along = l.Pings[i].Height, l.Pings[i].Along
		if !v.asRecorded {
			h.row = l.Rows[v.channel][i]
		}
	}
	return r, nil
}

// draw draws the record as the left or right half of a plate.
func (r *record) draw(v *view) *image.RGBA {
	w := picture.Waterfall{
		Title: v.title(), Channel: product.ChannelLabel(r.exercise.Sonar.Channels[v.channel]), RangeScale: r.exercise.Sonar.RangeScale,
	}
	for i := range r.heard {
		h := &r.heard[i]
		w.Port, w.Starboard = append(w.Port, h.row.Port), append(w.Starboard, h.row.Starboard)
		w.BottomTrack = append(w.BottomTrack, h.height)
		w.AlongTrack = append(w.AlongTrack, h.along)
	}
	return picture.Draw(w, halfWidth, height)
}

// title is the caption, with what is not usual of the picture.
func (v *view) title() string {
	if v.asRecorded {
		return v.caption + ", as recorded"
	}
	return v.caption
}
