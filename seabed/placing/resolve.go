package placing

import (
	"fmt"

	"dryline/seabed"
)

// Failure says which group of several could not be placed, and why.
type Failure struct {
	Group   int // index
	Name    string
	Problem error
}

// Error says it on one line.
func (f *Failure) Error() string { return fmt.Sprintf("placing %q: %v", f.Name, f.Problem) }

// Unwrap returns the problem.
func (f *Failure) Unwrap() error { return f.Problem }

// Resolve returns the spec of a world with the objects of the groups after its own,
// group by group, each clear of all before it. ground is the seed of the world,
// objects that of what is placed on it. The spec given is left as it is, and
// returned if there is nothing to place. An error is a [*Failure].
//
// Objects are placed on the floor as it is without any: the pit scoured round one
// is not seen by the next.
func Resolve(spec seabed.Spec, groups []Group, ground, objects uint64) (seabed.Spec, error) {
	if len(groups) == 0 {
		return spec, nil
	}
	bare := spec
	bare.Objects, bare.Pipelines = nil, nil
	floor := seabed.New(bare, ground)
	taken := map[string]bool{}
	for _, o := range spec.Objects {
		taken[o.Name] = true
	}
	for _, p := range spec.Pipelines {
		taken[p.Name] = true
	}
	out := spec
	for i := range groups {
		g := &groups[i]
		placed, err := Place(g, &out, floor, objects)
		if err != nil {
			return spec, &Failure{i, g.Name, err}
		}
		for _, o := range placed {
			if taken[o.Name] {
				return spec, &Failure{i, g.Name, fmt.Errorf("two things would be called %q", o.Name)}
			}
			taken[o.Name] = true
		}
		out.Objects = append(out.Objects[:len(out.Objects):len(out.Objects)], placed...)
	}
	return out, nil
}
