package main

import (
	"unsafe"

	"dryline/seabed/lanes/gen/isa"
	"dryline/sonar/lanes"

	. "github.com/mmcloughlin/avo/build"
	. "github.com/mmcloughlin/avo/operand"
)

// patterns holds the constants of patternsScalar.
type patterns struct {
	nodes, one, half, zero, dips, last, lastButOne, pairs Mem
	advance                                               map[int]Mem // by lanes
}

func newPatterns() patterns {
	const nodeStep = lanes.Width * lanes.Step
	var along [16]float32
	for l := range along {
		along[l] = float32(l) * nodeStep
	}
	return patterns{
		nodes: isa.Table("nodes", isa.Floats(along)),
		one:   isa.Float("nodesOne", 1), half: isa.Float("nodesHalf", 0.5), zero: isa.Float("nodesZero", 0),
		dips: isa.Float("nodesDips", lanes.DipSteps/2), last: isa.Float("nodesLast", lanes.DipSteps-1), lastButOne: isa.Float("nodesLastButOne", lanes.DipSteps-2),
		pairs:   isa.PairOrder("nodesPairs"),
		advance: map[int]Mem{8: isa.Float("nodesAdvance8", 8*nodeStep), 16: isa.Float("nodesAdvance16", 16*nodeStep)},
	}
}

func (p patterns) write(s isa.Set) {
	TEXT("patterns"+s.Name, NOSPLIT, "func(first, second, heights, tables *float32, ground float32, n int)")
	Doc("patterns" + s.Name + " is patternsScalar for 16 n nodes.")
	Pragma("noescape")
	first, second, heights := Load(Param("first"), GP64()), Load(Param("second"), GP64()), Load(Param("heights"), GP64())
	tables, n := Load(Param("tables"), GP64()), Load(Param("n"), GP64())
	ground, _ := Param("ground").Resolve()
	vertical := int(unsafe.Offsetof(lanes.Tables{}.Vertical))
	g := s.Add(s.Spread(ground.Addr), p.nodes)

	Label("nodes")
	for h := range 16 / s.Lanes {
		at := func(base Register) Mem { return Mem{Base: base, Disp: h * s.Bytes()} }
		z := s.Load(at(heights))
		inverseR := s.Div(s.Load(p.one), s.Sqrt(s.Add(s.Mul(g, g), s.Mul(z, z))))
		x := s.Sub(s.Mul(s.Sub(s.Load(p.one), s.Mul(z, inverseR)), p.dips), p.half)
		x = s.Most(s.Least(x, p.last), p.zero)
		i := s.Whole(s.Least(x, p.lastButOne))
		past := s.Sub(x, s.Floated(i))
		pairs := s.PairsAt(i, p.pairs)
		a, a2 := s.GatherPairs(tables, vertical, 8, pairs)
		b, b2 := s.GatherPairs(tables, vertical+8, 8, pairs)
		s.Store(s.Add(a, s.Mul(past, s.Sub(b, a))), at(first))
		s.Store(s.Add(a2, s.Mul(past, s.Sub(b2, a2))), at(second))
		VADDPS(p.advance[s.Lanes], g, g)
	}
	ADDQ(Imm(64), first)
	ADDQ(Imm(64), second)
	ADDQ(Imm(64), heights)
	DECQ(n)
	JNZ(LabelRef("nodes"))
	VZEROUPPER()
	RET()
}
