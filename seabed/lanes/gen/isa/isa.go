// Package isa writes a kernel once for two instruction sets: vectors of eight float32
// for AVX2 and of sixteen for AVX-512, by avo. What it emits does the same
// roundings in both. Least and Most choose as the machine does: the second operand
// unless the first is smaller, or larger, so a NaN in the first gives the second.
package isa

import (
	"math"

	. "github.com/mmcloughlin/avo/build"
	. "github.com/mmcloughlin/avo/operand"
	"github.com/mmcloughlin/avo/reg"
)

// Vec is a vector register.
type Vec = reg.VecVirtual

// Set is an instruction set, by how many float32 a vector of it holds: 8 or 16.
type Set struct {
	Lanes int
	Name  string // ends the names of its functions
}

// Sets are those that kernels are written for.
var Sets = []Set{{8, "AVX2"}, {16, "AVX512"}}

// Mask chooses lanes: a vector of all ones and zeros, or a mask register.
type Mask struct {
	v Vec
	k reg.Register
}

func (s Set) wide() bool { return s.Lanes == 16 }

// Bytes is how many a vector takes.
func (s Set) Bytes() int { return 4 * s.Lanes }

// New is a vector not yet set.
func (s Set) New() Vec {
	if s.wide() {
		return ZMM()
	}
	return YMM()
}

// alike are the tables that hold one word in every lane. AVX-512 reads that one alone: the linker lays tables
// at the beginning of 32 bytes, and a vector of 64 that begins in the middle of such a line takes two reads.
var alike = map[string]bool{}

func (s Set) one(from Op) bool {
	m, ok := from.(Mem)
	return ok && s.wide() && alike[m.Symbol.Name]
}

// Table lays down 16 words as constant data.
func Table(name string, words [16]uint32) Mem {
	m := GLOBL(name, RODATA|NOPTR)
	alike[m.Symbol.Name] = words == All(words[0])
	for i, w := range words {
		DATA(4*i, U32(w))
	}
	return m
}

// Floats are the words of 16 float32.
func Floats(f [16]float32) (words [16]uint32) {
	for i, x := range f {
		words[i] = math.Float32bits(x)
	}
	return words
}

// All is one word in every lane.
func All(w uint32) (words [16]uint32) {
	for i := range words {
		words[i] = w
	}
	return words
}

// Float is one float32 in every lane.
func Float(name string, x float32) Mem { return Table(name, All(math.Float32bits(x))) }

// Load reads a vector, Store writes it.
func (s Set) Load(from Op) Vec {
	if s.one(from) {
		return s.Spread(from)
	}
	v := s.New()
	VMOVUPS(from, v)
	return v
}

// Store writes a vector to memory.
func (s Set) Store(v Vec, to Mem) { VMOVUPS(v, to) }

// Spread fills a vector with one float32 in memory.
func (s Set) Spread(from Op) Vec {
	v := s.New()
	VBROADCASTSS(from, v)
	return v
}

func (s Set) two(f func(...Op), a Vec, b Op) Vec {
	v := s.New()
	f(b, a, v)
	return v
}

// either is two, by the form for one word in every lane where that is what b is.
func (s Set) either(f, spread func(...Op), a Vec, b Op) Vec {
	if s.one(b) {
		f = spread
	}
	return s.two(f, a, b)
}

// Add, Sub, Mul, Div, Least and Most are a op b.
func (s Set) Add(a Vec, b Op) Vec   { return s.either(VADDPS, VADDPS_BCST, a, b) }
func (s Set) Sub(a Vec, b Op) Vec   { return s.either(VSUBPS, VSUBPS_BCST, a, b) }
func (s Set) Mul(a Vec, b Op) Vec   { return s.either(VMULPS, VMULPS_BCST, a, b) }
func (s Set) Div(a Vec, b Op) Vec   { return s.either(VDIVPS, VDIVPS_BCST, a, b) }
func (s Set) Least(a Vec, b Op) Vec { return s.either(VMINPS, VMINPS_BCST, a, b) }
func (s Set) Most(a Vec, b Op) Vec  { return s.either(VMAXPS, VMAXPS_BCST, a, b) }

// Grow adds b to v where it is.
func (s Set) Grow(v Vec, b Op) {
	if s.one(b) {
		VADDPS_BCST(b, v, v)
		return
	}
	VADDPS(b, v, v)
}

// Sqrt is the square root.
func (s Set) Sqrt(a Vec) Vec {
	v := s.New()
	VSQRTPS(a, v)
	return v
}

// Whole cuts floats to int32.
func (s Set) Whole(a Vec) Vec {
	v := s.New()
	VCVTTPS2DQ(a, v)
	return v
}

// Floated makes floats of int32.
func (s Set) Floated(a Vec) Vec {
	v := s.New()
	VCVTDQ2PS(a, v)
	return v
}

// AddLong is the sum of int32.
func (s Set) AddLong(a Vec, b Op) Vec { return s.either(VPADDD, VPADDD_BCST, a, b) }

// AndLong is the bits that int32 have in common.
func (s Set) AndLong(a Vec, b Op) Vec {
	if s.wide() {
		return s.either(VPANDD, VPANDD_BCST, a, b)
	}
	v := s.New()
	VPAND(b, a, v)
	return v
}

// Shift moves int32 to the left by bits.
func (s Set) Shift(a Vec, bits int) Vec {
	v := s.New()
	VPSLLD(Imm(uint64(bits)), a, v)
	return v
}

// ShiftRight shifts int32 to the right by bits.
func (s Set) ShiftRight(a Vec, bits int) Vec {
	v := s.New()
	VPSRLD(Imm(uint64(bits)), a, v)
	return v
}

// SubLong and MulLong are of int32, what does not fit cut off.
func (s Set) SubLong(a Vec, b Op) Vec { return s.either(VPSUBD, VPSUBD_BCST, a, b) }
func (s Set) MulLong(a Vec, b Op) Vec { return s.either(VPMULLD, VPMULLD_BCST, a, b) }

// ShiftSigned is ShiftRight that keeps the sign.
func (s Set) ShiftSigned(a Vec, bits int) Vec {
	v := s.New()
	VPSRAD(Imm(uint64(bits)), a, v)
	return v
}

// Signs chooses the lanes below zero. Good for Pick and StoreMask alone: of AVX2 the other bits are
// not those of a mask.
func (s Set) Signs(a Vec) Mask {
	if s.wide() {
		k := K()
		VPMOVD2M(a, k)
		return Mask{k: k}
	}
	return Mask{v: a}
}

// StoreWords writes int32, of 16 bits each, as words.
func (s Set) StoreWords(a Vec, to Mem) {
	if s.wide() {
		half := YMM()
		VPMOVDW(a, half)
		VMOVDQU(half, to)
		return
	}
	v := s.New()
	VPACKUSDW(a, a, v)
	VPERMQ(Imm(0x08), v, v)
	VMOVDQU(v.(interface{ AsX() reg.Register }).AsX(), to)
}

// Split parts pairs, in two vectors, into all their firsts and all their seconds. order is
// that of [PairOrder], needed by AVX-512.
func (s Set) Split(a, b Vec, order Mem) (first, second Vec) {
	part := func(half uint64) Vec {
		v := s.New()
		VSHUFPS(Imm(half), b, a, v)
		if s.wide() {
			by := s.Load(order)
			VPERMQ(v, by, v)
		} else {
			VPERMQ(Imm(0xD8), v, v)
		}
		return v
	}
	return part(0x88), part(0xDD)
}

// WidenBytes widens bytes in memory to int32.
func (s Set) WidenBytes(from Op) Vec {
	v := s.New()
	VPMOVZXBD(from, v)
	return v
}

// Comparisons, ordered and quiet: false for NaN.
const (
	less    = 0x11
	greater = 0x1e
	equal   = 0x00
)

func (s Set) compare(a Vec, b Op, how uint64) Mask {
	if s.wide() {
		k := K()
		if s.one(b) {
			VCMPPS_BCST(Imm(how), b, a, k)
		} else {
			VCMPPS(Imm(how), b, a, k)
		}
		return Mask{k: k}
	}
	v := s.New()
	VCMPPS(Imm(how), b, a, v)
	return Mask{v: v}
}

// Less, Greater and Equal compare a with b.
func (s Set) Less(a Vec, b Op) Mask    { return s.compare(a, b, less) }
func (s Set) Greater(a Vec, b Op) Mask { return s.compare(a, b, greater) }
func (s Set) Equal(a Vec, b Op) Mask   { return s.compare(a, b, equal) }

// Both is the lanes chosen by both masks.
func (s Set) Both(a, b Mask) Mask {
	if s.wide() {
		k := K()
		KANDW(b.k, a.k, k)
		return Mask{k: k}
	}
	v := s.New()
	VANDPS(b.v, a.v, v)
	return Mask{v: v}
}

// Pick is yes in the lanes chosen and no in the others.
func (s Set) Pick(m Mask, yes, no Vec) Vec {
	v := s.New()
	if s.wide() {
		VBLENDMPS(yes, no, m.k, v)
	} else {
		VBLENDVPS(m.v, yes, no, v)
	}
	return v
}

// Keep is zero where a mask does not choose.
func (s Set) Keep(m Mask, a Vec) Vec {
	v := s.New()
	if s.wide() {
		VMOVAPS_Z(a, m.k, v)
	} else {
		VANDPS(a, m.v, v)
	}
	return v
}

// Drop is zero where a mask chooses.
func (s Set) Drop(m Mask, a Vec) Vec {
	v := s.New()
	if s.wide() {
		k := K()
		KNOTW(m.k, k)
		VMOVAPS_Z(a, k, v)
	} else {
		VANDNPS(a, m.v, v)
	}
	return v
}

// StoreMask writes a mask as bits.
func (s Set) StoreMask(m Mask, to Mem) {
	r := GP32()
	if s.wide() {
		KMOVW(m.k, r)
		MOVW(r.As16(), to)
	} else {
		VMOVMSKPS(m.v, r)
		MOVB(r.As8(), to)
	}
}

// IfNone goes to a label if a mask chooses nothing.
func (s Set) IfNone(m Mask, label string) {
	if s.wide() {
		KORTESTW(m.k, m.k)
	} else {
		VTESTPS(m.v, m.v)
	}
	JZ(LabelRef(label))
}

// Gather reads float32 at base + disp + 4 index into v.
func (s Set) Gather(base reg.Register, disp int, index, v Vec) {
	s.gather(VGATHERDPS, Mem{Base: base, Disp: disp, Index: index, Scale: 4}, v)
}

// GatherWords reads two neighbouring uint16 at base + 2 index as one int32, the first its lower half.
func (s Set) GatherWords(base reg.Register, index Vec) Vec {
	v := s.New()
	s.gather(VPGATHERDD, Mem{Base: base, Index: index, Scale: 2}, v)
	return v
}

func (s Set) gather(f func(a, b, c Op), at Mem, v Vec) {
	VXORPS(v.(interface{ AsY() reg.Register }).AsY(), v.(interface{ AsY() reg.Register }).AsY(), v.(interface{ AsY() reg.Register }).AsY()) // waits for nothing older
	if s.wide() {
		k := K()
		KXNORW(k, k, k)
		f(at, k, v)
		return
	}
	ones := YMM()
	VPCMPEQD(ones, ones, ones)
	f(ones, at, v)
}

// Window is where a table is to be read of which all lanes want entries close together: one
// load and a permutation then do for a gather, which costs several times as much.
type Window struct {
	first reg.GPVirtual // the index of the first lane
	past  Vec           // of the other indices past the beginning of the window
}

// WindowAt readies an index, not below zero, for [Set.Look], and goes to a label if
// the lanes do not lie in one window, which begins half a vector before the first lane's
// entry. outside is all ones but for the bits of a lane's number, before half a vector,
// each by lanes and in every lane.
func (s Set) WindowAt(index Vec, before, outside map[int]Mem, label string) Window {
	w := Window{first: GP32(), past: s.New()}
	low := index.(interface{ AsX() reg.Register }).AsX()
	VMOVD(low, w.first)
	VPBROADCASTD(low, w.past)
	VPSUBD(w.past, index, w.past)
	w.past = s.AddLong(w.past, before[s.Lanes])
	if s.wide() {
		k := K()
		VPTESTMD_BCST(outside[s.Lanes], w.past, k)
		KORTESTW(k, k)
	} else {
		VPTEST(outside[s.Lanes], w.past)
	}
	JNZ(LabelRef(label))
	return w
}

// Look reads float32 at base + disp + 4 index into v. Half a vector before and a vector after
// what is asked for is read too.
func (s Set) Look(base reg.Register, disp int, w Window, v Vec) {
	VMOVUPS(Mem{Base: base, Disp: disp - s.Bytes()/2, Index: w.first.As64(), Scale: 4}, v)
	VPERMPS(v, w.past, v)
}

// Square is the four by four float32 about each eight lanes, for lanes that go evenly through
// a plane and no further than two entries along either side: four loads do for sixteen.
type Square struct {
	low, high Vec // AVX2: its first two rows, its last two. AVX-512: that of the first eight lanes, that of the last
	at        Vec // in them, of every lane
}

// Ends are the constants of [Set.SquareAt].
type Ends struct{ first, last, upper Mem }

// NewEnds lays them down.
func NewEnds() Ends {
	var e [3][16]uint32
	for l := range uint32(16) {
		e[0][l], e[1][l], e[2][l] = l&8, l&8+7, l&8*2
	}
	return Ends{Table("firsts", e[0]), Table("lasts", e[1]), Table("uppers", e[2])}
}

// SquareAt reads the squares about columns i and rows j, counted from a column and a row
// in memory, in a plane whose rows are stride long, where both are taken by mask.
func (s Set) SquareAt(plane reg.Register, stride int, mask uint32, column, row Mem, i, j Vec, e Ends) Square {
	least := func(i Vec) Vec {
		a, b := s.New(), s.New()
		VPERMD(i, s.Load(e.first), a)
		VPERMD(i, s.Load(e.last), b)
		VPMINSD(b, a, a)
		return a
	}
	i0, j0 := least(i), least(j)
	q := Square{low: s.New(), high: s.New(), at: s.New()}
	read := func(i0, j0 reg.Register) (at reg.GPVirtual) {
		c, r := GP32(), GP32()
		VMOVD(i0, c)
		VMOVD(j0, r)
		ADDL(column, c)
		ADDL(row, r)
		ANDL(U32(mask), c)
		ANDL(U32(mask), r)
		IMUL3L(U32(uint32(stride)), r, r)
		ADDL(c, r)
		return r
	}
	from := func(r reg.GPVirtual, n int) Mem {
		return Mem{Base: plane, Disp: 4 * stride * n, Index: r.As64(), Scale: 4}
	}
	asX := func(v Vec) reg.Register { return v.(interface{ AsX() reg.Register }).AsX() }
	first := read(asX(i0), asX(j0))
	VPSUBD(i0, i, q.at)
	rows := s.New()
	VPSUBD(j0, j, rows)
	VPSLLD(Imm(2), rows, rows)
	VPADDD(rows, q.at, q.at)
	if !s.wide() {
		// Broadcast, as a write of half a register leaves the generator to keep the other.
		VBROADCASTF128(from(first, 0), q.low)
		VINSERTF128(Imm(1), from(first, 1), q.low, q.low)
		VBROADCASTF128(from(first, 2), q.high)
		VINSERTF128(Imm(1), from(first, 3), q.high, q.high)
		return q
	}
	VPADDD(e.upper, q.at, q.at)
	i1, j1 := YMM(), YMM()
	VEXTRACTI64X4(Imm(1), i0, i1)
	VEXTRACTI64X4(Imm(1), j0, j1)
	second := read(i1.AsX(), j1.AsX())
	for _, half := range []struct {
		at reg.GPVirtual
		v  Vec
	}{{first, q.low}, {second, q.high}} {
		VBROADCASTF32X4(from(half.at, 0), half.v)
		VINSERTF32X4(Imm(1), from(half.at, 1), half.v, half.v)
		VINSERTF32X4(Imm(2), from(half.at, 2), half.v, half.v)
		VINSERTF32X4(Imm(3), from(half.at, 3), half.v, half.v)
	}
	return q
}

// Corner is the entry so many further, columns and four times rows.
func (s Set) Corner(q Square, further Mem) Vec {
	at, v := s.AddLong(q.at, further), s.New()
	if s.wide() {
		VPERMI2PS(q.high, q.low, at)
		return at
	}
	low := s.New()
	VPERMPS(q.low, at, low)
	VPERMPS(q.high, at, v)
	VPSLLD(Imm(28), at, at) // in the last two rows or not, as a sign
	VBLENDVPS(at, v, low, v)
	return v
}

// Pairs is where pairs of neighbouring float32 are to be read.
type Pairs struct{ low, high Vec }

// PairsAt readies an index, in lanes, for [Set.GatherPairs]. order is that of
// [PairOrder], needed by AVX-512.
func (s Set) PairsAt(index Vec, order Mem) Pairs {
	sorted := s.New()
	if s.wide() {
		by := s.Load(order)
		VPERMQ(index, by, sorted)
		high := YMM()
		VEXTRACTI64X4(Imm(1), sorted, high)
		return Pairs{sorted, high}
	}
	VPERMQ(Imm(0xD8), index, sorted)
	high := XMM()
	VEXTRACTI128(Imm(1), sorted, high)
	return Pairs{sorted, high}
}

// PairOrder lays down the order in which AVX-512 reads pairs: so that splitting them
// in each quarter of the vector leaves the lanes in theirs.
func PairOrder(name string) Mem {
	m := GLOBL(name, RODATA|NOPTR)
	for i, q := range []uint64{0, 2, 4, 6, 1, 3, 5, 7} {
		DATA(8*i, U64(q))
	}
	return m
}

// GatherPairs reads two neighbouring float32 at base + disp + scale index for every lane.
func (s Set) GatherPairs(base reg.Register, disp int, scale uint8, p Pairs) (first, second Vec) {
	at := func(index reg.Register) Mem { return Mem{Base: base, Disp: disp, Index: index, Scale: scale} }
	a, b := s.New(), s.New()
	low := p.low.(interface{ AsX() reg.Register }).AsX()
	if s.wide() {
		low = p.low.(interface{ AsY() reg.Register }).AsY()
	}
	s.gather(VGATHERDPD, at(low), a)
	s.gather(VGATHERDPD, at(p.high), b)
	first, second = s.New(), s.New()
	VSHUFPS(Imm(0x88), b, a, first)
	VSHUFPS(Imm(0xDD), b, a, second)
	return first, second
}

// After is a vector one lane later: before's last lane, then all of a but its last.
func (s Set) After(before, a Vec) Vec {
	v := s.New()
	if s.wide() {
		VALIGND(Imm(15), before, a, v)
		return v
	}
	VPERM2F128(Imm(0x21), a, before, v)
	w := s.New()
	VPALIGNR(Imm(12), v, a, w)
	return w
}

// Running is the largest of a lane and all before it. least is minus infinity in
// every lane, for AVX2.
func (s Set) Running(a Vec, least Mem) Vec {
	step := func(x Vec, order uint64) Vec {
		y := s.New()
		VPERMILPS(Imm(order), x, y)
		return s.Most(x, y)
	}
	x := step(step(a, 0b10_01_00_00), 0b01_00_01_00)
	if !s.wide() {
		ends, y := s.New(), s.New()
		VPERMILPS(Imm(0xFF), x, ends)
		bound := s.Load(least)
		VPERM2F128(Imm(0x20), ends, bound, y) // nothing, then the end of the lower half
		return s.Most(x, y)
	}
	for _, by := range []struct{ order, lanes uint64 }{{0b10_01_00_00, 0xFFF0}, {0b01_00_00_00, 0xFF00}} {
		ends, y := s.New(), s.New()
		VPERMILPS(Imm(0xFF), x, ends)
		VSHUFF32X4(Imm(by.order), ends, ends, y)
		r, k, z := GP32(), K(), s.New()
		MOVL(U32(uint32(by.lanes)), r)
		KMOVW(r, k)
		VMOVAPS(x, z)
		VMAXPS(y, x, k, z)
		x = z
	}
	return x
}

// Last fills a vector with the last lane of another.
func (s Set) Last(a Vec) Vec {
	v := s.New()
	x := XMM()
	if s.wide() {
		VEXTRACTF32X4(Imm(3), a, x)
	} else {
		VEXTRACTF128(Imm(1), a, x)
	}
	VPERMILPS(Imm(0xFF), x, x)
	VBROADCASTSS(x, v)
	return v
}

// StoreLast writes the last lane.
func (s Set) StoreLast(a Vec, to Mem) {
	x := XMM()
	if s.wide() {
		VEXTRACTF32X4(Imm(3), a, x)
	} else {
		VEXTRACTF128(Imm(1), a, x)
	}
	VEXTRACTPS(Imm(3), x, to)
}

// Records turns four vectors into records of four float32, and writes them to where(q):
// lanes q, q+4, q+8 ... one after another.
func (s Set) Records(a, b, c, d Vec, where func(q int) Mem) {
	for half, unpack := range []func(...Op){VUNPCKLPS, VUNPCKHPS} {
		ab, cd := s.two(unpack, a, b), s.two(unpack, c, d)
		s.Store(s.two(VUNPCKLPD, ab, cd), where(2*half))
		s.Store(s.two(VUNPCKHPD, ab, cd), where(2*half+1))
	}
}
