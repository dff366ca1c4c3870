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
	places, seams, ripples := make([]lanes.Place, n), make([]*lanes.Seam, n), make([]*lanes.Ripple, n)
	for k := range places {
		node, next := &nodes[k+1], &nodes[k+2]
		from, to := float64(k)*nodeStep, float64(k+1)*nodeStep
		place := func(du0, dv0, rms float64) lanes.Place {
			return lanes.PlaceAt(u0+du*from+du0, v0+dv*from+dv0, float32(rms))
		}
		// pieces are those that a sediment's block begins and ends on.
		pieces := func(class Class) (a, b piece, ok bool) {
			q := w.fabric.of(class)
			return a, b, q.patch == w.fabric.grains.patch && q.find(&a, class, u0+du*from, v0+dv*from) && q.find(&b, class, u0+du*to, v0+dv*to)
		}
		a, b, ok := pieces(node.class)
		switch {
		case !ok:
		case node.class != next.class:
			c, d, ok := pieces(next.class)
			if f.alone[k] = ok && a == b && a.plain && c == d && c.plain; f.alone[k] {
				seams[k] = &lanes.Seam{A: place(a.du, a.dv, node.rms), B: place(c.du, c.dv, next.rms), DX: 1. / lanes.Width}
			}
		case a == b && a.plain:
			places[k] = place(a.du, a.dv, node.rms)
			f.alone[k] = true
		default:
			if a.plain {
				a = b // the seam
			}
			if f.alone[k] = b.plain || a == b; f.alone[k] {
				x := func(g float64) float64 { return (u0+du*g-a.u0)*a.seamU + (v0+dv*g-a.v0)*a.seamV }
				seams[k] = &lanes.Seam{A: place(a.du, a.dv, node.rms), B: place(a.eu, a.ev, node.rms), X: float32(x(from)), DX: float32((x(to) - x(from)) / lanes.Width), Smooth: 1}
			}
		}
		if node.field != next.field {
			f.alone[k] = false
		}
		if node.field != 0 {
			r := &w.ripples[node.field-1]
			turn := next.phase - node.phase
			if turn > 0.5 {
				turn--
			} else if turn < -0.5 {
				turn++
			}
			phase := func(g float64) float64 { return r.kx*(x+ux*g) + r.ky*(y+uy*g) + node.phase }
			ripple := lanes.RippleAt(phase(from), phase(to)+turn, node.share, next.share)
			ripples[k] = &ripple
		}
	}
	duS, dvS := float32(du/lanes.PerMetre), float32(dv/lanes.PerMetre)
	lanes.Floor(f.z, f.slope, heights, places, patch, duS, dvS)
	for k := range places {
		z := f.z[k*lanes.Width:]
		if seams[k] != nil {
			lanes.AddSeams(z, []lanes.Seam{*seams[k]}, patch, patch, duS, dvS)
		}
		if ripples[k] != nil {
			lanes.AddRipples(z, []lanes.Ripple{*ripples[k]}, lanes.NewProfile(&w.ripples[nodes[k+1].field-1].profile))
		}
	}
	return f
}

// Lanes answer what a trace does, to some micrometres, on sand, ripples and outcrop, across
// seams and borders, but for the few blocks where four pieces or fields of ripples meet.
func TestLanesAnswerWhatATraceDoes(t *testing.T) {
	w := New(Spec{
		East: 200, North: 200, Depth: 12, Base: MediumSand,
		Relief: Relief{Height: 1, Wavelength: 30, Octaves: 3},
		Bedforms: []Bedform{
			{Kind: Ripples, Height: 0.05, Wavelength: 0.6, Area: Area{Polygon: []Point{{60, 60}, {140, 60}, {140, 85}, {60, 85}}}},
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
		if met < len(p.Z)*9/10 {
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
