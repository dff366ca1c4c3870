package placing

import (
	"math"

	"dryline/seabed"
)

// bank is an invented floor of closed form: it falls to the east, ever steeper, and
// its sediment changes in bands to the north.
type bank struct{}

func (bank) HeightAt(x, _ float64) float64 { return -8 - x*x/1000 }

func (bank) ClassAt(_, y float64) seabed.Class {
	return []seabed.Class{seabed.Mud, seabed.FineSand, seabed.Gravel}[int(max(y, 0)/60)%3]
}

// slopeAt is the bank's slope, by calculus.
func (bank) slopeAt(x float64) float64 { return math.Atan(x / 500) }

// world is 400 m by 300 m with a wreck, a tyre and a pipeline on it.
func world() *seabed.Spec {
	return &seabed.Spec{
		East: 400, North: 300, Depth: 10,
		Objects: []seabed.Object{
			{Name: "wreck", Kind: "steel_wreck", At: seabed.Point{X: 150, Y: 100}, Heading: 1},
			{Name: "tyre", Kind: "tyre", At: seabed.Point{X: 90, Y: 200}},
		},
		Pipelines: []seabed.Pipeline{{Name: "main", Path: []seabed.Point{{X: 0, Y: 260}, {X: 200, Y: 150}, {X: 400, Y: 280}}, Diameter: 0.8}},
	}
}

// mixed is an invented group that asks for everything at once.
func mixed() *Group {
	return &Group{
		Name: "debris", Fewest: 4, Most: 9,
		Kinds: []Choice{{Kind: "boulder", Weight: 3}, {Kind: "tyre", Weight: 1}, {Kind: "container", Weight: 1, Class: seabed.Aluminium}, {Kind: "sphere", Weight: 1}, {Kind: "pipe", Weight: 0}},
		Area:  seabed.Area{Polygon: []seabed.Point{{X: 20, Y: 10}, {X: 380, Y: 30}, {X: 300, Y: 290}, {X: 150, Y: 240}, {X: 40, Y: 280}}},
		Size:  Distribution{Law: LogUniform, Low: 0.5, High: 2}, Length: Distribution{Low: 0.8, High: 1.2}, Width: Fixed(1), Height: Distribution{Law: Normal, Low: 0.5, High: 1.5, Mean: 1, Deviation: 0.4},
		Heading: Heading{Given: true, About: 6, Deviation: 0.5},
		Burial:  Distribution{Low: 0, High: 0.6}, Scour: Distribution{Low: 0, High: 0.3},
		Spacing: 6, KeepOff: []KeepOff{{Path: []seabed.Point{{X: 0, Y: 60}, {X: 400, Y: 60}}, Distance: 12}, {Path: []seabed.Point{{X: 250, Y: 200}}, Distance: 40}},
		Sediments: []seabed.Class{seabed.FineSand, seabed.Mud}, Steepest: 20 * math.Pi / 180,
		Shallowest: 10, Charted: true,
	}
}

// tall is one that may lie anywhere that is not too deep, and of which some would
// reach out of the water.
func tall() *Group {
	return &Group{
		Name: "debris", Fewest: 6, Most: 6, Kinds: []Choice{{Kind: "mooring", Weight: 1}},
		Size: Distribution{Low: 0.5, High: 2.2}, Deepest: 30, Charted: true,
	}
}
