package pingfile

import (
	"math"

	"dryline/seabed"
)

// Thing is something that lies on the floor, by the number that labels have it by: its place
// in [Things], from 1.
type Thing struct {
	Name, Kind    string
	X, Y          float64 // middle, of a pipeline its start, metres on the local grid
	Heading       float64 // grid bearing of its bow or long axis, degrees; NaN for a pipeline
	Length, Width float64 // metres; of a pipeline its run and diameter
	Height        float64 // above its own base, metres
	Burial        float64 // how deep its base lies in the floor, metres
	Class         seabed.Class
	Charted       bool
}

// Things are a floor's objects and then its pipelines.
func Things(spec *seabed.Spec) []Thing {
	var all []Thing
	for i := range spec.Objects {
		o := spec.Objects[i].Whole()
		all = append(all, Thing{o.Name, o.Kind, o.At.X, o.At.Y, bearing(o.Heading), o.Length, o.Width, o.Height, o.Burial, o.Class, o.Charted})
	}
	for i := range spec.Pipelines {
		p := &spec.Pipelines[i]
		class := p.Class
		if class == seabed.Unset {
			class = seabed.Steel
		}
		all = append(all, Thing{p.Name, "pipeline", p.Path[0].X, p.Path[0].Y, math.NaN(), p.Length(), p.Diameter, p.Diameter, p.Burial, class, p.Charted})
	}
	return all
}
