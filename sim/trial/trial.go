package trial

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"sync"

	"dryline/seabed"
	"dryline/seabed/chance"
	"dryline/sim/exercise"
)

// Plan is one of the plans that are tried.
type Plan struct {
	Name     string
	Hash     string // SHA-256 of its file, hex
	Exercise *exercise.Exercise
}

// Trial is a set of plans on the same draws.
type Trial struct {
	Spec  *Spec
	Plans []Plan
	Seed  uint64

	// Vary makes the exercise of a run of a plan: the plan's own with what was drawn in it.
	Vary func(plan int, run *Run) (*exercise.Exercise, error)
}

// Job is one run of one plan.
type Job struct{ Plan, Run int }

// Runner has jobs flown and hands over each outcome, in any order, one at a time. It may
// spread them over what machines it likes: a job gives the same outcome wherever it is
// flown.
type Runner interface {
	Fly(ctx context.Context, jobs []Job, done func(*Outcome) error) error
}

// Pool is the runner of this process.
type Pool struct {
	Workers int
	Each    func(ctx context.Context, job Job) (*Outcome, error)
}

// Fly implements [Runner].
func (p Pool) Fly(ctx context.Context, jobs []Job, done func(*Outcome) error) error {
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	var (
		group sync.WaitGroup
		mutex sync.Mutex
		first error
	)
	next := make(chan Job)
	for range max(min(p.Workers, len(jobs)), 1) {
		group.Go(func() {
			for job := range next {
				out, err := p.Each(ctx, job)
				mutex.Lock()
				if err == nil && first == nil {
					err = done(out)
				}
				if err != nil && first == nil {
					first = err
					stop()
				}
				mutex.Unlock()
			}
		})
	}
	for _, job := range jobs {
		select {
		case next <- job:
			continue
		case <-ctx.Done():
		}
		break
	}
	close(next)
	group.Wait()
	if first == nil {
		first = ctx.Err()
	}
	return first
}

// Area is the ground that targets lie in and that is to be covered, in all plans.
func (t *Trial) Area() []seabed.Point { return areaOf(t.Spec, t.Plans[0].Exercise) }

// DrawFor draws a run as it lies on the grid of a plan: the same places on the globe for
// all of them.
func (t *Trial) DrawFor(plan, number int) (*Run, error) {
	run, err := Draw(t.Spec, t.Area(), t.Seed, number)
	if err != nil {
		return nil, err
	}
	east, north := t.offset(plan)
	for i := range run.Objects {
		run.Objects[i].At.X += east
		run.Objects[i].At.Y += north
	}
	return run, nil
}

// areaFor is the area on the grid of a plan.
func (t *Trial) areaFor(plan int) []seabed.Point {
	east, north := t.offset(plan)
	area := slices.Clone(t.Area())
	for i := range area {
		area[i].X += east
		area[i].Y += north
	}
	return area
}

// offset is where the first plan's origin lies on the grid of another: local grids are the
// UTM grid from an origin of their own.
func (t *Trial) offset(plan int) (east, north float64) {
	e0, n0 := t.Plans[0].Exercise.Place.Grid.ToUTM(0, 0)
	e1, n1 := t.Plans[plan].Exercise.Place.Grid.ToUTM(0, 0)
	return e0 - e1, n0 - n1
}

// Each flies one job.
func (t *Trial) Each(ctx context.Context, job Job) (*Outcome, error) {
	run, err := t.DrawFor(job.Plan, job.Run)
	if err != nil {
		return nil, err
	}
	ex, err := t.Vary(job.Plan, run)
	if err != nil {
		return nil, fmt.Errorf("%s, run %d: %w", t.Plans[job.Plan].Name, job.Run, err)
	}
	out, err := Fly(ctx, ex, run, t.areaFor(job.Plan))
	if err != nil {
		return nil, fmt.Errorf("%s, run %d: %w", t.Plans[job.Plan].Name, job.Run, err)
	}
	out.Plan = job.Plan
	return out, nil
}

// BareGround searches the bare ground of every plan.
func (t *Trial) BareGround(ctx context.Context) ([]*Bare, error) {
	out := make([]*Bare, len(t.Plans))
	for i := range t.Plans {
		seed := func(k int) uint64 { return chance.Seed(t.Seed, fmt.Sprintf("trial/bare/%d", k)) >> 12 }
		b, err := Search(ctx, t.Plans[i].Exercise, seed, t.Spec.Bare, t.Spec.FalseAlarms)
		if err != nil {
			return nil, fmt.Errorf("%s, bare ground: %w", t.Plans[i].Name, err)
		}
		out[i] = b
	}
	return out, nil
}

// mostFigure is beyond any figure of a run.
const mostFigure = 1e12

// Fits reports whether an outcome that was kept can be one of this trial's: the plan, the
// run's seed and its targets are those that are drawn, and every figure is one that a run
// can have. It cannot tell a figure that somebody made up.
func (t *Trial) Fits(o *Outcome) bool {
	if o.Plan < 0 || o.Plan >= len(t.Plans) || o.Run < 0 || o.Seed != seedOf(t.Seed, o.Run) || len(o.Seen) != total(t.Spec.Targets) {
		return false
	}
	for _, v := range [...]float64{o.Time, o.Logged, o.Distance, o.PerMetre, o.Off} {
		if v < 0 || v > mostFigure {
			return false
		}
	}
	for _, v := range [...]float64{o.Once, o.Twice, o.InBand} {
		if v < 0 || v > 1 {
			return false
		}
	}
	scale := t.Plans[o.Plan].Exercise.Sonar.RangeScale
	n := 0
	for target, of := range t.Spec.Targets {
		for range of.Count {
			s := &o.Seen[n]
			n++
			if s.Target != target {
				return false
			}
			for i := range s.Looks {
				if !s.Looks[i].fits(scale) {
					return false
				}
			}
		}
	}
	return true
}

// Check says what keeps the plans from being tried on the same ground: every fault, a line
// each.
func (t *Trial) Check() error {
	var faults []error
	first := t.Plans[0].Exercise
	for i := range t.Plans {
		p := &t.Plans[i]
		ex := p.Exercise
		if ex.Place.Grid.EPSG() != first.Place.Grid.EPSG() {
			faults = append(faults, fmt.Errorf("%s: place: its zone is not that of %s (want all plans over the same ground)", p.Name, t.Plans[0].Name))
			continue
		}
		x0, y0, x1, y1 := box(t.areaFor(i))
		if x0 < 0 || y0 < 0 || x1 > ex.Seabed.East || y1 > ex.Seabed.North {
			faults = append(faults, fmt.Errorf("%s: the area of %s, (%.0f, %.0f) to (%.0f, %.0f) m, reaches out of its world of %g by %g m (want an area within all of them)",
				p.Name, t.Plans[0].Name, x0, y0, x1, y1, ex.Seabed.East, ex.Seabed.North))
		}
	}
	return errors.Join(faults...)
}
