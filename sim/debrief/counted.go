package debrief

import (
	"math"

	"dryline/sim"
	"dryline/sim/survey"
	"dryline/sonar"
	"dryline/sonar/acoustics"
)

// Reason says why ground does not count as looked at, or that it does. The order is
// that of how near it came: ground that several pings reached is what the best of
// them made of it.
type Reason uint8

// The reasons.
const (
	outside    Reason = iota // of the area
	noSwath                  // nothing logged reached it
	untrusted                // its fix was not to be trusted
	silent                   // the fish sent nothing up
	inTurn                   // logged while the fish went round
	outOfReach               // further out than the height carries, or beyond the end of the record
	inNoise                  // the echo of sand is down in the noise
	clipped                  // the record is at full scale
	faint                    // the record is down in the recorder's steps
	ailing                   // the channel was dead, weak or swapped
	sparse                   // too few pings to a metre
	offBottom                // the bottom track was not on the bottom
	underFish                // in the gap under the fish, and no neighbour looked
	seen                     // it counts
	seenTwice                // on two lines
)

var reasonNames = [...]string{
	"outside", "no_swath", "untrusted_fix", "fish_silent", "turn", "beyond_usable_range", "noise", "clipped", "faint", "channel_fault",
	"too_few_pings", "bottom_track", "nadir", "seen", "seen_twice",
}

// String is the reason's name in reports.
func (r Reason) String() string { return reasonNames[r] }

// What ground is looked at by, for who foretells it as well ([dryline/sim/trial]). Our own
// choice, all of it.
const (
	SandOverNoise = 6.0                // dB, that sand must stand above the noise to be looked at
	TurnedOff     = 20 * math.Pi / 180 // of the fish's way off the line's direction: it goes round
	EnoughShare   = 0.97               // of the pings per metre wanted
	Bridged       = 10.0               // metres between two pings: further apart there is nothing between them
	AcrossPings   = 10                 // on either side, that the way of the fish is taken over
)

const (
	believedMetres = 1.0 // the bottom track may be off by, or
	believedShare  = 0.2 // of the height, whichever is more
)

// tolerances say how unsure the marking itself is. A score is worked out with
// the usual ones, and as a range with stricter and kinder ones.
type tolerances struct {
	radius  float64 // times the radius within which a mark is an object's
	limits  float64 // times the distance off line and the error of position allowed
	height  float64 // added to the band of heights on both sides, share of the range scale
	nadir   float64 // times the gap under the fish
	believe float64 // times how far the bottom track may be off
}

var (
	usual  = tolerances{1, 1, 0.005, 1, 1}
	strict = tolerances{0.75, 0.9, 0, 1.1, 0.75}
	kind   = tolerances{1.25, 1.1, 0.01, 0.9, 1.25}
)

// judged is a ping as it counts: one reason for the whole of it, or seen.
type judged struct {
	truth  *sim.TruePing
	line   int
	time   float64
	whole  Reason
	gap    float64      // ground range of the gap under the fish, metres
	reach  float64      // as far as it counts, metres on the ground
	beyond Reason       // what ground further out is
	ends   float64      // of the record, metres on the ground
	thirds [2][3]Reason // by side, of the record from the bottom out
}

// judge looks at every logged ping.
func judge(s *sim.Session, lines []logged, tol tolerances) []judged {
	var out []judged
	limit := NoiseLimits(s.Engine(), s.Desk.Settings.MosaicChannel)
	spec := &s.Exercise.Sonar
	lower := spec.Depression + spec.VerticalBeam/2
	wanted := s.Exercise.Score.PingsPerMetre
	for n := range lines {
		l := &lines[n]
		for i, t := range l.truth {
			if t == nil || !(t.Altitude > 0) {
				continue
			}
			p := &l.Pings[i]
			j := judged{truth: t, line: n, time: p.Fix.Time, whole: seen}
			switch believed := tol.believe * max(believedMetres, believedShare*t.Altitude); {
			case p.Fix.Fault != "":
				j.whole = untrusted
			case t.Record == [2]sim.Fill{}:
				j.whole = silent
			case l.turning[i]:
				j.whole = inTurn
			case wanted > 0 && l.perMetre[i] < EnoughShare*wanted:
				j.whole = sparse
			case math.Abs(p.Height-t.Altitude) > believed:
				j.whole = offBottom
			}
			if lower < math.Pi/2 && s.Exercise.Score.Nadir {
				j.gap = tol.nadir * t.Altitude / math.Tan(lower)
			}
			carries, heard := survey.UsableRange(l.RangeScale, t.Altitude), limit(t.Altitude)
			j.beyond = outOfReach
			if heard < carries {
				carries, j.beyond = heard, inNoise
			}
			j.reach = math.Sqrt(max(carries*carries-t.Altitude*t.Altitude, 0))
			j.ends = math.Sqrt(max(l.RangeScale*l.RangeScale-t.Altitude*t.Altitude, 0))
			for side := range j.thirds {
				for k, f := range t.Record[side] {
					j.thirds[side][k] = seen
					switch f {
					case sim.CutOff:
						j.thirds[side][k] = clipped
					case sim.TooFaint:
						j.thirds[side][k] = faint
					case sim.Ailing:
						j.thirds[side][k] = ailing
					}
				}
			}
			out = append(out, j)
		}
	}
	return out
}

// NoiseLimits gives the slant range at which medium sand sinks into the noise by the
// engine's own sonar equation, for a height of the fish, metres.
func NoiseLimits(engine *sonar.Engine, channel int) func(height float64) float64 {
	const step = 0.5 // metres of height
	known := map[int]float64{}
	bottom, err := acoustics.MediumSand.Bottom()
	return func(height float64) float64 {
		k := max(int(math.Round(height/step)), 1)
		limit, have := known[k]
		if have {
			return limit
		}
		limit = math.Inf(1)
		if b, e := engine.Budget(channel, bottom, float64(k)*step); err == nil && e == nil {
			if far := 2 * engine.Spec().RangeScale; far > b.Height {
				limit, _ = b.RangeLimit(SandOverNoise, far)
			}
		}
		known[k] = limit
		return limit
	}
}

// turns says of each ping whether the fish went round: its way over some pings lies
// further off the line's direction than a crab or a correction takes it.
func (l *logged) turns() []bool {
	out := make([]bool, len(l.truth))
	bearing := l.Track.Bearing()
	for i := range l.truth {
		from, to := l.near(i, -1), l.near(i, 1)
		if from == nil || to == nil || math.Hypot(to.X-from.X, to.Y-from.Y) < 0.5 {
			continue
		}
		way := math.Atan2(to.X-from.X, to.Y-from.Y)
		out[i] = math.Abs(math.Remainder(way-bearing, 2*math.Pi)) > TurnedOff
	}
	return out
}

// densities are the pings to a metre of the fish's true way about each ping.
func (l *logged) densities() []float64 {
	out := make([]float64, len(l.truth))
	for i := range l.truth {
		from, to, way, n := max(i-AcrossPings, 0), min(i+AcrossPings, len(l.truth)-1), 0.0, 0.0
		for k := from; k < to; k++ {
			if a, b := l.truth[k], l.truth[k+1]; a != nil && b != nil {
				way += math.Hypot(b.X-a.X, b.Y-a.Y)
				n++
			}
		}
		out[i] = math.Inf(1)
		if way > 0 {
			out[i] = n / way
		}
	}
	return out
}

// near is the true ping some pings ahead or astern of one, or the nearest to it that
// is known.
func (l *logged) near(i, way int) *sim.TruePing {
	for k := AcrossPings; k >= 0; k-- {
		if j := i + way*k; j >= 0 && j < len(l.truth) && l.truth[j] != nil {
			return l.truth[j]
		}
	}
	return nil
}
