package seabed

import "math"

// Tiles are square, tileSize metres on a side, with a node every nodeStep
// metres and a margin so that a cubic never needs a neighbour.
const (
	tileSize   = 32.0
	nodeStep   = 0.25
	nodesPerM  = 1 / nodeStep
	tileNodes  = int(tileSize * nodesPerM)
	tileMargin = 1 // nodes before the first; two follow the last
	tileSide   = tileNodes + 3
)

// TileLimit is how many tiles are kept; see [Spec.Memory] for what they take.
const TileLimit = 1024

// tile is one built square of the floor.
type tile struct {
	z       field
	surface [tileSide * tileSide]surface
}

// surface says what the floor is made of at a node, with the ripples on it that are too
// short for the nodes: which field of them (0 none, else index + 1), its height as a share
// of 255, and its phase wander in 1/256 turns. A ray reads it whole.
type surface struct {
	class        Class
	field, share uint8
	phase        int8
}

// build makes the tile whose south-west corner is (x0, y0).
func (w *World) build(x0, y0 float64) *tile {
	t, s := new(tile), w.borrow()
	w.relief.onto(&s.c, x0, y0)
	s.c.nodes(&t.z, 0, tileSide)
	w.layBedforms(t, s, x0, y0)
	w.laySediments(t, s, x0, y0)
	w.layWaves(t, s, x0, y0)
	w.spare.Store(s)
	for i := range w.objects {
		w.objects[i].scourInto(t, x0, y0)
	}
	for i, z := range t.z {
		t.z[i] = min(z, shallowest)
	}
	return t
}

// shallowest keeps the floor under water whatever an exercise asks, metres.
const shallowest = -0.5

// eachNode calls f with every node's index and position.
func eachNode(x0, y0 float64, f func(n int, x, y float64)) {
	for j := range tileSide {
		y := y0 + float64(j-tileMargin)*nodeStep
		for i := range tileSide {
			f(j*tileSide+i, x0+float64(i-tileMargin)*nodeStep, y)
		}
	}
}

// eachNodeIn is eachNode for the nodes inside a rectangle.
func eachNodeIn(x0, y0, left, bottom, right, top float64, f func(n int, x, y float64)) {
	at := func(v, origin float64) int { return int(math.Ceil((v-origin)*nodesPerM)) + tileMargin }
	i0, i1 := max(at(left, x0), 0), min(at(right, x0), tileSide)
	j0, j1 := max(at(bottom, y0), 0), min(at(top, y0), tileSide)
	for j := j0; j < j1; j++ {
		y := y0 + float64(j-tileMargin)*nodeStep
		for i := i0; i < i1; i++ {
			f(j*tileSide+i, x0+float64(i-tileMargin)*nodeStep, y)
		}
	}
}

func (w *World) layBedforms(t *tile, s *scratch, x0, y0 float64) {
	for k := range w.spec.Bedforms {
		b, st := &w.spec.Bedforms[k], &w.bedforms[k]
		switch b.Kind {
		case Waves, Ripples, SandWaves:
			continue // laid on the sediments
		case Outcrop:
			if s.weigh(&b.Area, &st.areaNoise, x0, y0) {
				w.layOutcrop(t, k, x0, y0, &s.weight)
			}
		default:
			st.stampInto(t, x0, y0)
		}
	}
}

// layOutcrop raises rock ridges and marks as rock what stands above three
// tenths of the outcrop's height.
func (w *World) layOutcrop(t *tile, k int, x0, y0 float64, weight *field) {
	b, st := &w.spec.Bedforms[k], &w.bedforms[k]
	s := 1 / b.Wavelength
	var at []int // columns of the row with any weight
	var wx, wy, r [tileSide]float64
	for j := range tileSide {
		y := y0 + float64(j-tileMargin)*nodeStep
		at = at[:0]
		for i := range tileSide {
			if weight[j*tileSide+i] > 0 {
				at = append(at, i)
			}
		}
		// Noise by noise, so that the processor foresees what each does next.
		each := func(dst *[tileSide]float64, f func(x float64, i int) float64) {
			for _, i := range at {
				dst[i] = f(x0+float64(i-tileMargin)*nodeStep, i)
			}
		}
		// Ridges at the asked wavelength, warped and broken up by rougher stone:
		// rock has no shortest wave that a 0.25 m node could not carry.
		each(&wx, func(x float64, _ int) float64 { return x + 0.35*b.Wavelength*st.noise.Eval2(0.7*x*s+60, 0.7*y*s) })
		each(&wy, func(x float64, _ int) float64 { return y + 0.35*b.Wavelength*st.noise.Eval2(0.7*x*s, 0.7*y*s+80) })
		each(&r, func(_ float64, i int) float64 { return 0.40 * ridge(st.noise.Eval2(wx[i]*s, wy[i]*s)) })
		each(&r, func(x float64, i int) float64 { return r[i] + 0.25*(0.5+0.5*st.noise.Eval2(2.1*x*s+31, 2.1*y*s)) })
		each(&r, func(x float64, i int) float64 { return r[i] + 0.18*math.Abs(st.noise.Eval2(4.7*x*s, 4.7*y*s+17)) })
		each(&r, func(x float64, i int) float64 { return r[i] + 0.10*(0.5+0.5*st.noise.Eval2(9.7*x*s+5, 9.7*y*s)) })
		each(&r, func(x float64, i int) float64 { return r[i] + 0.07*math.Abs(st.noise.Eval2(19*x*s, 19*y*s)) })
		for _, i := range at {
			n := j*tileSide + i
			r := r[i] * float64(weight[n])
			t.z[n] += float32(b.Height * r)
			if r > 0.3 {
				t.surface[n].class = Rock | outcropMark
			}
		}
	}
}

func (st *bedformState) stampInto(t *tile, x0, y0 float64) {
	x1, y1 := x0+tileSize+1, y0+tileSize+1
	st.burrows.stampInto(t, x0, y0)
	for k := range st.furrows {
		st.furrows[k].stampInto(t, x0, y0)
	}
	for k := range st.pits {
		p := &st.pits[k]
		reach := 2 * p.radius
		if p.at.X+reach < x0-1 || p.at.X-reach > x1 || p.at.Y+reach < y0-1 || p.at.Y-reach > y1 {
			continue
		}
		eachNodeIn(x0, y0, p.at.X-reach, p.at.Y-reach, p.at.X+reach, p.at.Y+reach, func(n int, x, y float64) {
			t.z[n] += float32(p.heightAt(x, y))
		})
	}
}
