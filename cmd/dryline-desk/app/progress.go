package app

import (
	"fmt"
	"slices"
	"strings"

	"dryline/sim/survey"
)

// linesSay is how far each line is, and how long there is left for them.
func (p *post) linesSay() string {
	v := p.view
	var list []string
	for _, line := range p.toRun() {
		state, share := "to do", v.Shares[line.Name]
		switch {
		case v.Bridge.Logging == line.Name:
			state = "logging, " + logged(share)
		case share >= survey.Whole:
			state = "done"
		case p.begun(line.Name):
			state = logged(share)
		}
		list = append(list, line.Name+" "+state)
	}
	return fmt.Sprintf("%s. %.0f minutes left.", strings.Join(list, "; "), (p.brief.Plan.TimeLimit-v.Now)/60)
}

// linesLeft are the lines to be run that were not logged whole, and how much of those
// begun was.
func (p *post) linesLeft() []string {
	var left []string
	for _, l := range p.toRun() {
		switch share := p.view.Shares[l.Name]; {
		case share >= survey.Whole:
		case p.begun(l.Name):
			left = append(left, fmt.Sprintf("%s (%s logged)", l.Name, logged(share)))
		default:
			left = append(left, l.Name)
		}
	}
	return left
}

// begun reports a line of which something is logged.
func (p *post) begun(line string) bool {
	return p.view.Shares[line] > 0 || p.view.Bridge.Logging == line || slices.Contains(p.view.Lines, line)
}

// logged is a share in whole hundredths, never more than it is.
func logged(share float64) string { return survey.Percent(100*share, 0) + " %" }
