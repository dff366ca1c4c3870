package pingfile

import (
	"math"

	"dryline/sim"
	"dryline/sim/dataset/cdf"
	"dryline/sim/survey"
	"dryline/sonar"
)

// moment is a ping with all that is told of it.
type moment struct {
	ping     *sim.Ping
	record   *survey.PingRecord // by the desk; nil before its first bottom
	bin      float64            // slant range of a sample by the desk, metres
	altitude float64            // true, metres
	lat, lon float64            // of the fish by the desk, degrees
}

// momentOf is a ping of the session that the desk has just taken.
func momentOf(s *sim.Session, p *sim.Ping) moment {
	at := &p.Truth.Pose
	m := moment{ping: p, bin: s.Desk.Recorder.Bin(), altitude: at.Z - s.World().HeightAt(at.X, at.Y)}
	m.lat, m.lon = s.Exercise.Place.Grid.ToLatLon(p.Fix.X, p.Fix.Y).Degrees()
	if open := s.Desk.OpenLine(); open != nil && len(open.Pings) > 0 {
		if last := &open.Pings[len(open.Pings)-1]; last.Number == p.Number {
			m.record = last
		}
	}
	return m
}

// Column is one thing told of a ping apart from its samples: a variable of the files by its
// name there, one of a side with the side after it.
type Column struct {
	Name string
	Type cdf.Type
}

// Columns are all of them.
func Columns() []Column {
	var all []Column
	add := func(f *field, name string) {
		kind := f.kind
		if kind == 0 {
			kind = cdf.Double
		}
		all = append(all, Column{name, kind})
	}
	for i := range perPing {
		add(&perPing[i], perPing[i].name)
	}
	for i := range perSide {
		for side := range 2 {
			add(&perSide[i], perSide[i].name+"_"+sonar.Side(side).String())
		}
	}
	return all
}

// AppendRow appends the values of a ping in the order of [Columns], for observers that are
// told truth and labels. What is not known is NaN, or -1 for a bottom that is not there.
func AppendRow(dst []float64, s *sim.Session, p *sim.Ping) []float64 {
	m := momentOf(s, p)
	for i := range perPing {
		dst = append(dst, perPing[i].of(&m, sonar.Port))
	}
	for i := range perSide {
		for side := range 2 {
			dst = append(dst, perSide[i].of(&m, sonar.Side(side)))
		}
	}
	return dst
}

// field is a variable of every ping, or of every side of it: a double, but for those
// that say otherwise.
type field struct {
	name, units, long string
	standard          string // standard name by CF
	kind              cdf.Type
	of                func(m *moment, side sonar.Side) float64
	fill              any
}

func (f *field) variable(dims ...string) cdf.Var {
	v := cdf.Var{Name: f.name, Type: f.kind, Dims: dims, Attrs: []cdf.Attr{{Name: "long_name", Value: f.long}}}
	if v.Type == 0 {
		v.Type = cdf.Double
	}
	if f.units != "" {
		v.Attrs = append(v.Attrs, cdf.Attr{Name: "units", Value: f.units})
	}
	if f.standard != "" {
		v.Attrs = append(v.Attrs, cdf.Attr{Name: "standard_name", Value: f.standard})
	}
	if f.fill != nil {
		v.Attrs = append(v.Attrs, cdf.Attr{Name: "_FillValue", Value: f.fill})
	}
	return v
}

// put writes the field's value at an index of its slab.
func (f *field) put(slab []byte, index int, v float64) {
	switch f.kind {
	case cdf.UByte:
		slab[index] = uint8(v)
	case cdf.Int:
		cdf.PutInt32(slab[4*index:], int32(v))
	case cdf.UInt64:
		cdf.PutUint64(slab[8*index:], uint64(v))
	default:
		cdf.PutFloat64(slab[8*index:], v)
	}
}

type sided = func(m *moment, side sonar.Side) float64

func fix(f func(x *survey.Fix) float64) sided {
	return func(m *moment, _ sonar.Side) float64 { return f(&m.ping.Fix) }
}

func pose(f func(p *sonar.Pose) float64) sided {
	return func(m *moment, _ sonar.Side) float64 { return f(&m.ping.Truth.Pose) }
}

func across(f func(a *sonar.Across) float64) sided {
	return func(m *moment, side sonar.Side) float64 {
		if a := &m.ping.Truth.Across[side]; *a != (sonar.Across{}) {
			return f(a)
		}
		return math.NaN() // nothing was heard
	}
}

func truth(b bool) float64 {
	if b {
		return 1
	}
	return 0
}

var perPing = []field{
	{name: "ping_number", long: "number of the ping in the session", units: "1", kind: cdf.UInt64, of: func(m *moment, _ sonar.Side) float64 { return float64(m.ping.Number) }},
	{name: "ping_time", long: "time the ping was sent", standard: "time", of: fix(func(x *survey.Fix) float64 { return x.Time })},
	{name: "lost", long: "1 if nothing came up the cable", units: "1", kind: cdf.UByte, of: func(m *moment, _ sonar.Side) float64 { return truth(m.ping.Lost) }},
	{name: "fix_fault", long: "1 if the desk could not trust the position", units: "1", kind: cdf.UByte, of: fix(func(x *survey.Fix) float64 { return truth(x.Fault != "") })},
	{name: "bottom_locked", long: "1 if the desk's bottom track found the bottom in this ping", units: "1", kind: cdf.UByte, of: func(m *moment, _ sonar.Side) float64 { return truth(m.record != nil && m.record.Locked) }},

	{name: "x", long: "easting of the fish on the local grid by the desk", units: "m", standard: "projection_x_coordinate", of: fix(func(x *survey.Fix) float64 { return x.X })},
	{name: "y", long: "northing of the fish on the local grid by the desk", units: "m", standard: "projection_y_coordinate", of: fix(func(x *survey.Fix) float64 { return x.Y })},
	{name: "latitude", long: "latitude of the fish by the desk", units: "degrees_north", standard: "latitude", of: func(m *moment, _ sonar.Side) float64 { return m.lat }},
	{name: "longitude", long: "longitude of the fish by the desk", units: "degrees_east", standard: "longitude", of: func(m *moment, _ sonar.Side) float64 { return m.lon }},
	{name: "heading", long: "grid bearing that the desk lays the swath square to", units: "degree", of: fix(func(x *survey.Fix) float64 { return bearing(x.Heading) })},
	{name: "course", long: "grid bearing of the fish's track by the desk", units: "degree", of: fix(func(x *survey.Fix) float64 { return bearing(x.Course) })},
	{name: "speed", long: "speed over ground by GNSS", units: "m s-1", of: fix(func(x *survey.Fix) float64 { return x.Speed })},
	{name: "depth", long: "depth of the fish by its pressure sensor", units: "m", of: fix(func(x *survey.Fix) float64 { return x.Depth })},
	{name: "altitude", long: "height of the fish over the floor by its altimeter", units: "m", of: fix(func(x *survey.Fix) float64 { return x.Altitude })},
	{name: "height", long: "height of the fish over the floor by the desk's bottom track", units: "m", of: func(m *moment, _ sonar.Side) float64 {
		if m.record == nil {
			return math.NaN()
		}
		return m.record.Height
	}},
	{name: "layback", long: "distance of the fish aft of the antenna by the desk", units: "m", of: fix(func(x *survey.Fix) float64 { return x.Layback })},
	{name: "cable_out", long: "cable out by the counter", units: "m", of: fix(func(x *survey.Fix) float64 { return x.CableOut })},
	{name: "vessel_x", long: "easting of the antenna by GNSS", units: "m", of: fix(func(x *survey.Fix) float64 { return x.VesselX })},
	{name: "vessel_y", long: "northing of the antenna by GNSS", units: "m", of: fix(func(x *survey.Fix) float64 { return x.VesselY })},

	{name: "true_x", long: "true easting of the fish on the local grid", units: "m", of: pose(func(p *sonar.Pose) float64 { return p.X })},
	{name: "true_y", long: "true northing of the fish on the local grid", units: "m", of: pose(func(p *sonar.Pose) float64 { return p.Y })},
	{name: "true_z", long: "true height of the fish, up from the mean level of the water", units: "m", of: pose(func(p *sonar.Pose) float64 { return p.Z })},
	{name: "true_heading", long: "true grid bearing of the fish's axis", units: "degree", of: pose(func(p *sonar.Pose) float64 { return bearing(p.Heading) })},
	{name: "true_pitch", long: "true pitch of the fish, nose up positive", units: "degree", of: pose(func(p *sonar.Pose) float64 { return degrees(p.Pitch) })},
	{name: "true_roll", long: "true roll of the fish, starboard down positive", units: "degree", of: pose(func(p *sonar.Pose) float64 { return degrees(p.Roll) })},
	{name: "true_speed", long: "true speed of the fish ahead, over ground", units: "m s-1", of: pose(func(p *sonar.Pose) float64 { return p.Speed })},
	{name: "true_water_level", long: "true height of the water over its mean level", units: "m", of: pose(func(p *sonar.Pose) float64 { return p.Surface })},
	{name: "true_altitude", long: "true height of the fish over the floor or object right below it", units: "m", of: func(m *moment, _ sonar.Side) float64 { return m.altitude }},
}

var perSide = []field{
	{name: "bottom_sample", long: "index of the sample of the first return by the desk, whose bottom track is one for both sides", units: "1", of: func(m *moment, _ sonar.Side) float64 {
		if m.record == nil {
			return math.NaN()
		}
		return m.record.Height/m.bin - 0.5
	}},
	{name: "true_bottom_sample", long: "index of the first sample that the floor or what stands on it answers in", units: "1", kind: cdf.Int, fill: int32(-1), of: func(m *moment, side sonar.Side) float64 {
		return float64(firstBottom(m.ping.Truth.Labels[side]))
	}},
	{name: "across_x", long: "easting at which true ground ranges begin", units: "m", of: across(func(a *sonar.Across) float64 { return a.X })},
	{name: "across_y", long: "northing at which true ground ranges begin", units: "m", of: across(func(a *sonar.Across) float64 { return a.Y })},
	{name: "across_bearing", long: "grid bearing along which true ground ranges lie", units: "degree", of: across(func(a *sonar.Across) float64 { return bearing(a.Bearing) })},
}

// firstBottom is the first sample that floor or object answers in, -1 if none does.
func firstBottom(labels []sonar.Label) int {
	for k := range labels {
		switch labels[k].Kind {
		case sonar.FloorLabel, sonar.ObjectLabel, sonar.LayoverLabel, sonar.ShadowLabel:
			return k
		}
	}
	return -1
}
