package main

import (
	"math"
	"unsafe"

	"dryline/seabed/lanes/gen/isa"
	"dryline/sonar/lanes"

	. "github.com/mmcloughlin/avo/build"
	. "github.com/mmcloughlin/avo/operand"
)

// walk holds the constants of walkScalar.
type walk struct {
	steps, one, half, zero, never       Mem
	step, halfStep, stepSquared, stride Mem
	dips, strengths, rests              Mem
	lastDip, lastStrength, lastRest     Mem
	middles, pairs                      Mem
	advance                             map[int]Mem // by lanes
}

func newWalk() walk {
	var along [16]float32
	for l := range along {
		along[l] = float32(l+1) * lanes.Step
	}
	return walk{
		steps: isa.Table("steps", isa.Floats(along)),
		one:   isa.Float("one", 1), half: isa.Float("half", 0.5), zero: isa.Float("zero", 0),
		never: isa.Float("never", float32(math.Inf(-1))),
		step:  isa.Float("step", lanes.Step), halfStep: isa.Float("halfStep", lanes.Step/2), stepSquared: isa.Float("stepSquared", lanes.Step*lanes.Step),
		dips: isa.Float("dips", lanes.DipSteps/2), strengths: isa.Float("strengths", lanes.StrengthSteps), rests: isa.Float("rests", lanes.RestSteps),
		lastDip: isa.Float("lastDip", lanes.DipSteps-1), lastStrength: isa.Float("lastStrength", lanes.StrengthSteps-1), lastRest: isa.Float("lastRest", lanes.RestSteps-1),
		middles: isa.Table("middles", isa.Floats(lanes.Middles())),
		pairs:   isa.PairOrder("pairs"),
		advance: map[int]Mem{8: isa.Float("advance8", 8*lanes.Step), 16: isa.Float("advance16", 16*lanes.Step)},
	}
}

func (w walk) write(s isa.Set, open bool) {
	name, signature := "walk", "func(out, z, inverse, slope *float32, class *uint8, tables, from *float32, ground, perMetre float32, n int)"
	if open {
		name, signature = "walkOpen", "func(out, z, inverse, slope, first, second *float32, class *uint8, tables, from *float32, ground, perMetre float32, n int)"
	}
	TEXT(name+s.Name, NOSPLIT, signature)
	Doc(name + s.Name + " is " + name + "Scalar for n blocks.")
	Pragma("noescape")
	p := pointers{open: open, Set: s}
	p.out, p.z, p.inverse = Load(Param("out"), GP64()), Load(Param("z"), GP64()), Load(Param("inverse"), GP64())
	if open {
		p.first, p.second = Load(Param("first"), GP64()), Load(Param("second"), GP64())
	}
	p.slope = Load(Param("slope"), GP64())
	p.class, p.tables = Load(Param("class"), GP64()), Load(Param("tables"), GP64())
	from, n := Load(Param("from"), GP64()), Load(Param("n"), GP64())
	start, _ := Param("ground").Resolve()
	perMetre, _ := Param("perMetre").Resolve()
	p.perMetre = perMetre.Addr

	p.z0, p.r0, p.t0 = s.Spread(Mem{Base: from}), s.Spread(Mem{Base: from, Disp: 4}), s.Spread(Mem{Base: from, Disp: 8})
	p.horizon = s.Spread(Mem{Base: from, Disp: 12})
	p.g = s.Add(s.Spread(start.Addr), w.steps)

	Label("block")
	if open {
		strength, rest := GP64(), GP64() // rows of the tables
		MOVBLZX(Mem{Base: p.class}, rest.As32())
		SHLQ(Imm(10), rest) // 256 floats
		LEAQ(Mem{Base: p.tables, Index: rest, Scale: 8}, strength)
		ADDQ(p.tables, rest)
		p.strength, p.rest = strength, rest
		ADDQ(Imm(1), p.class)
	}
	for h := range 16 / s.Lanes {
		w.vector(&p, h)
		VADDPS(w.advance[s.Lanes], p.g, p.g)
	}
	ADDQ(U32(256), p.out)
	ADDQ(Imm(64), p.z)
	ADDQ(Imm(64), p.inverse)
	if open {
		ADDQ(Imm(4), p.first)
		ADDQ(Imm(4), p.second)
	} else {
		ADDQ(Imm(16), p.class)
	}
	ADDQ(Imm(64), p.slope)
	DECQ(n)
	JNZ(LabelRef("block"))

	s.StoreLast(p.z0, Mem{Base: from})
	s.StoreLast(p.r0, Mem{Base: from, Disp: 4})
	s.StoreLast(p.t0, Mem{Base: from, Disp: 8})
	s.StoreLast(s.Most(p.horizon, p.t0), Mem{Base: from, Disp: 12})
	VZEROUPPER()
	RET()
}

// pointers are the registers of a walk.
type pointers struct {
	isa.Set
	open                                                                 bool
	out, z, inverse, slope, first, second, class, tables, strength, rest Register
	z0, r0, t0                                                           isa.Vec // the vectors before, of which only the last lane counts
	horizon, g                                                           isa.Vec
	perMetre                                                             Mem
}

// vector writes a vector of a block: all of it or a half.
func (w walk) vector(s *pointers, h int) {
	at := func(base Register, disp int) Mem { return Mem{Base: base, Disp: disp + h*s.Bytes()} }
	var t lanes.Tables

	z1 := s.Load(at(s.z, 0))
	tangent := s.Mul(z1, at(s.inverse, 0))
	r := s.Sqrt(s.Add(s.Mul(s.g, s.g), s.Mul(z1, z1)))
	zb, rb, tb := s.After(s.z0, z1), s.After(s.r0, r), s.After(s.t0, tangent)
	top := s.Most(s.Running(tb, w.never), s.horizon)
	VMOVAPS(s.Last(top), s.horizon)

	visible := s.Greater(tangent, top)
	partly := s.Both(visible, s.Less(tb, top))
	lit, near := s.Load(w.one), s.New()
	VMOVAPS(rb, near)
	wholly := "wholly" + string(rune('0'+h))
	s.IfNone(partly, wholly)
	part := s.Div(s.Sub(tangent, top), s.Sub(tangent, tb))
	VMOVAPS(s.Pick(partly, part, lit), lit)
	VMOVAPS(s.Pick(partly, s.Sub(r, s.Mul(part, s.Sub(r, rb))), rb), near)
	Label(wholly)
	scale := s.Spread(s.perMetre)
	a, c := s.Mul(near, scale), s.Mul(r, scale)
	s.Store(s.Least(a, c), at(s.out, 0))
	s.Store(s.Most(a, c), at(s.out, 64))

	rise := s.Sub(z1, zb)
	length := s.Sqrt(s.Add(s.Mul(rise, rise), w.stepSquared))
	across := s.Mul(s.Mul(s.Add(rb, r), w.half), length)
	each := s.Div(s.Load(w.one), across)
	gm, zm := s.Sub(s.g, w.halfStep), s.Mul(s.Add(zb, z1), w.half)
	VMOVAPS(z1, s.z0)
	VMOVAPS(r, s.r0)
	VMOVAPS(tangent, s.t0)
	sine := s.Mul(s.Sub(s.Mul(rise, gm), s.Mul(zm, w.step)), each)
	answers := s.Both(visible, s.Greater(sine, w.zero))
	area := s.Mul(across, lit)
	index := func(x isa.Vec, last Mem) isa.Vec { return s.Whole(s.Most(s.Least(x, last), w.zero)) }
	step := index(s.Mul(sine, w.strengths), w.lastStrength)

	inverseR := s.Mul(each, length)
	rest := index(s.Mul(s.Mul(s.Sub(s.Mul(s.Load(at(s.slope, 0)), gm), zm), inverseR), w.rests), w.lastRest)
	if s.open {
		area = s.Mul(area, s.Gather(s.rest, int(unsafe.Offsetof(t.Rest)), rest))
		b, b2 := s.GatherPairs(s.strength, int(unsafe.Offsetof(t.Strength)), 8, s.PairsAt(step, w.pairs))
		pattern := func(base Register) isa.Vec {
			f := s.Spread(Mem{Base: base})
			return s.Add(f, s.Mul(s.Sub(s.Spread(Mem{Base: base, Disp: 4}), f), w.middles.Offset(h*s.Bytes())))
		}
		s.Store(s.Keep(answers, s.Mul(area, s.Mul(pattern(s.first), b))), at(s.out, 128))
		s.Store(s.Keep(answers, s.Mul(area, s.Mul(pattern(s.second), b2))), at(s.out, 192))
		return
	}
	kind := s.WidenBytes(Mem{Base: s.class, Disp: h * s.Lanes})
	area = s.Mul(area, s.Gather(s.tables, int(unsafe.Offsetof(t.Rest)), s.AddLong(s.Shift(kind, 8), rest)))
	dip := index(s.Mul(s.Sub(s.Load(w.one), s.Mul(zm, inverseR)), w.dips), w.lastDip)
	v, v2 := s.GatherPairs(s.tables, int(unsafe.Offsetof(t.Vertical)), 8, s.PairsAt(dip, w.pairs))
	b, b2 := s.GatherPairs(s.tables, int(unsafe.Offsetof(t.Strength)), 8, s.PairsAt(s.AddLong(s.Shift(kind, 10), step), w.pairs))
	s.Store(s.Keep(answers, s.Mul(area, s.Mul(v, b))), at(s.out, 128))
	s.Store(s.Keep(answers, s.Mul(area, s.Mul(v2, b2))), at(s.out, 192))
}
