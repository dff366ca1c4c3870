package look

import (
	"math"
	"math/rand/v2"
	"testing"
)

// area returns the area that the triangles of a mesh cover.
func (m *mesh) area() float64 {
	sum := 0.0
	for i := 0; i < len(m.indices); i += 3 {
		a, b, c := m.vertices[m.indices[i]], m.vertices[m.indices[i+1]], m.vertices[m.indices[i+2]]
		sum += math.Abs(float64((b.DstX-a.DstX)*(c.DstY-a.DstY)-(b.DstY-a.DstY)*(c.DstX-a.DstX))) / 2
	}
	return sum
}

// Ears clipped off a star-shaped outline add up to its area by the shoelace
// formula (exact mathematics), whichever way round it is drawn.
func TestEarsAddUpToTheOutline(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for range 200 {
		n := 3 + rng.IntN(12)
		var p []float64
		for i := range n {
			a, r := 2*math.Pi*(float64(i)+0.8*rng.Float64())/float64(n), 5+40*rng.Float64()
			p = append(p, 100+r*math.Cos(a), 100+r*math.Sin(a))
		}
		if rng.IntN(2) == 0 {
			for i := range n / 2 {
				j := n - 1 - i
				p[2*i], p[2*j], p[2*i+1], p[2*j+1] = p[2*j], p[2*i], p[2*j+1], p[2*i+1]
			}
		}
		want := 0.0
		for i := range n {
			j := (i + 1) % n
			want += p[2*i]*p[2*j+1] - p[2*j]*p[2*i+1]
		}
		want = math.Abs(want) / 2
		var m mesh
		m.polygon(p)
		if got := m.area(); math.Abs(got-want) > 1e-3*want {
			t.Fatalf("%d corners: ears of %.3f, outline of %.3f", n, got, want)
		}
	}
}

// A stroke carries as much ink as its width times its length, soft edges and
// the little it is longer than asked included.
func TestStrokeIsAsWideAsAsked(t *testing.T) {
	for _, width := range []float64{1, 2, 5} {
		var m mesh
		m.segment(10, 10, 110, 10, width)
		ink := 0.0
		for i := 0; i < len(m.indices); i += 3 {
			a, b, c := m.vertices[m.indices[i]], m.vertices[m.indices[i+1]], m.vertices[m.indices[i+2]]
			size := math.Abs(float64((b.DstX-a.DstX)*(c.DstY-a.DstY)-(b.DstY-a.DstY)*(c.DstX-a.DstX))) / 2
			ink += size * float64(a.ColorA+b.ColorA+c.ColorA) / 3
		}
		if want := width * 100; math.Abs(ink-want) > 0.05*want {
			t.Errorf("width %g: ink of %.1f, want %.0f", width, ink, want)
		}
	}
}
