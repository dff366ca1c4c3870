package sim

import (
	"math"

	"dryline/seabed"
	"dryline/sim/coach"
	"dryline/sim/passage"
	"dryline/sonar/recorder"
)

// Witness keeps what really happened in a session, for the debrief. The desk
// never sees it.
type Witness struct {
	Pings   []TruePing // of every logged ping, in order
	Seen    [][]Sight  // per object and then per pipeline, the logged pings that lit it
	Mishaps []passage.Mishap
	Advice  []coach.Event // hints of the coach, whether or not anybody was shown them
}

// TruePing is where the fish truly was at a logged ping. A survey keeps one for
// each, so it holds no more than the debrief asks for.
type TruePing struct {
	Number   uint64
	X, Y, Z  float64 // on the grid, metres; Z is 0 at the mean level of the water
	Heading  float64 // grid bearing, radians
	Pitch    float64 // nose up positive, radians
	Altitude float64 // above the floor or object below it, metres
	Speed    float64 // ahead, over the ground, m/s
	Record   [2]Fill // of the channel that is painted, by side
}

// Fill says how the thirds of a side's record beyond the bottom, near to far, fill
// the recorder.
type Fill [3]Level

// Level is how full a stretch of a record is.
type Level uint8

// The levels.
const (
	NothingHeard Level = iota // no sample at all: the fish was silent
	WellRecorded
	CutOff // more at full scale than a record may have
	TooFaint
	Ailing // the channel was dead, or weak by [ailsBy] or more, or had the other side's
)

// What makes a stretch cut off or too faint: our own choice.
const (
	cutOffShare = 0.10 // of its samples at full scale
	faintCounts = 12.0 // mean, of 65535: less is made of steps
	ailsBy      = 6.0  // dB that a channel is weaker than it should be: half of what it recorded
)

// Sight is one logged ping that lit an object in the main lobe.
type Sight struct {
	Number uint64
	Line   int     // index into the desk's lines, in the order they were run
	Range  float64 // over the ground to its middle, or to the nearest point of a pipeline, metres
}

// Attend sets a witness to a session, before its first step.
func Attend(s *Session) *Witness {
	spec := &s.Exercise.Seabed
	w := &Witness{Seen: make([][]Sight, len(spec.Objects)+len(spec.Pipelines))}
	s.Observe(Observer{
		Truth: true,
		Ping: func(p *Ping) {
			if p.Line != "" {
				w.record(s, p)
			}
		},
		Mishap: func(m passage.Mishap) { w.Mishaps = append(w.Mishaps, m) },
		Advice: func(e coach.Event) { w.Advice = append(w.Advice, e) },
	})
	return w
}

// Adopt takes over what an earlier flight's witness saw lit by the pings before one:
// a flight again by the record cannot tell.
func (w *Witness) Adopt(earlier *Witness, before uint64) {
	for i := range w.Seen {
		var seen []Sight
		for _, s := range earlier.Seen[i] {
			if s.Number < before {
				seen = append(seen, s)
			}
		}
		w.Seen[i] = append(seen, w.Seen[i]...)
	}
}

// Count is how often a kind of mishap happened.
func (w *Witness) Count(kind passage.Kind) int {
	n := 0
	for _, m := range w.Mishaps {
		if m.What == kind {
			n++
		}
	}
	return n
}

// record notes a logged ping and the objects it lit.
func (w *Witness) record(s *Session, p *Ping) {
	at := &p.Truth.Pose
	w.Pings = append(w.Pings, TruePing{
		Number: p.Number, X: at.X, Y: at.Y, Z: at.Z, Heading: at.Heading, Pitch: at.Pitch,
		Altitude: at.Z - s.world.HeightAt(at.X, at.Y), Speed: at.Speed,
	})
	kept := &w.Pings[len(w.Pings)-1]
	if c := s.Desk.Settings.MosaicChannel; !p.Lost && c < len(p.Port) {
		first := kept.Altitude / s.Desk.Recorder.Bin()
		kept.Record = [2]Fill{fillOf(p.Port[c], first), fillOf(p.Starboard[c], first)}
		faults := s.sonar.engine.Faults()
		for side := range kept.Record {
			if faults.Swapped || faults.Dead[side] || faults.Loss[side] >= ailsBy {
				kept.Record[side] = Fill{Ailing, Ailing, Ailing}
			}
		}
	}
	for _, side := range p.Truth.Lit {
		for _, o := range side {
			met := whereIs(&s.Exercise.Seabed, int(o-1), at.X, at.Y)
			w.Seen[o-1] = append(w.Seen[o-1], Sight{
				Number: p.Number, Line: len(s.Desk.Lines),
				Range: math.Hypot(met.X-at.X, met.Y-at.Y),
			})
		}
	}
}

// fillOf weighs the thirds of a side from a sample on.
func fillOf(samples []uint16, first float64) Fill {
	var f Fill
	from := min(max(int(first)+1, 0), len(samples))
	n := len(samples) - from
	for k := range f {
		third := samples[from+k*n/3 : from+(k+1)*n/3]
		sum, full := 0, 0
		for _, v := range third {
			sum += int(v)
			if v == recorder.FullScale {
				full++
			}
		}
		size := float64(len(third))
		switch {
		case len(third) == 0:
		case float64(full) > cutOffShare*size:
			f[k] = CutOff
		case float64(sum) < faintCounts*size:
			f[k] = TooFaint
		default:
			f[k] = WellRecorded
		}
	}
	return f
}

// whereIs is where the object of an index is met from (x, y). Pipelines are
// numbered after the objects.
func whereIs(spec *seabed.Spec, index int, x, y float64) seabed.Point {
	if n := len(spec.Objects); index >= n {
		return spec.Pipelines[index-n].Nearest(x, y)
	}
	return spec.Objects[index].At
}
