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
	steps, one, half, zero, never   Mem
	step, halfStep, stepSquared     Mem
	dips, strengths, rests          Mem
	lastDip, lastStrength, lastRest Mem
	pairs                           Mem
	before, outside                 map[int]Mem // by lanes
	advance                         map[int]Mem // by lanes
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
		pairs:   isa.PairOrder("pairs"),
		before:  map[int]Mem{8: isa.Table("before8", isa.All(4)), 16: isa.Table("before16", isa.All(8))},
		outside: map[int]Mem{8: isa.Table("outside8", isa.All(^uint32(7))), 16: isa.Table("outside16", isa.All(^uint32(15)))},
		advance: map[int]Mem{8: isa.Float("advance8", 8*lanes.Step), 16: isa.Float("advance16", 16*lanes.Step)},
	}
}

// write writes the walk along straight rays or bent ones.
func (w walk) write(s isa.Set, bent bool) {
	name, more := "walk", ""
	if bent {
		name, more = "walkBent", ", launch, arrive, excess *float32"
	}
	TEXT(name+s.Name, NOSPLIT, "func(out, z, inverse, slope *float32, class *uint8"+more+", tables, from *float32, ground, perMetre float32, n int)")
	Doc(name + s.Name + " is " + name + "Scalar for n blocks.")
	Pragma("noescape")
	p := pointers{Set: s, bent: bent}
	if bent {
		p.launch, p.arrive, p.excess = Load(Param("launch"), GP64()), Load(Param("arrive"), GP64()), Load(Param("excess"), GP64())
	}
	p.out, p.z, p.inverse = Load(Param("out"), GP64()), Load(Param("z"), GP64()), Load(Param("inverse"), GP64())
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
	for h := range 16 / s.Lanes {
		w.vector(&p, h)
		s.Grow(p.g, w.advance[s.Lanes])
	}
	ADDQ(U32(256), p.out)
	ADDQ(Imm(64), p.z)
	ADDQ(Imm(64), p.inverse)
	ADDQ(Imm(16), p.class)
	ADDQ(Imm(64), p.slope)
	if bent {
		ADDQ(Imm(64), p.launch)
		ADDQ(Imm(64), p.arrive)
		ADDQ(Imm(64), p.excess)
	}
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
	out, z, inverse, slope, class, tables Register
	z0, r0, t0                            isa.Vec // the vectors before, of which only the last lane counts
	horizon, g                            isa.Vec
	perMetre                              Mem
	bent                                  bool
	launch, arrive, excess                Register
}

// vector writes a vector of a block: all of it or a half.
func (w walk) vector(s *pointers, h int) {
	at := func(base Register, disp int) Mem { return Mem{Base: base, Disp: disp + h*s.Bytes()} }
	var t lanes.Tables

	z1 := s.Load(at(s.z, 0))
	tangent := s.Mul(z1, at(s.inverse, 0))
	r := s.Sqrt(s.Add(s.Mul(s.g, s.g), s.Mul(z1, z1)))
	if s.bent {
		tangent, r = s.Add(tangent, at(s.launch, 0)), s.Add(r, at(s.excess, 0))
	}
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
	rm := s.Mul(s.Add(rb, r), w.half)
	across := s.Mul(rm, length)
	if s.bent { // AVX2 has no register left; the energies go there later
		s.Store(rm, at(s.out, 128))
	}
	each := s.Div(s.Load(w.one), across)
	gm, zm := s.Sub(s.g, w.halfStep), s.Mul(s.Add(zb, z1), w.half)
	VMOVAPS(z1, s.z0)
	VMOVAPS(r, s.r0)
	VMOVAPS(tangent, s.t0)
	if s.bent {
		arrive := s.Add(s.Div(zm, gm), at(s.arrive, 0))
		gm = s.Div(s.Load(at(s.out, 128)), s.Sqrt(s.Add(s.Mul(arrive, arrive), w.one)))
		zm = s.Mul(arrive, gm)
	}
	sine := s.Mul(s.Sub(s.Mul(rise, gm), s.Mul(zm, w.step)), each)
	answers := s.Both(visible, s.Greater(sine, w.zero))
	area := s.Mul(across, lit)
	index := func(x isa.Vec, last Mem) isa.Vec { return s.Whole(s.Most(s.Least(x, last), w.zero)) }
	step := index(s.Mul(sine, w.strengths), w.lastStrength)

	inverseR := s.Mul(each, length)
	rest := index(s.Mul(s.Mul(s.Sub(s.Mul(s.Load(at(s.slope, 0)), gm), zm), inverseR), w.rests), w.lastRest)
	kind := s.WidenBytes(Mem{Base: s.class, Disp: h * s.Lanes})
	area = s.Mul(area, w.lookUp(s, "rest", h, s.AddLong(s.Shift(kind, 8), rest), int(unsafe.Offsetof(t.Rest)))[0])
	depression := s.New() // its sine and one
	if s.bent {
		VMOVAPS(s.Sub(s.Load(w.one), s.Div(s.t0, s.Sqrt(s.Add(s.Mul(s.t0, s.t0), w.one)))), depression)
	} else {
		VMOVAPS(s.Sub(s.Load(w.one), s.Mul(zm, inverseR)), depression)
	}
	dip := index(s.Mul(depression, w.dips), w.lastDip)
	vertical := int(unsafe.Offsetof(t.Vertical))
	v := w.lookUp(s, "dip", h, dip, vertical, vertical+4*lanes.DipSteps)
	b, b2 := s.GatherPairs(s.tables, int(unsafe.Offsetof(t.Strength)), 8, s.PairsAt(s.AddLong(s.Shift(kind, 10), step), w.pairs))
	s.Store(s.Keep(answers, s.Mul(area, s.Mul(v[0], b))), at(s.out, 128))
	s.Store(s.Keep(answers, s.Mul(area, s.Mul(v[1], b2))), at(s.out, 192))
}

// lookUp reads tables that mostly change little from lane to lane.
func (w walk) lookUp(s *pointers, name string, h int, index isa.Vec, tables ...int) []isa.Vec {
	far, done := name+"Far"+string(rune('0'+h)), name+"Done"+string(rune('0'+h))
	values := make([]isa.Vec, len(tables))
	for i := range values {
		values[i] = s.New()
	}
	window := s.WindowAt(index, w.before, w.outside, far)
	for i, at := range tables {
		s.Look(s.tables, at, window, values[i])
	}
	JMP(LabelRef(done))
	Label(far)
	for i, at := range tables {
		s.Gather(s.tables, at, index, values[i])
	}
	Label(done)
	return values
}
