package main

import (
	"dryline/seabed/lanes/gen/isa"

	. "github.com/mmcloughlin/avo/build"
	. "github.com/mmcloughlin/avo/operand"
	"github.com/mmcloughlin/avo/reg"
)

// Register is one of the general ones.
type Register = reg.Register

// deposit holds the constants of depositScalar.
type deposit struct{ one Mem }

func newDeposit() deposit { return deposit{isa.Float("unit", 1)} }

const (
	group   = 8
	records = 16 * 16 // bytes of a block's
	offsets = 16 * 4
)

func (d deposit) write(s isa.Set) {
	TEXT("deposit"+s.Name, 0, "func(bins, blocks *float32, long *uint16, last float32, groups, rest int)")
	Doc("deposit" + s.Name + " is depositScalar for groups of eight blocks and less than one more.")
	Pragma("noescape")
	const line = 64 // bytes; a stack may begin anywhere in one, and a vector over two takes two writes
	local := AllocLocal(group*(records+offsets) + line)
	bins, blocks := Load(Param("bins"), GP64()), Load(Param("blocks"), GP64())
	long, groups := Load(Param("long"), GP64()), Load(Param("groups"), GP64())
	rest := Load(Param("rest"), GP64())
	last, _ := Param("last").Resolve()
	k, record, offset, scratch := GP64(), GP64(), GP64(), GP64()
	LEAQ(local.Offset(line-1), scratch)
	ANDQ(I32(-line), scratch)
	begin := func() {
		MOVQ(scratch, record)
		LEAQ(Mem{Base: scratch, Disp: group * records}, offset)
	}
	lay := func(label string) {
		begin()
		Label(label)
		d.records(s, last.Addr, blocks, long, record, offset)
		DECQ(k)
		JNZ(LabelRef(label))
		begin()
		MOVQ(U32(4), k)
	}
	add := func(record, offset Mem) {
		to, sum := GP64(), XMM()
		MOVL(offset, to.As32())
		VMOVUPS(Mem{Base: bins, Index: to, Scale: 1}, sum)
		VADDPS(record, sum, sum)
		VMOVUPS(sum, Mem{Base: bins, Index: to, Scale: 1})
	}
	next := func(label string) { // in the order in which vectors are turned into records
		ADDQ(Imm(4), offset)
		ADDQ(Imm(64), record)
		DECQ(k)
		JNZ(LabelRef(label))
	}

	TESTQ(groups, groups)
	JZ(LabelRef("less"))
	Label("group")
	MOVQ(U32(group), k)
	lay("records")
	Label("sums")
	for quarter := range 4 {
		for b := range group {
			add(Mem{Base: record, Disp: b*records + 16*quarter}, Mem{Base: offset, Disp: b*offsets + 16*quarter})
		}
	}
	next("sums")
	DECQ(groups)
	JNZ(LabelRef("group"))

	Label("less")
	TESTQ(rest, rest)
	JZ(LabelRef("done"))
	MOVQ(rest, k)
	lay("restRecords")
	Label("restSums")
	for quarter := range 4 {
		label := "quarter" + string(rune('0'+quarter))
		b, from, at := GP64(), GP64(), GP64()
		MOVQ(rest, b)
		MOVQ(record, from)
		MOVQ(offset, at)
		Label(label)
		add(Mem{Base: from, Disp: 16 * quarter}, Mem{Base: at, Disp: 16 * quarter})
		ADDQ(U32(records), from)
		ADDQ(Imm(offsets), at)
		DECQ(b)
		JNZ(LabelRef(label))
	}
	next("restSums")
	Label("done")
	VZEROUPPER()
	RET()
}

// records lays out a block's, and where they go, and moves on to the next.
func (d deposit) records(s isa.Set, last Mem, blocks, long, record, offset Register) {
	for h := range 16 / s.Lanes {
		at := func(disp int) Mem { return Mem{Base: blocks, Disp: disp + h*s.Bytes()} }
		from, to, end := s.Load(at(0)), s.Load(at(64)), s.Spread(last)
		bin := s.Whole(s.Least(from, end))
		s.Store(s.Shift(bin, 4), Mem{Base: offset, Disp: h * s.Bytes()})
		here := s.Floated(bin)
		further := s.Floated(s.Whole(s.Least(to, end)))
		beyond := s.Add(here, d.one)
		share := s.Div(s.Sub(beyond, from), s.Sub(to, from))
		share = s.Pick(s.Equal(further, here), s.Load(d.one), share)
		spans := s.Greater(further, beyond)
		s.StoreMask(spans, Mem{Base: long, Disp: h})
		first, second := s.Drop(spans, s.Load(at(128))), s.Drop(spans, s.Load(at(192)))
		near, near2 := s.Mul(first, share), s.Mul(second, share)
		s.Records(near, near2, s.Sub(first, near), s.Sub(second, near2), func(q int) Mem {
			return Mem{Base: record, Disp: 64*q + h*s.Bytes()}
		})
	}
	ADDQ(U32(256), blocks)
	ADDQ(Imm(2), long)
	ADDQ(U32(records), record)
	ADDQ(Imm(offsets), offset)
}
