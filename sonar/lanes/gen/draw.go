package main

import (
	"dryline/seabed/lanes/gen/isa"

	. "github.com/mmcloughlin/avo/build"
	. "github.com/mmcloughlin/avo/operand"
)

// draw holds the constants of drawScalar, in eight lanes of 64 bits. AVX-512 alone multiplies those.
type draw struct{ counts, step, first, second, low, high Mem }

func newDraw() draw {
	const golden uint64 = 0x9e3779b97f4a7c15
	table := func(name string, of func(l uint64) uint64) Mem {
		m := GLOBL(name, RODATA|NOPTR)
		for l := range 8 {
			DATA(8*l, U64(of(uint64(l))))
		}
		return m
	}
	all := func(name string, x uint64) Mem { return table(name, func(uint64) uint64 { return x }) }
	return draw{
		table("drawCounts", func(l uint64) uint64 { return (l + 1) * golden }), all("drawStep", 8*(golden&(1<<61-1))),
		all("drawFirst", 0xbf58476d1ce4e5b9), all("drawSecond", 0x94d049bb133111eb),
		all("drawLow", 1<<24-1), all("drawHigh", (1<<24-1)<<32),
	}
}

func (d draw) write(s isa.Set) {
	TEXT("draw"+s.Name, NOSPLIT, "func(draws *uint32, state uint64, n int)")
	Doc("draw" + s.Name + " is drawScalar for n vectors.")
	Pragma("noescape")
	draws, state, n := Load(Param("draws"), GP64()), Load(Param("state"), GP64()), Load(Param("n"), GP64())
	at, low, high := ZMM(), s.Load(d.low), s.Load(d.high)
	first, second := s.Load(d.first), s.Load(d.second)
	VPBROADCASTQ(state, at)
	VPADDQ(d.counts, at, at)
	Label("vector")
	x := at
	stir := func(shift uint64) isa.Vec { // x ^ (x >> shift)
		y := ZMM()
		VPSRLQ(Imm(shift), x, y)
		VPXORQ(x, y, y)
		return y
	}
	times := func(a, by isa.Vec) isa.Vec {
		y := ZMM()
		VPMULLQ(by, a, y)
		return y
	}
	x = times(stir(30), first)
	x = times(stir(27), second)
	x = stir(31)
	odd := ZMM()
	VPSLLQ(Imm(8), x, odd) // bits 24 to 47 to the upper half
	VPANDQ(high, odd, odd)
	VPANDQ(low, x, x)
	VPORQ(odd, x, x)
	s.Store(x, Mem{Base: draws})
	VPADDQ(d.step, at, at)
	ADDQ(Imm(64), draws)
	DECQ(n)
	JNZ(LabelRef("vector"))
	VZEROUPPER()
	RET()
}
