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
	steps, one, half, zero, never           Mem
	step, halfStep, stepSquared, stride     Mem
	dips, strengths, rests                  Mem
	lastDip, lastStrength, lastRest, pairs_ Mem
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
		pairs_: isa.PairOrder("pairs"),
	}
}

func (w walk) write(s isa.Set) {
	TEXT("walk"+s.Name, NOSPLIT, "func(out, z, inverse, slope *float32, class *uint8, tables, from *float32, ground, perMetre float32, n int)")
	Doc("walk" + s.Name + " is walkScalar for n blocks.")
	Pragma("noescape")
	out, z, inverse, slope := Load(Param("out"), GP64()), Load(Param("z"), GP64()), Load(Param("inverse"), GP64()), Load(Param("slope"), GP64())
	class, tables, from, n := Load(Param("class"), GP64()), Load(Param("tables"), GP64()), Load(Param("from"), GP64()), Load(Param("n"), GP64())
	start, _ := Param("ground").Resolve()
	perMetre, _ := Param("perMetre").Resolve()

	// The vectors before, of which only the last lane counts.
	z0, r0, t0 := s.Spread(Mem{Base: from}), s.Spread(Mem{Base: from, Disp: 4}), s.Spread(Mem{Base: from, Disp: 8})
	horizon := s.Spread(Mem{Base: from, Disp: 12})
	g := s.Add(s.Spread(start.Addr), w.steps)
	advance := isa.Float("advance"+s.Name, float32(s.Lanes)*lanes.Step)

	Label("block")
	for h := range 16 / s.Lanes {
		w.half16(s, h, out, z, inverse, slope, class, tables, z0, r0, t0, horizon, g, perMetre.Addr)
		VADDPS(advance, g, g)
	}
	ADDQ(U32(256), out)
	ADDQ(Imm(64), z)
	ADDQ(Imm(64), inverse)
	ADDQ(Imm(64), slope)
	ADDQ(Imm(16), class)
	DECQ(n)
	JNZ(LabelRef("block"))

	s.StoreLast(z0, Mem{Base: from})
	s.StoreLast(r0, Mem{Base: from, Disp: 4})
	s.StoreLast(t0, Mem{Base: from, Disp: 8})
	s.StoreLast(s.Most(horizon, t0), Mem{Base: from, Disp: 12})
	VZEROUPPER()
	RET()
}

// half16 writes a vector of a block: all of it or a half.
func (w walk) half16(s isa.Set, h int, out, z, inverse, slope, class, tables Register, z0, r0, t0, horizon, g isa.Vec, perMetre Mem) {
	at := func(base Register, disp int) Mem { return Mem{Base: base, Disp: disp + h*s.Bytes()} }
	var t lanes.Tables

	z1 := s.Load(at(z, 0))
	tangent := s.Mul(z1, at(inverse, 0))
	r := s.Sqrt(s.Add(s.Mul(g, g), s.Mul(z1, z1)))
	zb, rb, tb := s.After(z0, z1), s.After(r0, r), s.After(t0, tangent)
	top := s.Most(s.Running(tb, w.never), horizon)
	VMOVAPS(s.Last(top), horizon)

	visible := s.Greater(tangent, top)
	partly := s.Both(visible, s.Less(tb, top))
	lit, near := s.Load(w.one), s.New()
	VMOVAPS(rb, near)
	lit16 := "lit" + string(rune('0'+h))
	s.IfNone(partly, lit16)
	part := s.Div(s.Sub(tangent, top), s.Sub(tangent, tb))
	VMOVAPS(s.Pick(partly, part, lit), lit)
	VMOVAPS(s.Pick(partly, s.Sub(r, s.Mul(part, s.Sub(r, rb))), rb), near)
	Label(lit16)
	scale := s.Spread(perMetre)
	a, c := s.Mul(near, scale), s.Mul(r, scale)
	s.Store(s.Least(a, c), at(out, 0))
	s.Store(s.Most(a, c), at(out, 64))

	rise := s.Sub(z1, zb)
	length := s.Sqrt(s.Add(s.Mul(rise, rise), w.stepSquared))
	rm := s.Mul(s.Add(rb, r), w.half)
	across := s.Mul(rm, length)
	each := s.Div(s.Load(w.one), across)
	inverseR := s.Mul(each, length)
	gm, zm := s.Sub(g, w.halfStep), s.Mul(s.Add(zb, z1), w.half)
	VMOVAPS(z1, z0)
	VMOVAPS(r, r0)
	VMOVAPS(tangent, t0)

	// The second of the two multiplied is as in the scalar form throughout.
	sine := s.Mul(s.Sub(s.Mul(rise, gm), s.Mul(zm, w.step)), each)
	answers := s.Both(visible, s.Greater(sine, w.zero))
	area := s.Mul(across, lit)
	index := func(x isa.Vec, last Mem) isa.Vec { return s.Whole(s.Most(s.Least(x, last), w.zero)) }

	kind := s.WidenBytes(Mem{Base: class, Disp: h * s.Lanes})
	rest := index(s.Mul(s.Mul(s.Sub(s.Mul(s.Load(at(slope, 0)), gm), zm), inverseR), w.rests), w.lastRest)
	area = s.Mul(area, s.Gather(tables, int(unsafe.Offsetof(t.Rest)), s.AddLong(s.Shift(kind, 8), rest)))

	dip := index(s.Mul(s.Sub(s.Load(w.one), s.Mul(zm, inverseR)), w.dips), w.lastDip)
	v, v2 := s.GatherPairs(tables, int(unsafe.Offsetof(t.Vertical)), 8, s.PairsAt(dip, w.pairs_))
	step := index(s.Mul(sine, w.strengths), w.lastStrength)
	b, b2 := s.GatherPairs(tables, int(unsafe.Offsetof(t.Strength)), 8, s.PairsAt(s.AddLong(s.Shift(kind, 10), step), w.pairs_))
	s.Store(s.Keep(answers, s.Mul(area, s.Mul(v, b))), at(out, 128))
	s.Store(s.Keep(answers, s.Mul(area, s.Mul(v2, b2))), at(out, 192))
}
