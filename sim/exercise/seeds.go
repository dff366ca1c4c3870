package exercise

import (
	"fmt"

	"dryline/seabed"
	"dryline/seabed/placing"
)

// Seeds begin every stream of chance of a session, each cause by its own. Derived
// from one, all are that one: the streams have names, which keep them apart.
type Seeds struct {
	One uint64 // the seed they are derived from, and the session is called by

	Ground  uint64 // relief, bedforms, sediments, the shapes of objects
	Placed  uint64 // what objects there are and where, of those left to chance
	Weather uint64 // sea and wind, the jitter of the fish, the instruments
	Sonar   uint64 // noise, speckle, what spoils a record
}

// SeedsOf derives all seeds from one.
func SeedsOf(one uint64) Seeds { return Seeds{one, one, one, one, one} }

// Varies reports whether another seed puts other things in other places: whether what an
// exercise hides is new at each attempt.
func (ex *Exercise) Varies() bool { return len(ex.Placed) > 0 || ex.Elsewhere != nil }

// Settle returns the exercise with what it leaves to chance on its sea floor put
// in place by the seeds: its groups of objects stand among its objects. The
// exercise itself is left as it is, and returned if nothing is left to chance. With
// another seed than the exercise's own, [Elsewhere] counts as well.
//
// It fails where a group finds no room; the error, a [*placing.Failure] under the
// seed, names the group.
func (ex *Exercise) Settle(seeds Seeds) (*Exercise, error) {
	spec, groups := ex.Seabed, ex.Placed
	var were map[string]seabed.Object
	if ex.Elsewhere != nil && seeds.Placed != ex.Seed {
		spec, groups, were = ex.Elsewhere.move(spec)
		groups = append(groups, ex.Placed...)
	}
	if len(groups) == 0 {
		return ex, nil
	}
	spec, err := placing.Resolve(spec, groups, seeds.Ground, seeds.Placed)
	if err != nil {
		return nil, fmt.Errorf("seed %d: %w", seeds.Placed, err)
	}
	restore(spec.Objects, were)
	settled := *ex
	settled.Seabed, settled.Placed = spec, nil
	return &settled, nil
}
