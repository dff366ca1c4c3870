package seabed

import "testing"

// strewn is a world of 400 m with fifteen objects, most of them off the rays
// that the benchmarks send.
func strewn() *World {
	spec := Spec{East: 400, North: 400, Depth: 16, Base: MediumSand, Relief: Relief{Height: 0.6, Wavelength: 60, Octaves: 4}}
	kinds := []string{"hulk", "container", "boulder", "pipe", "anchor", "tyre", "block", "sphere", "cylinder", "mast"}
	spec.Objects = append(spec.Objects, Object{Name: "wreck", Kind: "hulk", At: Point{200, 200}, Length: 21, Width: 6, Height: 2.6})
	for i := range 14 {
		k := kinds[i%len(kinds)]
		spec.Objects = append(spec.Objects, Object{
			Name: k, Kind: k, At: Point{30 + 24*float64(i), 320}, Heading: float64(i),
			Length: Kinds[k].Length, Width: Kinds[k].Width, Height: Kinds[k].Height,
		})
	}
	return New(spec, 3)
}

func benchmarkRay(b *testing.B, w *World, x, y, ux, uy float64) {
	p := Profile{Fine: 0.025}
	for g := 1.0; g < 50; g += 1.0 / 16 {
		p.Steps = append(p.Steps, g)
	}
	w.Trace(&p, x, y, ux, uy)
	b.ReportAllocs()
	for b.Loop() {
		w.Trace(&p, x, y, ux, uy)
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N*len(p.G)), "ns/sample")
}

func BenchmarkTraceMiss(b *testing.B) { benchmarkRay(b, strewn(), 200, 100, 1, 0) }

func BenchmarkTraceAcrossWreck(b *testing.B) { benchmarkRay(b, strewn(), 175, 204, 1, 0) }

func BenchmarkTraceAlongWreck(b *testing.B) { benchmarkRay(b, strewn(), 201, 175, 0, 1) }
