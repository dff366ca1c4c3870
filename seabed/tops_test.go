package seabed

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// Tables of tops against the bodies themselves, at places that are not their nodes: there where the body is, to
// half a centimetre rms; and no table is larger than said, nor another when it is worked out again.
func TestTopsAreThoseOfTheBody(t *testing.T) {
	w := New(everyKind(), 2)
	rng := rand.New(rand.NewPCG(3, 4))
	bodies := 0
	for k := range w.parts {
		p := &w.parts[k]
		body, ok := p.solid.(tabled)
		if !ok {
			continue
		}
		bodies++
		table := body.table()
		if len(table.nodes) > topNodes {
			t.Errorf("part %d: %d nodes", k, len(table.nodes))
		}
		if again := newTops(body, 1/table.perMetre); !slices.Equal(again.nodes, table.nodes) {
			t.Errorf("part %d: another table the second time", k)
		}
		// Rays along x of the part's own frame, each a sample of a furniture.
		alone := &World{parts: []placedPart{{solid: p.solid, box: p.box, cos: 0, sin: 1, object: 1}}}
		var square, read, far float64
		r := p.box
		for range 40 {
			y := r.y0 + (r.y1-r.y0)*rng.Float64()
			f := Furniture{world: alone, x: r.x0 - 1 - rng.Float64(), y: -y, ux: 1}
			f.owners = []uint16{0, 1}
			f.crossed = []crossing{{part: 0, from: r.x0 - f.x, to: r.x1 - f.x}}
			f.grow(int((r.x1-f.x)/evenStep) + 3)
			for i := range f.Z {
				f.Z[i] = nothing
			}
			f.Raise()
			for i := range f.Z {
				z, ok := body.top(f.x+float64(i+1)*evenStep, y)
				if !ok && f.by[i] == 0 {
					continue
				}
				read++
				if off := float64(f.Z[i]) - z; ok && math.Abs(off) < 0.1 {
					square += off * off
				} else {
					far++
				}
			}
		}
		if rms := math.Sqrt(square / read); rms > 0.012 || far > 0.01*read {
			t.Errorf("object %d: of %.0f places %.4f m rms off, %.0f at an edge", p.object, read, rms, far)
		}
	}
	if bodies < 20 {
		t.Errorf("only %d bodies", bodies)
	}
}

// BenchmarkRaise measures what a covered sample costs, of a hulk and of what it would without a table.
func BenchmarkRaise(b *testing.B) {
	w := New(Spec{East: 100, North: 100, Depth: 12, Objects: []Object{{Kind: "hulk", At: Point{50, 50}, Heading: 0.4}}}, 4)
	for _, exact := range []bool{false, true} {
		b.Run(map[bool]string{false: "table", true: "exact"}[exact], func(b *testing.B) {
			var f Furniture
			var list Footprints
			samples := 0
			for b.Loop() {
				furnished(w, &f, &list, 30, 47, 1, 0, 2560)
				samples += len(f.Z)
				if exact {
					for i := range f.Z {
						for k := range w.parts {
							if w.parts[k].object == 1 {
								if _, ok := w.parts[k].solid.(tabled); ok {
									w.parts[k].topAt(30+float64(f.First+i+1)*evenStep, 47)
								}
							}
						}
					}
				}
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(samples), "ns/sample")
		})
	}
}
