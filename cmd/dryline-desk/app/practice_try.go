package app

import (
	"errors"
	"strings"

	"dryline/scenarios"
	"dryline/sim/exercise"
)

// try makes the exercise of the values as they stand, says what is wrong with them, and works
// out what is drawn of them: of those that will not do, the last that did.
func (p *Practice) try() (*exercise.Exercise, error) {
	p.faults, p.faulty = nil, map[string]bool{}
	ex, err := p.made(nil)
	if err == nil {
		p.drawn = towedBy(ex)
		p.good = append(p.good[:0], p.now...)
		return ex, nil
	}
	faults, ok := errors.AsType[scenarios.Faults](err)
	if !ok {
		p.faults = []string{err.Error()}
		return nil, err
	}
	for _, f := range faults {
		p.faults = append(p.faults, p.plainly(f))
		p.faulty[f.Path] = true
	}
	if partly, err := p.made(p.faulty); err == nil {
		p.drawn = towedBy(partly)
	}
	return nil, err
}

// made is the exercise with the values as they stand, but for those at some paths, which are
// as they last would do.
func (p *Practice) made(but map[string]bool) (*exercise.Exercise, error) {
	var changes []scenarios.Change
	for i, f := range p.fields {
		now := p.now[i]
		if but[f.Path] {
			now = p.good[i]
		}
		if now = strings.TrimSpace(now); now != f.Value {
			changes = append(changes, scenarios.Change{Path: f.Path, Value: now})
		}
	}
	name := p.exercise.Name + ".yaml"
	source, err := scenarios.Edit(name, p.exercise.Source, changes)
	if err != nil {
		return nil, err
	}
	ex, err := scenarios.Parse(name, source)
	if err != nil {
		return nil, err
	}
	return ex, nil
}

// change takes a value as it is typed, and marks what will not do where it stands: the field
// keeps the keys.
func (p *Practice) change(i int, value string) {
	p.now[i] = value
	p.try()
	p.mark()
}

// mark has the names of values and groups say what will not do.
func (p *Practice) mark() {
	for i, name := range p.names {
		if name == nil {
			continue
		}
		f := &p.fields[i]
		says, ink := f.Label, p.inks[0]
		if p.faulty[f.Path] {
			says, ink = "! "+f.Label, p.inks[1]
		}
		name.Label = says
		name.SetColor(ink)
	}
	for i, tab := range p.tabs {
		if t := tab.Text(); t != nil {
			t.Label = p.tabSays(i)
		}
	}
}

// tabSays names a group, and says if something in it will not do.
func (p *Practice) tabSays(group int) string {
	if p.groupFaulty(p.groups[group]) {
		return p.groups[group] + " !"
	}
	return p.groups[group]
}
