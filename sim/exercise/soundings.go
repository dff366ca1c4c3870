package exercise

import (
	"math"

	"dryline/seabed"
	"dryline/seabed/chance"
)

// Soundings are the depths that are charted: of a coarse survey before, on a grid, and all that is known
// of the floor before the sonar has seen it. They are numbers; where they come from is not in here.
//
// The survey sounds the relief: waves of it, slopes and channels. Bedforms, roughness and what lies on
// the floor are too small for its soundings. It is good to the total vertical uncertainty of IHO S-44, order
// 1b, edition 6.1.0, table 1 and 3.2.3: within sqrt(a^2 + (b d)^2) of the truth in 95 of 100 soundings, a 0.5 m
// and b 0.013. Errors are normal and each on its own; those that soundings have in common, of
// the tide and of sound, are left out. The soundings lie as far apart as S-44, 3.5.2, lets them where
// the floor is not covered whole: three times the depth, or 25 m if that is more.
type Soundings struct {
	X0, Y0 float64 // of the first, metres
	Step   float64 // from one to the next, east and north, metres
	NX, NY int
	Depth  []float64 // below the still water, row by row from the south, metres, to a decimetre
}

// Errors of order 1b: see [Soundings].
const (
	soundingA, soundingB = 0.5, 0.013
	written              = 0.1 // depths are written to it, metres
)

// SoundingError is within how far of the truth 95 of 100 soundings of a depth are, metres.
func SoundingError(depth float64) float64 { return math.Hypot(soundingA, soundingB*depth) }

// Sound has the sea floor of an exercise sounded: it and some way about it, where she turns. The
// errors draw from a stream of their own.
func (ex *Exercise) Sound(seeds Seeds) Soundings {
	const most = 120 // on a side
	spec := &ex.Seabed
	room := ex.Plan.RunIn + 2*ex.Plan.TurnRadius + 100
	wide := max(spec.East, spec.North) + 2*room
	step := max(math.Round(max(3*spec.Depth, 25)/5)*5, math.Ceil(wide/most/5)*5)
	n := math.Ceil(room / step)
	s := Soundings{X0: -n * step, Y0: -n * step, Step: step}
	s.NX, s.NY = int(math.Ceil((spec.East+room)/step+n))+1, int(math.Ceil((spec.North+room)/step+n))+1
	floor := seabed.ReliefOf(spec, seeds.Ground)
	rng := chance.Stream(seeds.Ground, "chart/soundings")
	for j := range s.NY {
		for i := range s.NX {
			d := -floor(s.X0+float64(i)*step, s.Y0+float64(j)*step)
			bound := SoundingError(d) / 1.96
			// What writing it to a decimetre adds is taken off: 95 of 100 are within the bound as written.
			d += rng.NormFloat64() * math.Sqrt(bound*bound-written*written/12)
			s.Depth = append(s.Depth, max(math.Round(d/written)*written, 0))
		}
	}
	return s
}

// DepthAt is the charted depth at a place, metres, evenly between the soundings about it; known is false
// where none are. It is what plans ask of a floor.
func (s *Soundings) DepthAt(x, y float64) (depth float64, known bool) {
	if len(s.Depth) == 0 {
		return 0, false
	}
	u, v := (x-s.X0)/s.Step, (y-s.Y0)/s.Step
	if !(u >= 0 && v >= 0 && u <= float64(s.NX-1) && v <= float64(s.NY-1)) {
		return 0, false
	}
	i, j := min(int(u), s.NX-2), min(int(v), s.NY-2)
	u, v = u-float64(i), v-float64(j)
	k := j*s.NX + i
	return (1-v)*((1-u)*s.Depth[k]+u*s.Depth[k+1]) + v*((1-u)*s.Depth[k+s.NX]+u*s.Depth[k+s.NX+1]), true
}

// At is where a sounding was taken, and what it says.
func (s *Soundings) At(i, j int) (x, y, depth float64) {
	return s.X0 + float64(i)*s.Step, s.Y0 + float64(j)*s.Step, s.Depth[j*s.NX+i]
}
