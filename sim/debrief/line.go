package debrief

import (
	"math"
	"slices"

	"dryline/sim"
	"dryline/sim/exercise"
	"dryline/sim/survey"
)

// MaxSeries is how many points of a line a report keeps for plots.
const MaxSeries = 200

// The height NOAA asks for, in percent of the range scale.
const (
	noaaLow  = 100 * survey.LowestHeight
	noaaHigh = 100 * survey.HighestHeight
)

// band is the wanted height in percent of the range scale: the exercise's own,
// or NOAA's if it sets none.
func band(ex *exercise.Exercise) (low, high float64) {
	low, high = survey.HeightBand(ex.Score.AltitudeMin, ex.Score.AltitudeMax)
	return 100 * low, 100 * high
}

// makeLine sums up one line.
func makeLine(ex *exercise.Exercise, l *logged) Line {
	rangeScale := l.RangeScale
	from, to := l.sound().Span()
	out := Line{
		Name: l.Name, RangeScale: round(rangeScale), Open: l.open, Pings: len(l.Pings),
		Reversed: reversed(ex, l.LineRecord), Length: round(l.Track.Length()), Run: round(to - from),
	}
	if length := l.Track.Length(); length > 0 {
		out.Share = shareDown(100 * (to - from) / length)
	}
	var off, fish, speed, altitude, bottom sample
	locked := 0
	for i, p := range l.Pings {
		off.add(p.Off)
		speed.add(p.Fix.Speed)
		if p.Locked {
			locked++
		}
		if p.Fix.Fault != "" {
			out.Faulted++
		}
		if t := l.truth[i]; t != nil {
			_, across := l.Track.Offset(t.X, t.Y)
			fish.add(across)
			altitude.add(100 * t.Altitude / rangeScale)
			bottom.add(p.Height - t.Altitude)
		}
	}
	out.OffLineRMS, out.OffLineMax = round(off.rms()), round(off.worst())
	out.FishRMS, out.FishMax = round(fish.rms()), round(fish.worst())
	low, high := band(ex)
	within := func(low, high float64) *float64 {
		return knownShare(altitude.share(func(v float64) bool { return v >= low && v <= high }))
	}
	out.Speed, out.Altitude = speed.spread(), altitude.spread()
	out.InBand, out.InNOAABand = within(low, high), within(noaaLow, noaaHigh)
	out.PingsPerMetre = known(l.density())
	out.BottomLock = knownShare(100 * float64(locked) / float64(len(l.Pings)))
	out.BottomMean, out.BottomRMS = known(bottom.mean()), known(bottom.rms())
	out.Series = l.series(rangeScale)
	return out
}

// reversed reports whether a line was run from B to A.
func reversed(ex *exercise.Exercise, l *survey.LineRecord) bool {
	for _, planned := range ex.All() {
		if planned.Name == l.Name {
			return planned.Track(true) == l.Track
		}
	}
	return false
}

// density is the pings per metre over the true track of the fish: the
// intervals between pings over the length of that track. NaN if the fish did
// not move a metre.
func (l *logged) density() float64 {
	var last *sim.TruePing
	way, n := 0.0, 0.0
	for _, t := range l.truth {
		if t == nil {
			continue
		}
		if last != nil {
			way += math.Hypot(t.X-last.X, t.Y-last.Y)
			n++
		}
		last = t
	}
	if !(way >= 1) {
		return math.NaN()
	}
	return n / way
}

// series thins the line to points evenly spread over its pings, first and last
// among them.
func (l *logged) series(rangeScale float64) Series {
	s := Series{Along: []float64{}, Altitude: []float64{}, OffLine: []float64{}, FishOff: []float64{}, Ahead: []float64{}, Askew: []float64{}}
	var have []int
	for i, t := range l.truth {
		if t != nil {
			have = append(have, i)
		}
	}
	n := min(len(have), MaxSeries)
	for k := range n {
		i := have[0]
		if n > 1 {
			i = have[k*(len(have)-1)/(n-1)]
		}
		along, across := l.Track.Offset(l.truth[i].X, l.truth[i].Y)
		desk, _ := l.Track.Offset(l.Pings[i].Fix.X, l.Pings[i].Fix.Y)
		s.Ahead = append(s.Ahead, round(desk-along))
		s.Askew = append(s.Askew, round(math.Remainder(l.Pings[i].Fix.Heading-l.truth[i].Heading, 2*math.Pi)*180/math.Pi))
		s.Along = append(s.Along, round(l.Pings[i].Along))
		s.Altitude = append(s.Altitude, round(100*l.truth[i].Altitude/rangeScale))
		s.OffLine = append(s.OffLine, round(l.Pings[i].Off))
		s.FishOff = append(s.FishOff, round(across))
	}
	return s
}

// plannedLines are the names of the lines the plan asks for, each once.
func plannedLines(ex *exercise.Exercise) []string {
	var names []string
	all := ex.All()
	for _, run := range ex.Plan.Order {
		if name := all[run.Line].Name; !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	return names
}

// doneShare is the share of a planned line logged, all its runs together, 0..1.
func doneShare(ex *exercise.Exercise, lines []logged, name string) float64 {
	records := make([]*survey.LineRecord, len(lines))
	for i := range lines {
		records[i] = lines[i].sound()
	}
	l, _ := ex.Line(name)
	return survey.Share(records, name, l.Track(false))
}
