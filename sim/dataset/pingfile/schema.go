package pingfile

import (
	"fmt"
	"math"
	"strconv"
	"time"

	"dryline/seabed"
	"dryline/sim"
	"dryline/sim/dataset/cdf"
	"dryline/sim/provenance"
	"dryline/sonar"
	"dryline/sonar/recorder"
)

// Packing of ground ranges in 16 bits.
const (
	groundStep = 0.005 // metres
	noGround   = math.MaxUint16
)

const nameLength = 40 // bytes kept of an object's name

// head holds what the file of a line and channel says once.
type head struct {
	session *sim.Session
	line    string
	channel int
	start   float64 // of the line, seconds
}

func (h *head) layout() (*cdf.Layout, error) {
	s := h.session
	samples := int64(s.Desk.Recorder.Samples)
	schema := cdf.Schema{
		Dims:  []cdf.Dim{{Name: "ping"}, {Name: "side", Len: 2}, {Name: "sample", Len: samples}, {Name: "side_letters", Len: 9}},
		Attrs: h.attributes(),
	}
	schema.Vars = append(schema.Vars, cdf.Var{Name: "side_name", Type: cdf.Char, Dims: []string{"side", "side_letters"}, Data: "port\x00\x00\x00\x00\x00starboard",
		Attrs: []cdf.Attr{{Name: "long_name", Value: "side of the fish that the transducer looks to"}}})
	schema.Vars = append(schema.Vars, h.settings()...)
	schema.Dims, schema.Vars = h.objects(schema.Dims, schema.Vars)
	for _, f := range perPing {
		schema.Vars = append(schema.Vars, f.variable("ping"))
	}
	for _, f := range perSide {
		schema.Vars = append(schema.Vars, f.variable("ping", "side"))
	}
	schema.Vars = append(schema.Vars, perSample()...)
	for i := range schema.Vars {
		if v := &schema.Vars[i]; v.Name == "ping_time" {
			v.Attrs = append(v.Attrs, cdf.Attr{Name: "units", Value: "seconds since " + s.Exercise.Start.UTC().Format("2006-01-02 15:04:05") + "Z"},
				cdf.Attr{Name: "calendar", Value: "standard"}, cdf.Attr{Name: "axis", Value: "T"})
		}
	}
	return cdf.Lay(schema)
}

// attributes are those of the file.
func (h *head) attributes() []cdf.Attr {
	s := h.session
	ex := s.Exercise
	grid := ex.Place.Grid
	east, north := grid.ToUTM(0, 0)
	a := func(name string, value any) cdf.Attr { return cdf.Attr{Name: name, Value: value} }
	return []cdf.Attr{
		a("Conventions", "CF-1.11, ACDD-1.3"),
		a("title", fmt.Sprintf("%s: line %s, channel %s", ex.Title, h.line, s.Desk.Recorder.Channels[h.channel])),
		a("summary", "Side-scan sonar pings made by a simulator, with the truth of every sample. Synthetic: no sea floor anywhere is like this one, and nothing here is evidence of anything at sea. Not for navigation."),
		a("keywords", "side-scan sonar, synthetic data, simulation, sea floor, labelled data"),
		a("synthetic", "true"),
		a("license", provenance.Licence),
		a("source", "Dryline survey simulator, engine "+strconv.Itoa(provenance.Engine)),
		a("dryline_engine", int32(provenance.Engine)),
		a("ground_step_m", ex.Sonar.Step.Metres()),
		a("platform", provenance.Platform()),
		a("exercise", ex.Name),
		a("exercise_sha256", ex.Hash),
		a("seed", s.Seeds.One),
		a("seed_ground", s.Seeds.Ground), a("seed_placed", s.Seeds.Placed), a("seed_weather", s.Seeds.Weather), a("seed_sonar", s.Seeds.Sonar),
		a("line", h.line),
		a("channel", s.Desk.Recorder.Channels[h.channel]),
		a("place", ex.Place.Name+", which is invented and lies in mid-ocean on purpose"),
		a("processing_level", "as recorded: counts after the receiver's gain, neither levelled nor corrected for slant range"),
		a("comment", "Local grid: x east, y north, metres. Add grid_origin_easting and grid_origin_northing for the projected coordinates of EPSG:grid_epsg. z is up, 0 at the mean level of the water. Bearings are clockwise from the grid's north. The sample of index k answers for the slant range (k + 0.5) * sample_interval * sound_speed / 2."),
		a("grid_epsg", int32(grid.EPSG())), a("grid_origin_easting", east), a("grid_origin_northing", north),
		a("history", "made by dryline from exercise, seed and orders; see session.jsonl beside it"),
		a("time_coverage_start", ex.Start.Add(time.Duration(h.start*float64(time.Second))).UTC().Format("2006-01-02T15:04:05.000Z")),
	}
}

// settings are variables without dimension: how the sonar was set on this line.
func (h *head) settings() []cdf.Var {
	s := h.session
	spec := s.Engine().Spec()
	channel := spec.Channels[h.channel]
	var set recorder.Receiver
	if h.channel < len(s.Desk.Recorder.Receivers) {
		set = s.Desk.Recorder.Receivers[h.channel]
	}
	scalar := func(name, units, long string, v float64) cdf.Var {
		return cdf.Var{Name: name, Type: cdf.Double, Data: v, Attrs: []cdf.Attr{{Name: "units", Value: units}, {Name: "long_name", Value: long}}}
	}
	entered := s.Exercise.Desk.SoundSpeed
	return []cdf.Var{
		scalar("sample_interval", "s", "time between samples, two-way", 2*s.Desk.Recorder.Bin()/entered),
		scalar("sound_speed_entered", "m s-1", "sound speed that the recorder works with", entered),
		scalar("true_sound_speed", "m s-1", "sound speed of the water, at the depth it is taken at", s.Engine().SoundSpeed()),
		scalar("range_scale", "m", "range scale of a side, by the sound speed entered", s.Desk.Recorder.RangeScale),
		scalar("receiver_gain", "dB", "gain about its nominal setting", set.Gain),
		scalar("receiver_tvg_spreading", "dB", "k of the time-varying gain k log10(R) + 2 a R/1000", set.TVGSpreading),
		scalar("receiver_tvg_absorption", "dB km-1", "a of the time-varying gain", set.TVGAbsorption),
		scalar("frequency", "Hz", "frequency of the channel", channel.Frequency),
		scalar("bandwidth", "Hz", "bandwidth of the chirp, 0 for a continuous wave", channel.Bandwidth),
		scalar("pulse_length", "s", "length of the pulse", channel.PulseLength),
		scalar("array_length", "m", "length of the array", channel.ArrayLength),
		scalar("vertical_beam_width", "degree", "one-way half-power width of the vertical beam", degrees(spec.VerticalBeam)),
		scalar("beam_depression", "degree", "axis of the vertical beam below the horizontal", degrees(spec.Depression)),
	}
}

// objects adds what the numbers of objects stand for: the exercise's objects and then
// its pipelines.
func (h *head) objects(dims []cdf.Dim, vars []cdf.Var) ([]cdf.Dim, []cdf.Var) {
	things := Things(&h.session.Exercise.Seabed)
	n := len(things)
	if n == 0 {
		return dims, vars
	}
	var names, kinds string
	numbers := make([]uint16, n)
	sizes := map[string][]float64{}
	fields := []struct{ name, units, long string }{
		{"object_x", "m", "easting on the local grid of the middle of the object, or of the start of a pipeline"},
		{"object_y", "m", "northing of it"},
		{"object_heading", "degree", "bearing of its bow or long axis"},
		{"object_length", "m", "length along the heading"},
		{"object_width", "m", "width, of a pipeline its diameter"},
		{"object_height", "m", "height above its own base"},
		{"object_burial", "m", "how deep its base lies in the floor"},
	}
	for i := range things {
		o := &things[i]
		numbers[i] = uint16(i + 1)
		names, kinds = names+fixed(o.Name), kinds+fixed(o.Kind)
		for k, v := range [...]float64{o.X, o.Y, o.Heading, o.Length, o.Width, o.Height, o.Burial} {
			sizes[fields[k].name] = append(sizes[fields[k].name], v)
		}
	}
	dims = append(dims, cdf.Dim{Name: "thing", Len: int64(n)}, cdf.Dim{Name: "letters", Len: nameLength})
	text := func(name, long, data string) cdf.Var {
		return cdf.Var{Name: name, Type: cdf.Char, Dims: []string{"thing", "letters"}, Data: data, Attrs: []cdf.Attr{{Name: "long_name", Value: long}}}
	}
	vars = append(vars,
		cdf.Var{Name: "object_number", Type: cdf.UShort, Dims: []string{"thing"}, Data: numbers, Attrs: []cdf.Attr{{Name: "long_name", Value: "number that the variable object has it by"}}},
		text("object_name", "name in the exercise", names), text("object_kind", "kind of object", kinds))
	for _, f := range fields {
		vars = append(vars, cdf.Var{Name: f.name, Type: cdf.Double, Dims: []string{"thing"}, Data: sizes[f.name], Attrs: []cdf.Attr{{Name: "units", Value: f.units}, {Name: "long_name", Value: f.long}}})
	}
	return dims, vars
}

// fixed is a text of [nameLength] bytes, cut or filled with zeros.
func fixed(s string) string {
	b := make([]byte, nameLength)
	for len(s) > nameLength {
		r := []rune(s)
		s = string(r[:len(r)-1])
	}
	copy(b, s)
	return string(b)
}

// perSample are the variables of every sample. They stand last, the small ones after
// the large.
func perSample() []cdf.Var {
	dims := []string{"ping", "side", "sample"}
	a := func(name string, value any) cdf.Attr { return cdf.Attr{Name: name, Value: value} }
	kindValues, kindMeanings := []uint8{}, ""
	for _, k := range sonar.LabelKinds() {
		kindValues, kindMeanings = append(kindValues, uint8(k)), join(kindMeanings, k.String())
	}
	classValues, classMeanings := []uint8{0}, "none"
	for _, name := range seabed.SedimentNames() {
		c, _ := seabed.ParseSediment(name)
		classValues, classMeanings = append(classValues, uint8(c)), join(classMeanings, name)
	}
	for _, name := range seabed.MaterialNames() {
		c, _ := seabed.ParseMaterial(name)
		classValues, classMeanings = append(classValues, uint8(c)), join(classMeanings, name)
	}
	return []cdf.Var{
		{Name: "samples", Type: cdf.UShort, Dims: dims, Attrs: []cdf.Attr{
			a("units", "1"), a("long_name", "echo amplitude as recorded, counts"), a("comment", "0 to 65535; 65535 was cut off at full scale, and is no fill value")}},
		{Name: "ground_range", Type: cdf.UShort, Dims: dims, Attrs: []cdf.Attr{
			a("units", "m"), a("long_name", "true ground range of the strongest part of what the sample shows, along across_bearing"),
			a("scale_factor", groundStep), a("_FillValue", uint16(noGround)),
			a("comment", "of a shadow that of the floor hidden; none where nothing is shown")}},
		{Name: "object", Type: cdf.UShort, Dims: dims, Attrs: []cdf.Attr{
			a("units", "1"), a("long_name", "number of the object that the sample shows, 0 for none"), a("comment", "see object_number")}},
		{Name: "label", Type: cdf.UByte, Dims: dims, Attrs: []cdf.Attr{
			a("units", "1"), a("long_name", "what the sample shows"), a("flag_values", kindValues), a("flag_meanings", kindMeanings),
			a("comment", "told apart on the first channel, before speckle; layover is an object over lit floor that lies as far off")}},
		{Name: "sediment", Type: cdf.UByte, Dims: dims, Attrs: []cdf.Attr{
			a("units", "1"), a("long_name", "what the floor or the object shown is made of; of a shadow the floor hidden"), a("flag_values", classValues), a("flag_meanings", classMeanings)}},
	}
}

func join(words, word string) string {
	if words == "" {
		return word
	}
	return words + " " + word
}

func degrees(radians float64) float64 { return radians * 180 / math.Pi }

func bearing(radians float64) float64 { return math.Mod(degrees(radians)+720, 360) }
