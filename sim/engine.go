package sim

import (
	"slices"

	"dryline/seabed"
	"dryline/sim/exercise"
	"dryline/sonar"
	"dryline/sonar/waterfall"
)

// engineAt is the sonar at another range scale, its channels as they are set, with what
// ails it now.
func (s *Session) engineAt(metres float64) (*sonar.Engine, error) {
	channels := slices.Clone(s.Exercise.Sonar.Channels)
	for i := range channels {
		channels[i].Receiver = s.Desk.Recorder.Receivers[i]
	}
	ex := *s.Exercise
	ex.Sonar.Effects = s.sonar.troubles.onto(ex.Sonar.Effects, channels)
	return newEngine(&ex, s.world, metres, channels, s.Seeds.Sonar)
}

// newEngine makes the sonar of an exercise for a range scale and channels as
// they are set.
func newEngine(ex *exercise.Exercise, world *seabed.World, rangeScale float64, channels []sonar.Channel, seed uint64) (*sonar.Engine, error) {
	spec := setDown(ex.Sonar, world)
	spec.RangeScale, spec.Channels = rangeScale, channels
	engine, err := sonar.NewEngine(spec, ex.Sea.Water, ex.Desk.SoundSpeed, seed)
	if err != nil {
		return nil, err
	}
	var strengths []float64
	for _, o := range ex.Seabed.Objects {
		strengths = append(strengths, o.Strength)
	}
	engine.Strengthen(strengths)
	return engine, nil
}

// setDown puts the mouths of seeps and springs on the floor.
func setDown(spec sonar.Spec, world *seabed.World) sonar.Spec {
	seeps := make([]sonar.Seep, len(spec.Effects.Seeps))
	for i, s := range spec.Effects.Seeps {
		s.Z = world.HeightAt(s.X, s.Y)
		seeps[i] = s
	}
	springs := make([]sonar.Spring, len(spec.Effects.Springs))
	for i, s := range spec.Effects.Springs {
		s.Z = world.HeightAt(s.X, s.Y)
		springs[i] = s
	}
	spec.Effects.Seeps, spec.Effects.Springs = seeps, springs
	return spec
}

// priorsOf works out what the channels of a sonar are expected to write of ordinary ground:
// what a desk works out from the sonar's papers and the water.
func priorsOf(engine *sonar.Engine) ([]waterfall.Prior, error) {
	var priors []waterfall.Prior
	for c := range engine.Spec().Channels {
		p, err := engine.Expectation(c)
		if err != nil {
			return nil, err
		}
		priors = append(priors, p)
	}
	return priors, nil
}

// fit has pings made by another engine from now on.
func (s *Session) fit(engine *sonar.Engine) {
	s.sonar.engine, s.sonar.interval = engine, engine.Interval(s.Exercise.Desk.SoundSpeed)
	s.queue.spare, s.queue.makers = nil, nil // they fit the old one
}
