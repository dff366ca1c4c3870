package seabed

import (
	"math"
	"testing"

	"dryline/seabed/lanes"
)

// laneFloor traces open ground by package lanes: n nodes from the ray's origin on. Blocks
// that lanes leave to their caller are told by false in alone.
type laneFloor struct {
	z, slope []float32
	alone    []bool
}

func (w *World) traceLanes(x, y, ux, uy float64, n int, datum float64) laneFloor {
	nodes := make([]rayNode, n+3)
	w.readNodes(nodes, x, y, ux, uy, -1)
	heights := make([]float32, n+3)
	for k := range nodes {
		heights[k] = float32(nodes[k].z - datum)
	}
	const turnC, turnS = 0.8572, 0.5150
	u0 := (turnC*x+turnS*y)/microStep + quiltOrigin
	v0 := (turnC*y-turnS*x)/microStep + quiltOrigin
	du := (turnC*ux + turnS*uy) / microStep
	dv := (turnC*uy - turnS*ux) / microStep
	f := laneFloor{make([]float32, n*lanes.Width), make([]float32, n*lanes.Width), make([]bool, n)}
	patch := lanes.NewPatch((*[lanes.Side * lanes.Side]float32)(w.fabric.grains.patch))
	places := make([]lanes.Place, n)
	var sheet piece
	for k := range places {
		node, next := &nodes[k+1], &nodes[k+2]
		from, to := float64(k)*nodeStep, float64(k+1)*nodeStep
		quilt := w.fabric.of(node.class)
		quilt.at(&sheet, node.class, u0+du*from, v0+dv*from) // finds the piece
		f.alone[k] = node.class == next.class && node.field == 0 && next.field == 0 && quilt.patch == w.fabric.grains.patch && sheet.plain &&
			sheet.holds(node.class, u0+du*from, v0+dv*from) && sheet.holds(node.class, u0+du*to, v0+dv*to)
		places[k] = lanes.PlaceAt(u0+du*from+sheet.du, v0+dv*from+sheet.dv, float32(node.rms))
	}
	lanes.Floor(f.z, f.slope, heights, places, patch, float32(du/lanes.PerMetre), float32(dv/lanes.PerMetre))
	return f
}

// Lanes answer what a trace does, to some micrometres, on sand, outcrop and through the
// borders of patches.
func TestLanesAnswerWhatATraceDoes(t *testing.T) {
	w := New(Spec{
		East: 200, North: 200, Depth: 12, Base: MediumSand,
		Relief: Relief{Height: 1, Wavelength: 30, Octaves: 3},
		Bedforms: []Bedform{
			{Kind: Outcrop, Height: 1.5, Wavelength: 8, Area: Area{Polygon: []Point{{112, 90}, {132, 90}, {132, 112}, {112, 112}}}},
		},
		Patches: []Patch{{Class: Gravel, Area: Area{Polygon: []Point{{74, 80}, {88, 80}, {88, 120}, {74, 120}}}}},
	}, 4)
	const n, z0 = 160, -5.0
	for _, bearing := range []float64{0, 0.3, 1.2, 2.5, 4, 5.5} {
		x, y := 100.0, 100.0
		uy, ux := math.Cos(bearing), math.Sin(bearing)
		p := Profile{}
		for k := range n * lanes.Width {
			p.Steps = append(p.Steps, float64(k+1)/lanes.PerMetre)
		}
		w.TraceGround(&p, x, y, ux, uy)
		f := w.traceLanes(x, y, ux, uy, n, z0)
		met := 0
		for k := range p.Z {
			if !f.alone[k/lanes.Width] {
				continue
			}
			met++
			if d := float64(f.z[k]) + z0 - p.Z[k]; math.Abs(d) > 5e-6 {
				t.Fatalf("bearing %.1f, %.3f m: %.2g m over the trace", bearing, p.G[k], d)
			}
			// At a node the cubics of either side have one slope.
			if d := float64(f.slope[k]) - p.Slope[k]; math.Abs(d) > 5e-5 {
				t.Fatalf("bearing %.1f, %.3f m: slope %.2g over the trace's", bearing, p.G[k], d)
			}
		}
		if met < len(p.Z)/2 {
			t.Errorf("bearing %.1f: lanes answer %d of %d samples", bearing, met, len(p.Z))
		}
		t.Logf("bearing %.1f: lanes answer %d of %d samples", bearing, met, len(p.Z))
	}
}

// BenchmarkTraceGround is what the floor costs today, at the spacing of lanes.
func BenchmarkTraceGround(b *testing.B) {
	w := strewn()
	p := Profile{}
	for k := range 50 * lanes.PerMetre {
		p.Steps = append(p.Steps, float64(k+1)/lanes.PerMetre)
	}
	w.TraceGround(&p, 200, 100, 1, 0)
	for b.Loop() {
		w.TraceGround(&p, 200, 100, 1, 0)
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N*len(p.G)), "ns/sample")
}

// BenchmarkReadNodes is what the nodes cost, by sample of lanes.
func BenchmarkReadNodes(b *testing.B) {
	w := strewn()
	nodes := make([]rayNode, 203)
	for b.Loop() {
		w.readNodes(nodes, 200, 100, 1, 0, -1)
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N*200*lanes.Width), "ns/sample")
}
