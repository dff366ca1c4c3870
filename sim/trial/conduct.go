package trial

import (
	"context"
	"errors"
	"slices"
	"time"
)

// batchRuns is after how many runs of every plan it is asked whether that is enough.
const batchRuns = 20

// Asked is how far a trial goes.
type Asked struct {
	Runs  int     // of every plan, at most
	Until float64 // half-width of the interval of detection, of every plan, at which it stops; 0 for all runs
}

// ErrFew is returned where a trial was stopped before it had two runs of every plan.
var ErrFew = errors.New("too few runs to say anything")

// Conduct flies the runs that are still missing and returns all, sorted. It stops early only
// by the width of intervals, which does not look at who leads. keep is given every new
// outcome, so that the trial can be resumed; tell, if not nil, how many of how many are flown and the
// time that is left by the pace so far.
func (t *Trial) Conduct(ctx context.Context, r Runner, bare []*Bare, asked Asked, had []Outcome, keep func(*Outcome) error, tell func(done, of int, left time.Duration)) ([]Outcome, error) {
	all := slices.Clone(had)
	have := map[Job]bool{}
	for i := range all {
		have[Job{all[i].Plan, all[i].Run}] = true
	}
	began, flown := time.Now(), 0
	of := asked.Runs * len(t.Plans)
	for from := 0; from < asked.Runs; from += batchRuns {
		to := min(from+batchRuns, asked.Runs)
		var jobs []Job
		for run := from; run < to; run++ {
			for plan := range t.Plans {
				if j := (Job{plan, run}); !have[j] {
					jobs = append(jobs, j)
				}
			}
		}
		err := r.Fly(ctx, jobs, func(o *Outcome) error {
			all = append(all, *o)
			flown++
			if tell != nil {
				left := time.Duration(float64(time.Since(began)) / float64(flown) * float64(of-len(all)))
				tell(len(all), of, left)
			}
			return keep(o)
		})
		sortOutcomes(all)
		if err != nil {
			return all, err
		}
		if asked.Until > 0 && to >= batchRuns && t.narrow(upTo(all, to), bare, asked.Until) {
			return upTo(all, to), nil
		}
	}
	return upTo(all, asked.Runs), nil
}

func sortOutcomes(all []Outcome) {
	slices.SortFunc(all, func(a, b Outcome) int {
		if a.Run != b.Run {
			return a.Run - b.Run
		}
		return a.Plan - b.Plan
	})
}

// upTo are the outcomes of the first runs.
func upTo(all []Outcome, runs int) (out []Outcome) {
	for i := range all {
		if all[i].Run < runs {
			out = append(out, all[i])
		}
	}
	return out
}

// narrow reports whether the interval of detection of every plan is narrow enough.
func (t *Trial) narrow(all []Outcome, bare []*Bare, until float64) bool {
	for plan := range t.Plans {
		found, of := t.found(all, bare, plan, -1)
		if i := Clustered(found, of); (i.High-i.Low)/2 > until {
			return false
		}
	}
	return true
}

// found counts by run the targets that were found and those there were; target is an entry
// of the spec, or -1 for all.
func (t *Trial) found(all []Outcome, bare []*Bare, plan, target int) (found, of []float64) {
	for i := range all {
		if all[i].Plan != plan {
			continue
		}
		k, n := 0.0, 0.0
		for _, s := range all[i].Seen {
			if target >= 0 && s.Target != target {
				continue
			}
			n++
			if s.best() > bare[plan].Threshold {
				k++
			}
		}
		found, of = append(found, k), append(of, n)
	}
	return found, of
}

// best is the greatest score of any look.
func (s *Sight) best() float64 {
	b := 0.0
	for _, l := range s.Looks {
		b = max(b, l.Score)
	}
	return b
}
