package main

import (
	"dryline/seabed/lanes/gen/isa"

	. "github.com/mmcloughlin/avo/build"
	. "github.com/mmcloughlin/avo/operand"
)

func writeConvolve(s isa.Set) {
	TEXT("convolve"+s.Name, NOSPLIT, "func(dst, values, kernel *float32, taps, n int)")
	Doc("convolve" + s.Name + " is convolveScalar for n vectors.")
	Pragma("noescape")
	dst, values, kernel := Load(Param("dst"), GP64()), Load(Param("values"), GP64()), Load(Param("kernel"), GP64())
	taps, n := Load(Param("taps"), GP64()), Load(Param("n"), GP64())
	Label("vector")
	sum, tap := s.New(), GP64()
	// The first product, in place of a sum with nothing.
	VBROADCASTSS(Mem{Base: kernel}, sum)
	VMULPS(Mem{Base: values}, sum, sum)
	MOVQ(U32(1), tap)
	JMP(LabelRef("asked"))
	Label("tap")
	VADDPS(s.Mul(s.Spread(Mem{Base: kernel, Index: tap, Scale: 4}), Mem{Base: values, Index: tap, Scale: 4}), sum, sum)
	INCQ(tap)
	Label("asked")
	CMPQ(tap, taps)
	JLT(LabelRef("tap"))
	s.Store(sum, Mem{Base: dst})
	ADDQ(Imm(uint64(s.Bytes())), dst)
	ADDQ(Imm(uint64(s.Bytes())), values)
	DECQ(n)
	JNZ(LabelRef("vector"))
	VZEROUPPER()
	RET()
}

// writeRings is for both sets: a ring is as long as a vector of AVX2.
func writeRings(s isa.Set) {
	TEXT("addRings"+s.Name, NOSPLIT, "func(dst, factor, rings *float32, n int)")
	Doc("addRings" + s.Name + " is addRingsScalar for n rings.")
	Pragma("noescape")
	dst, factor, rings := Load(Param("dst"), GP64()), Load(Param("factor"), GP64()), Load(Param("rings"), GP64())
	n := Load(Param("n"), GP64())
	Label("ring")
	to := Mem{Base: dst}
	s.Store(s.Add(s.Mul(s.Spread(Mem{Base: rings}), Mem{Base: factor}), to), to)
	ADDQ(Imm(uint64(s.Bytes())), dst)
	ADDQ(Imm(uint64(s.Bytes())), factor)
	ADDQ(Imm(4), rings)
	DECQ(n)
	JNZ(LabelRef("ring"))
	VZEROUPPER()
	RET()
}
