// Command gen writes the kernels of package lanes for amd64. The scalar form beside
// them is the reference: the same roundings in the same order.
package main

import (
	"unsafe"

	"dryline/seabed/lanes"
	"dryline/seabed/lanes/gen/isa"

	. "github.com/mmcloughlin/avo/build"
	. "github.com/mmcloughlin/avo/operand"
	"github.com/mmcloughlin/avo/reg"
)

func main() {
	ConstraintExpr("amd64,!purego")
	z, slope := lanes.Weights()
	var cubic, gradient [4]Mem
	for k := range cubic {
		cubic[k] = isa.Table("cubic"+string(rune('0'+k)), isa.Floats(z[k]))
		gradient[k] = isa.Table("gradient"+string(rune('0'+k)), isa.Floats(slope[k]))
	}
	var along [16]float32
	for l := range along {
		along[l] = float32(l + 1)
	}
	samples := isa.Table("samples", isa.Floats(along))
	var corners [4]Mem
	for k, further := range []uint32{0, 1, 4, 5} {
		corners[k] = isa.Table("corner"+string(rune('0'+k)), isa.All(further))
	}
	ends := isa.NewEnds()
	const rippleSteps = len(lanes.Profile{}) - 1
	steps, mask := isa.Float("steps", float32(rippleSteps)), isa.Table("mask", isa.All(uint32(rippleSteps-1)))
	order := isa.PairOrder("pairs")
	tops := newTops()
	for _, s := range isa.Sets {
		floor(s, cubic, gradient, samples, corners, ends)
		ripple(s, samples, steps, mask, order)
		seam(s, samples, corners, ends)
		tops.write(s)
	}
	Generate()
}

func floor(s isa.Set, cubic, gradient [4]Mem, samples Mem, corners [4]Mem, ends isa.Ends) {
	TEXT("floor"+s.Name, NOSPLIT, "func(z, slope, heights, places, patch *float32, du, dv float32, n int)")
	Doc("floor" + s.Name + " is floorScalar for n places.")
	Pragma("noescape")
	z, slope := Load(Param("z"), GP64()), Load(Param("slope"), GP64())
	heights, places := Load(Param("heights"), GP64()), Load(Param("places"), GP64())
	patch, n := Load(Param("patch"), GP64()), Load(Param("n"), GP64())
	part := func(m Mem, h int) Mem { return m.Offset(h * s.Bytes()) }
	du, _ := Param("du").Resolve()
	dv, _ := Param("dv").Resolve()
	var us, vs []isa.Vec
	if s.Lanes == 16 { // AVX2 has not registers enough to keep them
		us = append(us, s.Mul(s.Spread(du.Addr), samples))
		vs = append(vs, s.Mul(s.Spread(dv.Addr), samples))
	}
	Label("block")
	for h := range 16 / s.Lanes {
		p := func(k int) isa.Vec { return s.Spread(Mem{Base: heights, Disp: 4 * k}) }
		sum := func(w [4]Mem) isa.Vec {
			v := s.Mul(p(0), part(w[0], h))
			for k := 1; k < 4; k++ {
				v = s.Add(v, s.Mul(p(k), part(w[k], h)))
			}
			return v
		}
		s.Store(sum(gradient), Mem{Base: slope, Disp: h * s.Bytes()})
		place := func(disp int) Mem { return Mem{Base: places, Disp: disp} }
		along := func(kept []isa.Vec, d Mem) isa.Vec {
			if kept != nil {
				return kept[h]
			}
			return s.Mul(s.Spread(d), part(samples, h))
		}
		u := s.Add(s.Spread(place(0)), along(us, du.Addr))
		v := s.Add(s.Spread(place(4)), along(vs, dv.Addr))
		relief := bilinear(s, patch, u, v, place(8), place(12), corners, ends)
		total := s.Add(sum(cubic), s.Mul(s.Spread(place(16)), relief))
		s.Store(total, Mem{Base: z, Disp: h * s.Bytes()})
	}
	ADDQ(Imm(64), z)
	ADDQ(Imm(64), slope)
	ADDQ(Imm(4), heights)
	ADDQ(Imm(20), places)
	DECQ(n)
	JNZ(LabelRef("block"))
	VZEROUPPER()
	RET()
}

func ripple(s isa.Set, samples, steps, mask, order Mem) {
	TEXT("ripple"+s.Name, NOSPLIT, "func(z, along, profile *float32, n int)")
	Doc("ripple" + s.Name + " is rippleScalar for n blocks.")
	Pragma("noescape")
	z, along := Load(Param("z"), GP64()), Load(Param("along"), GP64())
	profile, n := Load(Param("profile"), GP64()), Load(Param("n"), GP64())
	Label("block")
	for h := range 16 / s.Lanes {
		line := func(disp int) isa.Vec { // a value at the node, and what it grows by after it
			from, grow := s.Spread(Mem{Base: along, Disp: disp}), s.Spread(Mem{Base: along, Disp: disp + 4})
			return s.Add(from, s.Mul(grow, samples.Offset(h*s.Bytes())))
		}
		at := s.Mul(line(0), steps)
		i := s.Whole(at)
		past := s.Sub(at, s.Floated(i))
		a, b := s.GatherPairs(profile, 0, 4, s.PairsAt(s.AndLong(i, mask), order))
		height := s.Mul(line(8), s.Add(a, s.Mul(past, s.Sub(b, a))))
		to := Mem{Base: z, Disp: h * s.Bytes()}
		s.Store(s.Add(height, to), to)
	}
	ADDQ(Imm(64), z)
	ADDQ(Imm(16), along)
	DECQ(n)
	JNZ(LabelRef("block"))
	VZEROUPPER()
	RET()
}

// bilinear is the patch at (u, v), counted from a column and a row in memory.
func bilinear(s isa.Set, patch reg.Register, u, v isa.Vec, column, row Mem, corners [4]Mem, ends isa.Ends) isa.Vec {
	i, j := s.Whole(u), s.Whole(v)
	fu, fv := s.Sub(u, s.Floated(i)), s.Sub(v, s.Floated(j))
	square := s.SquareAt(patch, lanes.Stride, lanes.Side-1, column, row, i, j, ends)
	across := func(first, second Mem) isa.Vec {
		a, b := s.Corner(square, first), s.Corner(square, second)
		return s.Add(a, s.Mul(fu, s.Sub(b, a)))
	}
	low, high := across(corners[0], corners[1]), across(corners[2], corners[3])
	return s.Add(low, s.Mul(fv, s.Sub(high, low)))
}

func seam(s isa.Set, samples Mem, corners [4]Mem, ends isa.Ends) {
	one, two, three, zero := isa.Float("one"+s.Name, 1), isa.Float("two"+s.Name, 2), isa.Float("three"+s.Name, 3), isa.Float("zero"+s.Name, 0)
	TEXT("seam"+s.Name, NOSPLIT, "func(z, seams, a, b *float32, du, dv float32, n int)")
	Doc("seam" + s.Name + " is seamScalar for n blocks.")
	Pragma("noescape")
	z, seams := Load(Param("z"), GP64()), Load(Param("seams"), GP64())
	patches := [2]reg.Register{Load(Param("a"), GP64()), Load(Param("b"), GP64())}
	n := Load(Param("n"), GP64())
	du, _ := Param("du").Resolve()
	dv, _ := Param("dv").Resolve()
	at := func(disp int) Mem { return Mem{Base: seams, Disp: disp} }
	Label("block")
	for h := range 16 / s.Lanes {
		along := samples.Offset(h * s.Bytes())
		relief := func(k int) isa.Vec {
			place := k * int(unsafe.Sizeof(lanes.Place{}))
			u := s.Add(s.Spread(at(place)), s.Mul(s.Spread(du.Addr), along))
			v := s.Add(s.Spread(at(place+4)), s.Mul(s.Spread(dv.Addr), along))
			return s.Mul(s.Spread(at(place+16)), bilinear(s, patches[k], u, v, at(place+8), at(place+12), corners, ends))
		}
		first, second := relief(0), relief(1)
		x := s.Add(s.Spread(at(40)), s.Mul(s.Spread(at(44)), along))
		x = s.Most(s.Least(x, one), zero)
		step := s.Mul(s.Mul(x, x), s.Sub(s.Load(three), s.Mul(x, two)))
		share := s.Add(x, s.Mul(s.Spread(at(48)), s.Sub(step, x)))
		rest := s.Sub(s.Load(one), share)
		first = s.Mul(first, rest)
		second = s.Mul(second, share)
		weigh := s.Div(s.Load(one), s.Sqrt(s.Add(s.Mul(rest, rest), s.Mul(share, share))))
		to := Mem{Base: z, Disp: h * s.Bytes()}
		s.Store(s.Add(s.Mul(s.Add(first, second), weigh), to), to)
	}
	ADDQ(Imm(64), z)
	ADDQ(Imm(uint64(unsafe.Sizeof(lanes.Seam{}))), seams)
	DECQ(n)
	JNZ(LabelRef("block"))
	VZEROUPPER()
	RET()
}
