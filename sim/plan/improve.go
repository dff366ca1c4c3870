package plan

import (
	"cmp"
	"fmt"
	"math"
	"slices"
)

// Judge says what a plan is worth besides its time. Geometry is one; trials of the plan are another.
type Judge interface {
	Judge(p *Plan) Judgement
}

// Judgement is a share, such as of targets found, with its margins.
type Judgement struct {
	Value, Low, High float64 // 0..1
	Of               string  // what it is the share of, and by what assumption
}

// ByGeometry judges by the looks that the lines take: the share of things that would be seen
// at least once if every look saw one with the chance Each, whichever it is and on its own. The
// margins are those of other chances. All three are assumptions, and none is measured.
type ByGeometry struct{ Each, Low, High float64 }

// Judge implements [Judge].
func (g ByGeometry) Judge(p *Plan) Judgement {
	counts := map[int8]float64{}
	n := 0.0
	for _, l := range p.Covered.Looks {
		if l >= 0 {
			counts[l]++
			n++
		}
	}
	found := func(each float64) (sum float64) {
		for k := int8(0); k <= 40; k++ {
			sum += counts[k] / max(n, 1) * (1 - math.Pow(1-each, float64(k)))
		}
		return sum
	}
	return Judgement{found(g.Each), found(g.Low), found(g.High),
		fmt.Sprintf("share seen at least once if each look sees it with a chance of %.0f %% (margins: %.0f and %.0f %%), by geometry", 100*g.Each, 100*g.Low, 100*g.High)}
}

// Alternative is a plan that was looked at.
type Alternative struct {
	Plan   *Plan
	Worth  Judgement
	Works  bool   // every check holds
	Not    string // if not: the first that fails
	Best   bool   // nothing that works is quicker and at least as good
	Chosen bool   // the plan as it was asked for
}

// Search lists what is searched. Every list that is empty holds to the spec's own.
type Search struct {
	Ranges  []float64 // metres
	Heights []float64 // shares of the range
	Speeds  []float64 // m/s
	Nadirs  []Nadir
	Overlap []float64 // shares of the swath
}

// Improve looks at every plan of a search, besides the one as asked, and marks those that nothing
// beats in both time and worth. It chooses none. Plans are made with few orders of their lines; those
// that only an unsafe turn speaks against, and nothing else that works beats, are made again with all, a dozen at most.
func Improve(asked *Plan, in Search, j Judge) []Alternative {
	s := asked.Spec
	or := func(list []float64, own float64) []float64 {
		if len(list) == 0 {
			return []float64{own}
		}
		return list
	}
	nadirs := in.Nadirs
	if len(nadirs) == 0 {
		nadirs = []Nadir{s.Nadir}
	}
	out := []Alternative{Judged(asked, j)}
	out[0].Chosen = true
	type key struct {
		scale, height, speed, spacing float64
		nadir                         Nadir
	}
	made := map[key]bool{}
	tables := cableTables{}
	for _, r := range or(in.Ranges, s.Range) {
		for _, h := range or(in.Heights, s.Height/s.Range) {
			for _, v := range or(in.Speeds, s.Speed) {
				for _, nadir := range nadirs {
					for _, o := range or(in.Overlap, s.Overlap) {
						t := *s
						t.tables = tables
						t.Range, t.Height, t.Speed, t.Nadir, t.Overlap, t.Spacing = r, h*r, v, nadir, o, 0
						t.Gap = 0
						if s.Gap > 0 {
							t.Gap = s.Gap / s.Range * r
						}
						t.Quick = true
						k := key{r, h, v, t.spacing(), nadir}
						if made[k] || len(t.Check()) > 0 {
							continue // neighbours are as far apart whatever the overlap
						}
						made[k] = true
						if p, err := Make(&t); err == nil {
							out = append(out, Judged(p, j))
						}
					}
				}
			}
		}
	}
	slices.SortStableFunc(out, byTime)
	again := 12
	for i := range out {
		if a := &out[i]; again > 0 && a.turnsOnly() && !beaten(a, out) {
			again--
			t := *a.Plan.Spec
			t.Quick = false
			if p, err := Make(&t); err == nil {
				*a = Judged(p, j)
			}
		}
	}
	Mark(out)
	return out
}

// Mark sorts plans by their time and marks those that work and that nothing beats.
func Mark(all []Alternative) {
	slices.SortStableFunc(all, byTime)
	for i := range all {
		all[i].Best = all[i].Works && !beaten(&all[i], all)
	}
}

func byTime(a, b Alternative) int { return cmp.Compare(a.Plan.Time, b.Plan.Time) }

// beaten reports whether a plan that works is as good in both time and worth and better in one.
func beaten(a *Alternative, all []Alternative) bool {
	return slices.ContainsFunc(all, func(b Alternative) bool {
		return b.Works && (b.Plan.Time < a.Plan.Time-1 && b.Worth.Value >= a.Worth.Value-1e-9 ||
			b.Plan.Time <= a.Plan.Time+1 && b.Worth.Value > a.Worth.Value+1e-9)
	})
}

// turnsOnly reports whether nothing but the order of the lines speaks against a quickly made plan.
func (a *Alternative) turnsOnly() bool {
	if a.Works || a.Chosen || !a.Plan.Spec.Quick {
		return false
	}
	for _, c := range a.Plan.Checks {
		if c.State == Fails && c.ID != "turns" && c.ID != "clear" && c.ID != "keel" {
			return false
		}
	}
	return true
}

// Judged is a plan with its worth.
func Judged(p *Plan, j Judge) Alternative {
	a := Alternative{Plan: p, Worth: j.Judge(p), Works: p.Good()}
	for _, c := range p.Checks {
		if c.State == Fails && a.Not == "" {
			a.Not = c.Says
		}
	}
	return a
}
