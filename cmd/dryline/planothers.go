package main

import (
	"fmt"

	"dryline/sim/plan"
	"dryline/sim/plan/sheet"
	"dryline/vessel/nav/geodesy"
)

// unbeaten makes exercises of the plans that nothing beats besides the one as asked, so that they
// can be flown against it: what they are worth by geometry hangs on an assumption. from is
// the grid that they were made on; each is made anew on one of its own and takes its own place, for
// depths read at other places can move a line. A plan that is too long for one exercise, or for the
// world of one, is left out.
func (g *planGround) unbeaten(t *sheet.Trade, j plan.Judge, from geodesy.LocalGrid) (files []planFile, err error) {
	made := map[*plan.Plan]planFile{}
	tried := map[*plan.Plan]bool{}
	for again := true; again; plan.Mark(t.All) { // one that comes out worse may leave another unbeaten
		again = false
		for i := range t.All {
			a := &t.All[i]
			if !a.Best || a.Chosen || tried[a.Plan] {
				continue
			}
			again, tried[a.Plan] = true, true
			other := g.like(a.Plan.Spec, from)
			p, err := other.settle(a.Plan)
			if err != nil {
				continue
			}
			exercises, err := other.exercises(p)
			if err != nil {
				return nil, err
			}
			*a, tried[p] = plan.Judged(p, j), true
			if len(exercises) == 1 {
				made[p] = exercises[0]
			}
		}
	}
	t.Files = map[int]string{}
	for i := range t.All {
		if file, ok := made[t.All[i].Plan]; ok && t.All[i].Best {
			file.name = fmt.Sprintf("unbeaten-%02d.yaml", len(files)+1)
			t.Files[i] = file.name
			files = append(files, file)
		}
	}
	return files, nil
}

// like returns a plan as it is asked for by its own spec, on the grid that it was made on.
func (g *planGround) like(s *plan.Spec, from geodesy.LocalGrid) *planGround {
	other, asked := *g, *g.planning
	asked.rangeScale, asked.height, asked.heightGiven = s.Range, s.Height, true
	asked.speed, asked.nadir, asked.overlap, asked.spacing, asked.gap = s.Speed/knot, s.Nadir, 100*s.Overlap, s.Spacing, s.Gap
	asked.quick = s.Quick
	asked.title = fmt.Sprintf("%s, %g m scale, %s", asked.title, s.Range, s.Nadir)
	other.planning, other.place, other.world = &asked, from, [2]float64{}
	return &other
}
