package debrief

import (
	"math"

	"dryline/sim"
	"dryline/sim/hand"
	"dryline/sim/passage"
)

// AddModel has the mate run the exercise's plan over the same ground, in the same weather,
// and lays how he ran each line beside the lines of a report of the session: a run to
// compare with, not the only good one. The sonar stays silent, so it takes a second.
func AddModel(r *Report, s *sim.Session) error {
	p, err := passage.New(s.Exercise, s.World(), s.Seeds)
	if err != nil {
		return err
	}
	p.SetHand(hand.NewMate(s.Brief))
	const second = 10 // ticks
	runs, reversed := map[string]*Series{}, map[string]bool{}
	for p.Advance(second) > 0 {
		on, logging := p.Logging()
		line, known := s.Exercise.Line(on.Line)
		if !logging || !known {
			continue
		}
		track := line.Track(on.Reversed)
		run := runs[on.Line]
		if run == nil {
			run = new(Series)
			runs[on.Line], reversed[on.Line] = run, on.Reversed
		}
		truth, fix := p.Scene(), p.Fix()
		along, off := track.Offset(truth.FishX, truth.FishY)
		_, vessel := track.Offset(fix.VesselX, fix.VesselY)
		desk, _ := track.Offset(fix.X, fix.Y)
		run.Along = append(run.Along, round(desk))
		run.Altitude = append(run.Altitude, round(100*truth.FishAltitude/s.Exercise.Sonar.RangeScale))
		run.OffLine = append(run.OffLine, round(vessel))
		run.FishOff = append(run.FishOff, round(off))
		run.Ahead = append(run.Ahead, round(desk-along))
		run.Askew = append(run.Askew, round(math.Remainder(fix.Heading-truth.FishHeading, 2*math.Pi)*180/math.Pi))
	}
	for i := range r.Lines {
		l := &r.Lines[i]
		if run := runs[l.Name]; run != nil {
			l.Model = run.thinned()
			if reversed[l.Name] != l.Reversed {
				l.Model.turn(l.Length)
			}
		}
	}
	return nil
}

// thinned is at most [MaxSeries] points of a series, evenly spread.
func (s *Series) thinned() *Series {
	n := len(s.Along)
	keep := min(n, MaxSeries)
	pick := func(v []float64) []float64 {
		out := make([]float64, keep)
		for k := range out {
			out[k] = v[k*(n-1)/max(keep-1, 1)]
		}
		return out
	}
	return &Series{pick(s.Along), pick(s.Altitude), pick(s.OffLine), pick(s.FishOff), pick(s.Ahead), pick(s.Askew)}
}

// turn has a series read as run the other way.
func (s *Series) turn(length float64) {
	for i := range s.Along {
		s.Along[i], s.OffLine[i], s.FishOff[i] = round(length-s.Along[i]), -s.OffLine[i], -s.FishOff[i]
	}
}
