package scenarios

import (
	"cmp"
	"fmt"
	"maps"
	"slices"

	"dryline/sim/exercise"
)

type eventSection struct {
	Kind   string   `key:"kind" required:"true" enum:"event" doc:"What goes wrong."`
	At     *float64 `key:"at_s" unit:"s" min:"0" max:"86400" absent:"on_line says when" doc:"When it begins, from the start of the exercise."`
	OnLine string   `key:"on_line" runes:"20" absent:"at_s says when" doc:"Name of the line on which it begins: the first time that the fish is along_m along it, as it is run, with the log on."`
	Along  float64  `key:"along_m" unit:"m" min:"0" max:"15000" default:"0" doc:"How far along that line."`
	For    float64  `key:"for_s" unit:"s" above:"0" max:"86400" absent:"to the end of the exercise" doc:"How long it lasts."`
	Side   string   `key:"side" enum:"beam" absent:"either, by the seed" doc:"Side of a dead_channel or weak_channel."`

	Jump  *float64 `key:"jump_m" unit:"m" min:"1" max:"1000" absent:"25 m" doc:"How far fixes lie aside in a gnss_jump; the seed says in which direction."`
	Bias  *float64 `key:"bias_deg" unit:"deg" min:"-45" max:"45" absent:"6 degrees of the heading, 12 of the compass" doc:"Fixed error of a heading_bias or compass_bias, to starboard."`
	Wind  *float64 `key:"wind_kn" unit:"kn" min:"1" max:"60" absent:"20 kn" doc:"Wind that a squall adds."`
	Slip  *float64 `key:"slip_percent" unit:"percent" min:"0" max:"100" absent:"15 %" doc:"Share of what is hauled that a counter_slip misses."`
	Shows *float64 `key:"shows_m" unit:"m" min:"-10" max:"2000" absent:"0 m" doc:"What the counter shows after a counter_reset."`
	Level *float64 `key:"level_db" unit:"dB re 1 uPa" min:"60" max:"200" absent:"150 dB" doc:"Level of a sounder at our receiver."`
	Share *float64 `key:"share_percent" unit:"percent" min:"0" max:"100" absent:"20 %" doc:"Share of the pings lost as dropped_pings."`
	Loss  *float64 `key:"loss_db" unit:"dB" min:"1" max:"60" absent:"12 dB" doc:"How much less a weak_channel hears."`
}

// sizes are the sizes that an event may have, by their keys.
func (e *eventSection) sizes() map[string]*float64 {
	return map[string]*float64{
		"jump_m": e.Jump, "bias_deg": e.Bias, "wind_kn": e.Wind, "slip_percent": e.Slip, "shows_m": e.Shows,
		"level_db": e.Level, "share_percent": e.Share, "loss_db": e.Loss,
	}
}

// eventKinds are the names of what can go wrong.
func eventKinds() (names []string) {
	for _, k := range exercise.Troubles() {
		names = append(names, string(k.Kind))
	}
	return names
}

var beams = map[string]exercise.Beam{"": exercise.EitherSide, "port": exercise.PortSide, "starboard": exercise.StarboardSide}

// events are those of the file, each with a time or a place and the size of its kind.
func (f *exerciseFile) events(c *checker) []exercise.Event {
	var out []exercise.Event
	for i := range f.Events {
		if kind, ok := exercise.KindOf(exercise.Trouble(f.Events[i].Kind)); ok {
			out = append(out, f.Events[i].event(c, fmt.Sprintf("events[%d]", i), kind))
		}
	}
	return out
}

func (e *eventSection) event(c *checker, path string, kind exercise.TroubleKind) exercise.Event {
	out := exercise.Event{Kind: kind.Kind, Line: e.OnLine, Along: e.Along, For: e.For, Size: kind.Use * kind.Per, Side: beams[e.Side]}
	if e.At != nil {
		out.At = *e.At
	}
	if c.sound(path+".at_s", path+".on_line") && (e.At == nil) == (e.OnLine == "") {
		c.fault(path, "", "has both at_s and on_line or neither", "one of them")
	}
	if c.given(path+".along_m") && e.OnLine == "" && c.sound(path+".on_line") {
		c.fault(path+".along_m", "", "has no line to be along", "on_line as well")
	}
	if e.OnLine != "" {
		e.checkLine(c, path)
	}
	foreign := func(key, want string) { c.fault(path+"."+key, "", "is not used by "+e.Kind, want) }
	if c.given(path+".side") && !kind.Sided {
		foreign("side", "no such key")
	}
	if c.given(path+".for_s") && kind.Once {
		foreign("for_s", "no such key")
	}
	sizes := e.sizes()
	for _, key := range slices.Sorted(maps.Keys(sizes)) {
		switch v := sizes[key]; {
		case v == nil:
		case key != kind.Size:
			foreign(key, cmp.Or(kind.Size, "no such key"))
		default:
			out.Size = *v * kind.Per
		}
	}
	return out
}

// checkLine refuses a line that is not there, or a place beyond its end.
func (e *eventSection) checkLine(c *checker, path string) {
	if !c.sound("lines", path+".on_line") {
		return
	}
	var names []string
	for i, l := range c.file.Lines {
		if l.Name != e.OnLine {
			names = append(names, l.Name)
			continue
		}
		if long := l.length(); e.Along > long && c.sound(path+".along_m", fmt.Sprintf("lines[%d]", i)) {
			c.fault(path+".along_m", c.number(e.Along), "lies beyond the end of the line", "at most "+c.number(long)+" m")
		}
		return
	}
	want := "the name of a line"
	if near := nearest(e.OnLine, names); near != "" {
		want = near
	}
	c.fault(path+".on_line", shorten(e.OnLine), "names no line", want)
}
