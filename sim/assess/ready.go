package assess

import (
	"encoding/binary"
	"fmt"
	"io"
	"strings"

	"dryline/sim/exercise"
)

// Ready says why an exercise cannot be flown as an assessment, nil if it can: where anything
// that is not charted lies at a place its file says, anyone who has flown it once knows the place.
func Ready(ex *exercise.Exercise) error {
	var fixed []string
	for i := range ex.Seabed.Objects {
		if o := &ex.Seabed.Objects[i]; !o.Charted && ex.Elsewhere == nil {
			fixed = append(fixed, "object")
		}
	}
	for i := range ex.Seabed.Pipelines {
		if p := &ex.Seabed.Pipelines[i]; !p.Charted || len(p.Spans) > 0 {
			fixed = append(fixed, "pipeline")
		}
	}
	switch {
	case len(fixed) > 0:
		return fmt.Errorf("%d uncharted things in it lie at places that its file fixes (%s), so that anyone who has flown it once knows them", len(fixed), strings.Join(kinds(fixed), ", "))
	case !ex.Varies():
		return fmt.Errorf("it leaves no object to the seed, so that it has nothing new to be found")
	}
	return nil
}

func kinds(of []string) []string {
	var out []string
	for i, k := range of {
		if i == 0 || k != of[i-1] {
			out = append(out, k)
		}
	}
	return out
}

// Assessed returns the exercise as it is flown as an assessment: no coach, no truth, no
// stopped and no quicker time. The helmsman and the view from the side are the exercise's to
// allow.
func Assessed(ex *exercise.Exercise) *exercise.Exercise {
	own := *ex
	h := ex.Help
	own.Help = exercise.Help{Helmsman: h.Helmsman, Mishears: h.Mishears, SideView: h.SideView, MostSpeedUp: 1, Assessed: true}
	return &own
}

// mostDraws bounds the seeds tried until every object finds a place.
const mostDraws = 50

// Draw draws the seeds of an assessment from a source of chance, each by itself, until one
// has room for every object.
func Draw(ex *exercise.Exercise, chance io.Reader) (exercise.Seeds, error) {
	var failure error
	for range mostDraws {
		var b [5 * 8]byte
		if _, err := io.ReadFull(chance, b[:]); err != nil {
			return exercise.Seeds{}, err
		}
		n := func(i int) uint64 { return binary.LittleEndian.Uint64(b[8*i:]) }
		seeds := exercise.Seeds{One: n(0), Ground: n(1), Placed: n(2), Weather: n(3), Sonar: n(4)}
		if seeds.Placed == ex.Seed { // everything would lie where its file says
			continue
		}
		if _, failure = ex.Settle(seeds); failure == nil {
			return seeds, nil
		}
	}
	return exercise.Seeds{}, fmt.Errorf("no seed of %d has room for every object", mostDraws) // which seed is nobody's to know
}
