package debrief

import (
	"fmt"

	"dryline/sim/order"
	"dryline/sim/passage"
	"dryline/sim/survey"
)

// The gates' ids.
const (
	gatePractice = "practice"
	gateWhole    = "whole_exercise"
	gateLost     = "fish_lost"
	gateAground  = "fish_aground"
	gateCoverage = "coverage"
	gateTurn     = "turn_logged"
	gateReport   = "contact_report"
	gateRub      = "rub_test"
	gateHome     = "fish_recovered"
)

// falseToEach is how many contacts that are nothing a report may have to each that is
// something: our own choice.
const falseToEach = 4

// gates returns what fails the exercise whatever the points.
func (m *marking) gates() []Gate {
	out := []Gate{}
	gate := func(id string, met bool, good, bad string) {
		g := Gate{id, met, good}
		if !met {
			g.Why = bad
		}
		out = append(out, g)
	}
	within := m.ex.Score.Within()
	if p := m.r.Practice; p != nil {
		gate(gatePractice, false, "", p.says(m.ex.Start))
	}
	gate(gateWhole, !m.r.Partial, "The whole exercise was run.", "Only a part of the exercise was run: "+m.r.PartialReason+".")
	lost := "The cable parted and the fish is lost."
	if m.w.Count(passage.Parted) == 0 {
		lost = "The fish was dragged or strained until it sent nothing any more."
	}
	gate(gateLost, m.w.Count(passage.Parted)+m.w.Count(passage.Ruined) == 0, "The fish came home.", lost)
	aground := m.r.Aground
	gate(gateAground, aground <= within.Aground,
		fmt.Sprintf("The fish touched something for %.1f s in all; %g s are allowed.", aground, within.Aground),
		fmt.Sprintf("The fish was on the floor or against something for %.1f s in all, and %g s are allowed.", aground, within.Aground))
	least := 100 * within.Coverage
	gate(gateCoverage, m.r.Coverage.Counted >= least,
		fmt.Sprintf("%s %% of the ground was looked at in a way that counts; %s %% are required.", shareOf(m.r.Coverage.Counted), shareOf(least)),
		fmt.Sprintf("Only %s %% of the ground was looked at in a way that counts, and %s %% are required.", shareOf(m.r.Coverage.Counted), shareOf(least)))
	turned := m.turned()
	marked := m.markedInTurn()
	bad := fmt.Sprintf("%s %% of what was logged is from turns, and %s %% are allowed: what is logged while the fish goes round has no place.", shareOf(100*turned), shareOf(100*within.Turn))
	if marked != "" {
		bad = marked + " was marked on a ping logged in a turn: the place it reports is not to be trusted."
	}
	gate(gateTurn, turned <= within.Turn && marked == "", "No place that was handed over rests on pings logged in a turn.", bad)
	if within.RubTest {
		bad := m.rubbing()
		gate(gateRub, bad == "", "Both sides were rubbed, one after the other, before the first line.", bad)
	}
	if within.Recovered > 0 {
		out := m.s.Passage.CableOut()
		gate(gateHome, out <= within.Recovered, "The fish was brought home before the end.",
			fmt.Sprintf("The exercise ended with %.0f m of cable out, and %g m are allowed: haul the fish home before you end it.", out, within.Recovered))
	}
	if m.asksReport() {
		k := m.matched
		shown := false // some object was there to be seen
		for i := range m.r.Targets {
			shown = shown || m.r.Targets[i].ThreePings
		}
		bad := ""
		switch {
		case k.found+k.wrong+k.twice+k.natural == 0:
			bad = "No contact was reported: mark what stands out on the record, or take up what the lookout found; its candidates alone are not a report."
		case k.found == 0 && shown:
			bad = "None of the objects that the record shows was reported."
		case k.wrong > falseToEach*max(k.found, 1):
			bad = fmt.Sprintf("%d contacts are nothing, to %s: nobody can act on such a report. Look again at each, and dismiss what is nothing.", k.wrong, quantity(k.found, "true one"))
		}
		gate(gateReport, bad == "", "Contacts were reported.", bad)
	}
	return out
}

// rubbing says what was wrong with the rub test: each side by itself, before the first
// line, so that the record shows which channel hears which hand.
func (m *marking) rubbing() (bad string) {
	const apart = 40 // ticks that a hand rubs
	last := map[int]int64{}
	for i := range m.s.Commands {
		c := &m.s.Commands[i]
		switch {
		case c.Do == order.LogOn:
			if len(last) == 2 {
				return ""
			}
			return "A line was logged before both sides of the fish were rubbed: whoever logs with a channel that is dead, weak or swapped surveys again."
		case c.Do == order.Rub:
			if other, done := last[3-c.Number]; done && c.Tick-other < apart {
				return "Both sides were rubbed at once: then the record does not tell which channel hears which hand."
			}
			last[c.Number] = c.Tick
		}
	}
	return "The sides of the fish were not rubbed before a line."
}

// asksReport reports whether contacts are to be reported: where the exercise says so
// and there is anything to report.
func (m *marking) asksReport() bool { return m.ex.Score.Gates.Report && len(m.r.Targets) > 0 }

// turned is the share of the logged pings that are from turns.
func (m *marking) turned() float64 {
	n := 0
	for i := range m.pings {
		if m.pings[i].whole == inTurn {
			n++
		}
	}
	return float64(n) / float64(max(len(m.pings), 1))
}

// markedInTurn names a reported contact that was marked on a ping from a turn, or none.
func (m *marking) markedInTurn() string {
	turned := map[uint64]bool{}
	for i := range m.pings {
		if m.pings[i].whole == inTurn {
			turned[m.pings[i].truth.Number] = true
		}
	}
	for i := range m.s.Desk.Contacts {
		if c := &m.s.Desk.Contacts[i]; reported(c) && turned[c.Ping] {
			return contactName(c)
		}
	}
	return ""
}

func contactName(c *survey.Contact) string {
	if c.Name != "" {
		return "Contact " + c.Name
	}
	return fmt.Sprintf("Contact %d", c.Number)
}
