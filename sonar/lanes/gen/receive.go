package main

import (
	"dryline/seabed/lanes/gen/isa"

	. "github.com/mmcloughlin/avo/build"
	. "github.com/mmcloughlin/avo/operand"
)

// receive holds the constants of receiveScalar.
type receive struct{ half, zero, field, order Mem }

func newReceive() receive {
	return receive{isa.Float("countHalf", 0.5), isa.Float("nothing", 0), isa.Table("fieldMask", isa.All(1<<12-1)), isa.PairOrder("receiveOrder")}
}

func (c receive) write(s isa.Set) {
	TEXT("receive"+s.Name, NOSPLIT, "func(dst *uint16, echo, stray, gain *float32, first, second *complex64, a, b, noise float32, draws *uint32, fields *complex64, full float32, n int)")
	Doc("receive" + s.Name + " is receiveScalar for n vectors.")
	Pragma("noescape")
	dst, echo, stray := Load(Param("dst"), GP64()), Load(Param("echo"), GP64()), Load(Param("stray"), GP64())
	gain, first, second := Load(Param("gain"), GP64()), Load(Param("first"), GP64()), Load(Param("second"), GP64())
	draws, fields, n := Load(Param("draws"), GP64()), Load(Param("fields"), GP64()), Load(Param("n"), GP64())
	spread := func(name string) isa.Vec {
		at, err := Param(name).Resolve()
		if err != nil {
			panic(err)
		}
		return s.Spread(at.Addr)
	}
	a, b, noise, full := spread("a"), spread("b"), spread("noise"), spread("full")

	Label("vector")
	var ground [2]isa.Vec
	for h := range ground {
		ground[h] = s.Add(s.Mul(a, Mem{Base: first, Disp: h * s.Bytes()}), s.Mul(b, Mem{Base: second, Disp: h * s.Bytes()}))
	}
	re, im := s.Split(ground[0], ground[1], c.order)
	draw := s.Load(Mem{Base: draws})
	field := func(index isa.Vec) (re, im isa.Vec) {
		return s.GatherPairs(fields, 0, 8, s.PairsAt(index, c.order))
	}
	nre, nim := field(s.AndLong(draw, c.field))
	nre2, nim2 := field(s.AndLong(s.ShiftRight(draw, 12), c.field))
	heard := s.Sqrt(s.Load(Mem{Base: echo}))
	hiss := s.Sqrt(s.Add(noise, Mem{Base: stray}))
	re = s.Add(s.Mul(heard, re), s.Mul(hiss, s.Add(nre, nre2)))
	im = s.Add(s.Mul(heard, im), s.Mul(hiss, s.Add(nim, nim2)))
	v := s.Sqrt(s.Add(s.Mul(re, re), s.Mul(im, im)))
	v = s.Add(s.Mul(v, Mem{Base: gain}), c.half)
	s.StoreWords(s.Whole(s.Least(v, full)), Mem{Base: dst})
	for _, by := range []struct {
		r     Register
		bytes int
	}{{dst, 2 * s.Lanes}, {echo, s.Bytes()}, {stray, s.Bytes()}, {gain, s.Bytes()}, {draws, s.Bytes()}, {first, 2 * s.Bytes()}, {second, 2 * s.Bytes()}} {
		ADDQ(U32(uint32(by.bytes)), by.r)
	}
	DECQ(n)
	JNZ(LabelRef("vector"))
	VZEROUPPER()
	RET()

	TEXT("gather"+s.Name, NOSPLIT, "func(dst, energy, factor, left *float32, n int)")
	Doc("gather" + s.Name + " is gatherScalar for n segments.")
	Pragma("noescape")
	dst, energy, factor := Load(Param("dst"), GP64()), Load(Param("energy"), GP64()), Load(Param("factor"), GP64())
	left, n := Load(Param("left"), GP64()), Load(Param("n"), GP64())
	zero := s.Load(c.zero)
	Label("segment")
	each := s.Spread(Mem{Base: left})
	for h := range 16 / s.Lanes {
		at := func(r Register) Mem { return Mem{Base: r, Disp: h * s.Bytes()} }
		s.Store(s.Mul(s.Mul(s.Most(s.Load(at(energy)), zero), at(factor)), each), at(dst))
	}
	for _, r := range []Register{dst, energy, factor} {
		ADDQ(Imm(64), r)
	}
	ADDQ(Imm(4), left)
	DECQ(n)
	JNZ(LabelRef("segment"))
	VZEROUPPER()
	RET()
}
