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
	TEXT("deposit"+s.Name, 0, "func(bins, blocks *float32, long *uint16, last float32, groups int)")
	Doc("deposit" + s.Name + " is depositScalar for groups of eight blocks.")
	Pragma("noescape")
	scratch := AllocLocal(group * (records + offsets))
	bins, blocks := Load(Param("bins"), GP64()), Load(Param("blocks"), GP64())
	long, groups := Load(Param("long"), GP64()), Load(Param("groups"), GP64())
	last, _ := Param("last").Resolve()

	Label("group")
	k, record, offset := GP64(), GP64(), GP64()
	LEAQ(scratch, record)
	LEAQ(scratch.Offset(group*records), offset)
	MOVQ(U32(group), k)
	Label("records")
	for h := range 16 / s.Lanes {
		at := func(disp int) Mem { return Mem{Base: blocks, Disp: disp + h*s.Bytes()} }
		from, to, end := s.Load(at(0)), s.Load(at(64)), s.Spread(last.Addr)
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
	DECQ(k)
	JNZ(LabelRef("records"))

	LEAQ(scratch, record)
	LEAQ(scratch.Offset(group*records), offset)
	MOVQ(U32(4), k)
	Label("sums")
	for quarter := range 4 {
		for b := range group {
			to, sum := GP64(), XMM()
			MOVL(Mem{Base: offset, Disp: b*offsets + 16*quarter}, to.As32())
			VMOVUPS(Mem{Base: bins, Index: to, Scale: 1}, sum)
			VADDPS(Mem{Base: record, Disp: b*records + 16*quarter}, sum, sum)
			VMOVUPS(sum, Mem{Base: bins, Index: to, Scale: 1})
		}
	}
	ADDQ(Imm(4), offset)
	ADDQ(Imm(64), record)
	DECQ(k)
	JNZ(LabelRef("sums"))
	DECQ(groups)
	JNZ(LabelRef("group"))
	VZEROUPPER()
	RET()
}
