package sonar

import (
	"math"
	"testing"

	"dryline/seabed"
)

// rod is a flat floor with a round rod clear of it in the plane of every ray,
// cut into pieces of a length.
type rod struct {
	plane
	ga, za, gb, zb float64 // its axis
	radius, piece  float64
}

func (f rod) Trace(s *Section, x, y, ux, uy float64) {
	f.plane.Trace(s, x, y, ux, uy)
	n := max(1, int(math.Round(math.Hypot(f.gb-f.ga, f.zb-f.za)/f.piece)))
	dg, dz := (f.gb-f.ga)/float64(n), (f.zb-f.za)/float64(n)
	for i := n - 1; i >= 0; i-- { // not in order of range
		g, z := f.ga+(float64(i)+0.5)*dg, f.za+(float64(i)+0.5)*dz
		s.Raised = append(s.Raised, seabed.Raised{
			G: g, Z0: z - math.Abs(dz)/2 - f.radius, Z1: z + math.Abs(dz)/2 + f.radius,
			Length: dg, Climb: dz, Class: seabed.Steel, Object: 1,
		})
	}
}

// energies are the intensities of a ping from 2 m below the surface, per sample.
func energies(e *Engine, floor Floor) []float64 {
	row := ping(e, floor, 8).Samples[1]
	out := make([]float64, len(row))
	for k, v := range row {
		a := float64(v) / float64(e.channels[1].gain[k])
		out[k] = a * a
	}
	return out
}

// How finely a rod is cut changes neither its echo nor its shadow; and its echo
// has no gaps over the ranges it spans.
func TestRodsDoNotDependOnTheirPieces(t *testing.T) {
	e := newEngine(t, sharp())
	e.SpeckleOff, e.NoiseOff = true, true
	floor := plane{z: -10, class: seabed.Mud}
	clean := energies(e, floor)
	for _, test := range []struct {
		name string
		rod  rod
	}{
		{"rising outwards", rod{ga: 20, za: -9, gb: 26, zb: -5}},
		{"rising steeply outwards", rod{ga: 20, za: -9, gb: 21, zb: -4}},
		{"falling outwards", rod{ga: 20, za: -5, gb: 24, zb: -9.5}},
		{"level along the ray", rod{ga: 15, za: -7, gb: 22, zb: -7}},
		{"along the very ray", rod{ga: 15, za: -2 - 15*0.3, gb: 22, zb: -2 - 22*0.3}},
		{"upright", rod{ga: 20, za: -9, gb: 20, zb: -4}},
	} {
		test.rod.plane, test.rod.radius = floor, 0.05
		var total, shadow [3]float64
		for i, piece := range []float64{0.1, 0.25, 0.5} {
			test.rod.piece = piece
			row := energies(e, test.rod)
			from := math.Hypot(test.rod.ga, test.rod.za+2)
			to := math.Hypot(test.rod.gb, test.rod.zb+2)
			near, far := int(min(from, to)/e.Bin())-5, int(max(from, to)/e.Bin())+5
			for k, v := range row {
				if k >= near && k <= far {
					total[i] += v
				}
				if k > far {
					shadow[i] += clean[k] - v
				}
			}
			for k := near + 9; k < far-9; k++ {
				if row[k] < 0.5*clean[k] || row[k] == 0 {
					t.Errorf("%s, pieces of %g m: a gap in its echo at %.2f m", test.name, piece, float64(k)*e.Bin())
					break
				}
			}
		}
		for i := range total {
			if math.Abs(total[i]/total[1]-1) > 0.05 {
				t.Errorf("%s: echo %g of that in pieces of 0.25 m, want the same within 5 %%", test.name, total[i]/total[1])
			}
			if math.Abs(shadow[i]/shadow[1]-1) > 0.05 {
				t.Errorf("%s: shadow %g of that in pieces of 0.25 m, want the same within 5 %%", test.name, shadow[i]/shadow[1])
			}
		}
	}
}

// By plain geometry, a rod held along the very ray shows its end alone: as much
// across the ray as a short one there.
func TestRodAlongTheRayShowsItsEnd(t *testing.T) {
	e := newEngine(t, sharp())
	e.SpeckleOff, e.NoiseOff = true, true
	floor := plane{z: -40, class: seabed.Mud} // far below
	sum := func(length float64) float64 {
		total := 0.0
		r := rod{plane: floor, ga: 15, za: -2 - 15*0.3, radius: 0.1, piece: 0.25}
		r.gb, r.zb = r.ga+length, r.za-0.3*length
		for k, v := range energies(e, r) {
			if float64(k)*e.Bin() < 30 {
				total += v
			}
		}
		return total
	}
	if short, long := sum(0.05), sum(6); long > 1.35*short || long < short {
		t.Errorf("a rod of 6 m along the ray echoes %.3f times as one of 5 cm, want about once", long/short)
	}
}

// Stretches that touch become one; others stay apart and in order.
func TestBlock(t *testing.T) {
	var all []blocked
	for _, b := range []blocked{{0.4, 0.5}, {0.1, 0.2}, {0.7, 0.8}, {0.2, 0.3}, {0.45, 0.75}, {-1, -0.5}} {
		all = block(all, b.low, b.high)
	}
	want := []blocked{{-1, -0.5}, {0.1, 0.3}, {0.4, 0.8}}
	if len(all) != len(want) {
		t.Fatalf("got %v, want %v", all, want)
	}
	for i := range want {
		if all[i] != want[i] {
			t.Errorf("got %v, want %v", all, want)
		}
	}
}
