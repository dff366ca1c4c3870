package main

import (
	"unsafe"

	"dryline/seabed/lanes"
	"dryline/seabed/lanes/gen/isa"

	. "github.com/mmcloughlin/avo/build"
	. "github.com/mmcloughlin/avo/operand"
	"github.com/mmcloughlin/avo/reg"
)

// tops holds the constants of raiseScalar.
type tops struct{ lane, count, none, further, word, height, nothing Mem }

func newTops() tops {
	var lane [16]uint32
	var count [16]float32
	for l := range lane {
		lane[l], count[l] = uint32(l), float32(l)
	}
	return tops{
		isa.Table("laneNumber", lane), isa.Table("laneCount", isa.Floats(count)), isa.Float("noCount", 0), isa.Float("blockCount", lanes.Width),
		isa.Table("word", isa.All(1<<16-1)), isa.Table("topHeight", isa.All(lanes.TopHeight)), isa.Float("nothing", lanes.Nothing),
	}
}

func (c tops) write(s isa.Set) {
	TEXT("raise"+s.Name, NOSPLIT, "func(z *float32, by *int32, found, nodes *uint16, course *int32, best *float32, n int)")
	Doc("raise" + s.Name + " is raiseScalar for n blocks.")
	Pragma("noescape")
	z, by, found := Load(Param("z"), GP64()), Load(Param("by"), GP64()), Load(Param("found"), GP64())
	low, course := Load(Param("nodes"), GP64()), Load(Param("course"), GP64())
	best, n := Load(Param("best"), GP64()), Load(Param("n"), GP64())
	var of lanes.Course
	at := func(offset uintptr) Mem { return Mem{Base: course, Disp: int(offset)} }
	wide, base, scale := at(unsafe.Offsetof(of.Wide)), at(unsafe.Offsetof(of.Base)), at(unsafe.Offsetof(of.Scale))
	climb, number := at(unsafe.Offsetof(of.Climb)), at(unsafe.Offsetof(of.Number))

	halves := 16 / s.Lanes
	// Each half of a block has places of its own, a block apart from one to the next.
	du, dv := s.Spread(at(unsafe.Offsetof(of.DU))), s.Spread(at(unsafe.Offsetof(of.DV)))
	var us, vs []isa.Vec
	for h := range halves {
		lane := c.lane.Offset(h * s.Bytes())
		us = append(us, s.AddLong(s.MulLong(du, lane), s.Spread(at(unsafe.Offsetof(of.U)))))
		vs = append(vs, s.AddLong(s.MulLong(dv, lane), s.Spread(at(unsafe.Offsetof(of.V)))))
	}
	du, dv = s.Shift(du, 4), s.Shift(dv, 4)
	high := GP64()
	MOVLQSX(wide, high)
	LEAQ(Mem{Base: low, Index: high, Scale: 2}, high)
	block := s.Load(c.none) // samples before it

	Label("block")
	for h := range halves {
		u, v := us[h], vs[h]
		cell := s.AddLong(s.MulLong(s.ShiftRight(v, 16), s.Spread(wide)), s.ShiftRight(u, 16))
		fu, fv := s.AndLong(u, c.word), s.AndLong(v, c.word)
		VPADDD(du, u, u)
		VPADDD(dv, v, v)
		along := func(row reg.Register) (pair, height isa.Vec) {
			pair = s.GatherWords(row, cell)
			corner, next := s.AndLong(pair, c.height), s.AndLong(s.ShiftRight(pair, 16), c.height)
			return pair, s.AddLong(s.Shift(corner, 16), s.MulLong(fu, s.SubLong(next, corner)))
		}
		pair, a := along(low)
		_, b := along(high)
		rise := s.SubLong(b, a) // up to 30 bits, times 16: in two
		a = s.AddLong(a, s.MulLong(fv, s.ShiftSigned(rise, 16)))
		a = s.AddLong(a, s.ShiftRight(s.MulLong(fv, s.AndLong(rise, c.word)), 16))
		top := s.Add(s.Spread(base), s.Mul(s.Floated(a), s.Spread(scale)))
		top = s.Add(top, s.Mul(s.Add(block, c.count.Offset(h*s.Bytes())), s.Spread(climb)))
		nothing := s.Load(c.nothing)
		broken := s.Signs(s.Shift(pair, 17))
		s.StoreMask(broken, Mem{Base: found, Disp: int(unsafe.Offsetof(lanes.Found{}.Broken)) + h})
		top = s.Pick(broken, nothing, s.Pick(s.Signs(s.Shift(pair, 16)), nothing, top))
		toZ, toBy, toBest := Mem{Base: z, Disp: h * s.Bytes()}, Mem{Base: by, Disp: h * s.Bytes()}, Mem{Base: best, Disp: h * s.Bytes()}
		height := s.Load(toZ)
		higher := s.Greater(top, height)
		s.StoreMask(higher, Mem{Base: found, Disp: int(unsafe.Offsetof(lanes.Found{}.Higher)) + h})
		s.Store(s.Pick(higher, top, height), toZ)
		s.Store(s.Pick(higher, s.Spread(number), s.Load(toBy)), toBy)
		s.Store(s.Most(s.Pick(higher, top, nothing), toBest), toBest)
	}
	s.Grow(block, c.further)
	for _, r := range []reg.Register{z, by} {
		ADDQ(Imm(64), r)
	}
	ADDQ(Imm(uint64(unsafe.Sizeof(lanes.Found{}))), found)
	DECQ(n)
	JNZ(LabelRef("block"))
	VZEROUPPER()
	RET()
}
