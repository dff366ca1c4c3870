package seabed

import (
	"math"
	"testing"
)

// integrate sums a solid's plan area and the volume under its top on a fine
// grid of cell midpoints.
func integrate(s solid, step float64) (area, volume float64) {
	r := s.bounds()
	nx, ny := int(math.Ceil((r.x1-r.x0)/step)), int(math.Ceil((r.y1-r.y0)/step))
	dx, dy := (r.x1-r.x0)/float64(nx), (r.y1-r.y0)/float64(ny)
	for j := range ny {
		for i := range nx {
			if z, ok := s.top(r.x0+(float64(i)+0.5)*dx, r.y0+(float64(j)+0.5)*dy); ok {
				area += dx * dy
				volume += z * dx * dy
			}
		}
	}
	return area, volume
}

// Areas and volumes of plain solids by the rules of solid geometry: a body
// with a round underside fills the ground below it too, half its width down.
func TestSolidsHaveTheirAreaAndVolume(t *testing.T) {
	wedge := newLoft([]float64{0, 3}, [][]vec{
		{{0, -1, 0}, {0, -1, 2}, {0, 1, 2}, {0, 1, 0}},
		{{0, -1, 0}, {0, -1, 0}, {0, 1, 0}, {0, 1, 0}},
	})
	spindle := newLoft([]float64{0, 3}, [][]vec{
		{{0, -1, 0}, {0, 0, 1}, {0, 1, 0}},
		{{0, 0, 0}, {0, 0, 0}, {0, 0, 0}},
	})
	for _, test := range []struct {
		name         string
		solid        solid
		area, volume float64
	}{
		{"box", box{1, 0.5, 0.7}, 2, 1.4},
		{"disc", disc{0.5, 2}, math.Pi / 4, math.Pi / 2},
		{"roller", roller{2, 0.4}, 3.2, 3.2*0.4 + 4*math.Pi*0.16/2},
		{"ball", ball{0.5}, math.Pi / 4, math.Pi/8 + 2*math.Pi/3*0.125},
		{"ring", ring{0.5, 0.1}, 2 * math.Pi * 0.5 * 0.2, 0.1*2*math.Pi*0.5*0.2 + math.Pi*math.Pi*0.01*0.5},
		{"wedge", wedge, 6, 6},
		{"pyramid on its side, a third of base times height", spindle, 3, 1},
	} {
		const tol = 0.005 // relative: cells of 5 mm along the edges
		area, volume := integrate(test.solid, 0.005)
		if math.Abs(area-test.area) > tol*test.area {
			t.Errorf("%s: plan area %.4f m2, want %.4f", test.name, area, test.area)
		}
		if math.Abs(volume-test.volume) > tol*test.volume {
			t.Errorf("%s: volume %.4f m3, want %.4f", test.name, volume, test.volume)
		}
	}
}

// The plain form of loft.top: all lines of the outline, nothing left out, the
// station found by looking through them.
func loftPlain(stations []float64, outlines [][]vec, x, y float64) (float64, bool) {
	for i := 1; i < len(stations); i++ {
		if x < stations[i-1] || x > stations[i] {
			continue
		}
		t := (x - stations[i-1]) / (stations[i] - stations[i-1])
		best, ok := math.Inf(-1), false
		for k := 1; k < len(outlines[i]); k++ {
			a := outlines[i-1][k-1].towards(outlines[i][k-1], t)
			b := outlines[i-1][k].towards(outlines[i][k], t)
			if y < min(a.y, b.y) || y > max(a.y, b.y) {
				continue
			}
			ok = true
			if a.y == b.y {
				best = max(best, a.z, b.z)
				continue
			}
			best = max(best, a.z+(y-a.y)/(b.y-a.y)*(b.z-a.z))
		}
		return best, ok
	}
	return 0, false
}

// Leaving the bottom out and looking stations up must change nothing seen from
// above, at any heel.
func TestLoftAgreesWithPlainForm(t *testing.T) {
	f := form{
		length: 17, beam: 5, depth: 2.8, offsets: smack, turn: 0.3, bulwark: 0.2, coaming: 0.08, side: 0.035,
		holds: []hold{{from: 0.46, to: 0.6, half: 0.34, floor: 0.3}},
	}
	for _, heel := range []float64{0, 0.3, -0.7, 1.1, -1.5} {
		p := pose{heel: heel, trim: 0.02}
		var stations []float64
		var outlines [][]vec
		for u := 0.0; u <= 1; u += 1.0 / 64 {
			stations = append(stations, f.x(u))
			outlines = append(outlines, lean(&p, f.x(u), f.outline(u)))
		}
		l := newLoft(stations, outlines)
		r, missed := l.bounds(), 0
		for i := range 300 {
			for j := range 120 {
				x := r.x0 + (r.x1-r.x0)*(float64(i)+0.37)/300
				y := r.y0 + (r.y1-r.y0)*(float64(j)+0.41)/120
				got, stands := l.top(x, y)
				want, should := loftPlain(stations, outlines, x, y)
				if stands != should || should && math.Abs(got-want) > 1e-6 {
					missed++
				}
			}
		}
		if missed > 0 {
			t.Errorf("heel %.1f rad: %d of 36000 points differ from the plain form", heel, missed)
		}
	}
}

// The plan area of an upright hull is the integral of its breadth (Simpson's
// first rule, as taught for waterplane areas); its volume below the deck plan
// less the flare is bounded by block coefficients of 0.4 and 1.
func TestHullHasThePlanOfItsOffsets(t *testing.T) {
	f := form{length: 20, beam: 6, depth: 3, offsets: coaster, turn: 0.15, side: 0.02}
	body := f.loft(&pose{}, 0, 1)
	area, volume := integrate(body, 0.01)
	const n = 400
	simpson := 0.0
	for i := range n + 1 {
		weight := 2.0
		switch {
		case i == 0 || i == n:
			weight = 1
		case i%2 == 1:
			weight = 4
		}
		simpson += weight * 2 * f.rail(float64(i)/n).y
	}
	simpson *= f.length / n / 3
	if math.Abs(area-simpson) > 0.01*simpson {
		t.Errorf("plan area: got %.2f m2, want %.2f by Simpson's rule", area, simpson)
	}
	if mean := volume / area; mean < 0.8*f.depth || mean > f.depth {
		t.Errorf("mean height of the deck: got %.2f m, want 0.8 to 1 of the depth of %.2f m", mean, f.depth)
	}
}

// A body leaned over keeps the lengths of its sections: heel is a rotation.
func TestLeaningIsARotation(t *testing.T) {
	for _, p := range []pose{{heel: 0.4}, {heel: -1.2}, {heel: 3}} {
		a, b := vec{1, 0.3, 2}, vec{1, -2, 0.5}
		la, lb := p.leaned(a), p.leaned(b)
		want := math.Hypot(a.y-b.y, a.z-b.z)
		if got := math.Hypot(la.y-lb.y, la.z-lb.z); math.Abs(got-want) > 1e-12 {
			t.Errorf("heel %.1f: distance %.6f, want %.6f", p.heel, got, want)
		}
	}
	p := pose{heel: 0.5}
	if down := p.leaned(vec{0, 1, 0}); down.z >= 0 {
		t.Errorf("positive heel puts the starboard side at %.3f m, want it down", down.z)
	}
}
