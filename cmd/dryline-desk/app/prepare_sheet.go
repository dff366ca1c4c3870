package app

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"dryline/sim/exercise"
	"dryline/sim/order"
	"dryline/sim/survey"
)

// mobilisation is the mobilisation sheet of a watch: the figures that the desk is to work with.
// It begins with those of the exercise, which need not be right, and knows of the vessel
// only what is written on it: where antenna and sheave really are is nowhere in here.
type mobilisation struct {
	brief   *exercise.Brief
	figures []*entered
	method  survey.Position // how the fish is placed
	given   survey.Position // in the exercise
	painted string          // channel of the mosaic
}

// entered is one figure of the sheet that can be typed. It is put in by an order.
type entered struct {
	do       order.Do
	channel  string // of the sonar, or empty
	name     string
	unit     string
	decimals int
	step     float64
	given    float64 // in the exercise
	text     string  // as it stands on the sheet

	// Of a figure that no order sets.
	low, high float64
	may       bool // it may be left empty
}

func newSheet(b *exercise.Brief) *mobilisation {
	s := &mobilisation{brief: b, given: b.Desk.Position}
	if s.given == "" {
		s.given = survey.ByTrack
	}
	s.method = s.given
	add := func(do order.Do, channel, name, unit string, decimals int, step, given float64) {
		f := &entered{do: do, channel: channel, name: name, unit: unit, decimals: decimals, step: step, given: given}
		f.text = f.write(given)
		s.figures = append(s.figures, f)
	}
	d := &b.Desk
	add(order.TowOffset, "", "Sheave aft of the antenna", "m", 1, 0.1, d.AntennaToTow)
	add(order.TowSide, "", "Sheave to starboard of the antenna", "m", 1, 0.1, d.TowToStarboard)
	add(order.SheaveHeight, "", "Sheave above the water", "m", 1, 0.1, d.SheaveHeight)
	add(order.Factor, "", "Catenary factor", "", 3, 0.005, d.CatenaryFactor)
	add(order.SoundSpeed, "", "Sound speed", "m/s", 1, 1, d.SoundSpeed)
	add(order.Range, "", "Range scale", "m", 0, 5, b.Sonar.RangeScale)
	for _, c := range b.Sonar.Channels {
		add(order.Gain, c.Name, "Gain of channel "+c.Name, "dB", 1, 1, c.Gain)
		add(order.TVG, c.Name, "Time-varying gain of channel "+c.Name, "log R", 1, 1, c.TVGSpreading)
		add(order.TVGLoss, c.Name, "Gain of channel "+c.Name+" for absorption", "dB/km", 1, 1, c.TVGAbsorption)
	}
	add(order.MosaicCell, "", "Cells of the mosaic", "m", 2, 0.05, d.MosaicCell)
	s.painted = s.givenChannel()
	return s
}

// givenChannel is the channel that the exercise has painted.
func (s *mobilisation) givenChannel() string {
	return s.brief.Sonar.Channels[s.brief.Desk.MosaicChannel].Name
}

func (s *mobilisation) channels() (names []string) {
	for _, c := range s.brief.Sonar.Channels {
		names = append(names, c.Name)
	}
	return names
}

// of finds a figure by its order and channel.
func (s *mobilisation) of(do order.Do, channel string) *entered {
	for _, f := range s.figures {
		if f.do == do && f.channel == channel {
			return f
		}
	}
	return nil
}

func (f *entered) write(v float64) string {
	text := strconv.FormatFloat(v, 'f', f.decimals, 64)
	if strings.Trim(text, "-0.") == "" {
		text = strings.TrimPrefix(text, "-")
	}
	return text
}

// value is the figure as it stands. One that nobody changed is the exercise's own to its last digit.
func (f *entered) value() (v float64, ok bool) {
	text := strings.TrimSpace(f.text)
	if text == f.write(f.given) {
		return f.given, true
	}
	v, err := strconv.ParseFloat(strings.Replace(text, ",", ".", 1), 64)
	return v, err == nil && !math.IsNaN(v) && !math.IsInf(v, 0)
}

// command is the order that puts the figure in, and whether it says anything new.
func (f *entered) command() (o order.Command, changed bool) {
	v, ok := f.value()
	return order.Command{Do: f.do, Text: f.channel, Value: v}, ok && v != f.given
}

// limits returns the least and the most that a figure may be.
func (f *entered) limits(b *exercise.Brief) (low, high float64) {
	if f.do == "" {
		return f.low, f.high
	}
	low, high, _ = order.Limits(b, f.do)
	return low, high
}

// allowed says what the figure may be.
func (s *mobilisation) allowed(f *entered) string {
	low, high := f.limits(s.brief)
	return strings.TrimSpace(fmt.Sprintf("%g to %g %s", low, high, f.unit))
}

// fault says in a line why a figure will not do, or nothing.
func (s *mobilisation) fault(f *entered) string {
	v, ok := f.value()
	if !ok {
		return fmt.Sprintf("%s: %q is no number; %s are allowed.", f.name, strings.TrimSpace(f.text), s.allowed(f))
	}
	o, changed := f.command()
	if !changed {
		return ""
	}
	if err := o.Check(s.brief); err != nil {
		if low, high, ok := order.Limits(s.brief, f.do); ok && v >= low && v <= high {
			return fmt.Sprintf("%s: %s", f.name, sentence(strings.TrimPrefix(err.Error(), string(f.do)+": ")))
		}
		return strings.TrimSpace(fmt.Sprintf("%s: %g %s", f.name, v, f.unit)) + " is out of range; " + s.allowed(f) + " are allowed."
	}
	return ""
}

// faults are those of all figures.
func (s *mobilisation) faults() (all []string) {
	for _, f := range s.figures {
		if says := s.fault(f); says != "" {
			all = append(all, says)
		}
	}
	return all
}

// orders put into the desk and the sonar what is otherwise than in the exercise.
func (s *mobilisation) orders() (all []order.Command) {
	for _, f := range s.figures {
		if o, changed := f.command(); changed {
			all = append(all, o)
		}
	}
	if s.method != s.given {
		all = append(all, order.Command{Do: order.PositionBy, Method: s.method})
	}
	if s.painted != s.givenChannel() {
		all = append(all, order.Command{Do: order.MosaicChannel, Text: s.painted})
	}
	return all
}

// nudge steps a figure up or down, within what is allowed.
func (s *mobilisation) nudge(f *entered, by float64) {
	v, ok := f.value()
	if !ok {
		v = f.given
	}
	low, high := f.limits(s.brief)
	v = math.Round((v+by*f.step)/f.step) * f.step
	f.text = f.write(min(max(v, low), high))
}

// restore has the figures as the exercise has them.
func (s *mobilisation) restore() {
	for _, f := range s.figures {
		f.text = f.write(f.given)
	}
	s.method, s.painted = s.given, s.givenChannel()
}

// placed is where the desk will have the fish by the figures of the sheet: at the speed of the plan
// with the cable that is out to begin with, hanging as its papers have it. ok is false where that cannot be.
func (s *mobilisation) placed() (depth, layback float64, ok bool) {
	value := func(do order.Do) float64 {
		v, _ := s.of(do, "").value()
		return v
	}
	b := s.brief
	sheave := value(order.SheaveHeight)
	if len(s.faults()) > 0 || b.Plan.Speed <= 0 || b.Plan.CableOut <= 0 {
		return 0, 0, false
	}
	depth = max(b.Tow.Steady(b.Plan.Speed, b.Plan.CableOut, sheave).Depth, 0)
	layback, err := survey.Layback(b.Plan.CableOut, depth, sheave, value(order.Factor), value(order.TowOffset))
	return depth, layback, err == nil
}
