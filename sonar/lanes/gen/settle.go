package main

import (
	"dryline/seabed/lanes/gen/isa"

	. "github.com/mmcloughlin/avo/build"
	. "github.com/mmcloughlin/avo/operand"
)

// settle holds by lanes the order that four vectors of records, split, are put into.
type settle struct{ order map[int]Mem }

func newSettle() settle {
	var eight, sixteen [16]uint32
	for j := range uint32(16) {
		eight[j] = j%2*4 + j%8/2
		sixteen[j] = j%4*4 + j/4
	}
	return settle{map[int]Mem{8: isa.Table("settleOrder8", eight), 16: isa.Table("settleOrder16", sixteen)}}
}

func (b settle) write(s isa.Set) {
	TEXT("settle"+s.Name, NOSPLIT, "func(first, second, bins, weights, weights2 *float32, n int)")
	Doc("settle" + s.Name + " is settleScalar for n segments; there is a bin before the first.")
	Pragma("noescape")
	first, second, bins := Load(Param("first"), GP64()), Load(Param("second"), GP64()), Load(Param("bins"), GP64())
	weights, weights2, n := Load(Param("weights"), GP64()), Load(Param("weights2"), GP64()), Load(Param("n"), GP64())
	order := s.Load(b.order[s.Lanes])
	const record = 16

	Label("segment")
	w, w2 := s.Spread(Mem{Base: weights}), s.Spread(Mem{Base: weights2})
	for h := range 16 / s.Lanes {
		// Eight bytes before a record lies what the bin before has for this one.
		var sums [4]isa.Vec
		for i := range sums {
			at := h*s.Lanes*record + i*s.Bytes()
			sums[i] = s.Add(s.Load(Mem{Base: bins, Disp: at}), Mem{Base: bins, Disp: at - record/2})
		}
		low, high := s.New(), s.New()
		VUNPCKLPD(sums[1], sums[0], low)
		VUNPCKLPD(sums[3], sums[2], high)
		for _, c := range []struct {
			to   Register
			half uint64
			by   isa.Vec
		}{{first, 0x88, w}, {second, 0xDD, w2}} {
			v := s.New()
			VSHUFPS(Imm(c.half), high, low, v)
			VPERMPS(v, order, v)
			to := Mem{Base: c.to, Disp: h * s.Bytes()}
			s.Store(s.Add(s.Mul(v, c.by), to), to)
		}
	}
	ADDQ(Imm(64), first)
	ADDQ(Imm(64), second)
	ADDQ(U32(16*record), bins)
	ADDQ(Imm(4), weights)
	ADDQ(Imm(4), weights2)
	DECQ(n)
	JNZ(LabelRef("segment"))
	VZEROUPPER()
	RET()
}
