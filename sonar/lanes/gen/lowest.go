package main

import (
	"dryline/seabed/lanes/gen/isa"

	. "github.com/mmcloughlin/avo/build"
	. "github.com/mmcloughlin/avo/operand"
)

func writeLowest(s isa.Set, zero Mem) {
	TEXT("lowest"+s.Name, NOSPLIT, "func(lowest, z *float32, n int)")
	Doc("lowest" + s.Name + " is lowestScalar for n vectors, by lane.")
	Pragma("noescape")
	lowest, z, n := Load(Param("lowest"), GP64()), Load(Param("z"), GP64()), Load(Param("n"), GP64())
	v := s.Load(zero)
	Label("vector")
	VMINPS(Mem{Base: z}, v, v)
	ADDQ(Imm(uint64(s.Bytes())), z)
	DECQ(n)
	JNZ(LabelRef("vector"))
	s.Store(v, Mem{Base: lowest})
	VZEROUPPER()
	RET()
}
