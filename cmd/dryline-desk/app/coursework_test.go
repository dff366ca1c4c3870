package app

import (
	"strings"
	"testing"

	"dryline/scenarios"
	"dryline/sim/course"
	"dryline/sim/debrief"
)

// Help fades as the course says, by what the window remembers of attempts; an exercise
// whose values were changed is none of the course.
func TestHelpFadesByTheCourse(t *testing.T) {
	g := NewGame(&memory{}, false)
	find := func(name string) (hash string) {
		ex, err := scenarios.Find(name)
		if err != nil {
			t.Fatal(err)
		}
		return ex.Hash
	}
	coached := func(name, hash string) bool {
		ex, err := scenarios.Find(name)
		if err != nil {
			t.Fatal(err)
		}
		return g.faded(ex.Brief(), hash).Help.Coach
	}
	ended := func(name, hash string, points float64, verdict string) {
		r := debrief.Report{}
		r.Exercise.Name, r.Exercise.Hash, r.Exercise.Seed = name, hash, uint64(points)
		r.Score.Points, r.Score.Low, r.Score.High, r.Score.Verdict = points, points, points, verdict
		g.remember(&r)
	}
	// cross-stream is coached until it is passed, water-main at the first attempt only,
	// first-line always, boat-time never.
	for _, name := range []string{"cross-stream", "water-main", "first-line"} {
		if !coached(name, find(name)) {
			t.Errorf("%s is not coached at first", name)
		}
		ended(name, find(name), 50, debrief.VerdictFailed)
	}
	if coached("boat-time", find("boat-time")) {
		t.Error("boat-time is coached")
	}
	if !coached("cross-stream", find("cross-stream")) || coached("water-main", find("water-main")) || !coached("first-line", find("first-line")) {
		t.Error("after a failed attempt the wrong ones are coached")
	}
	ended("cross-stream", "another file of the name", 99, debrief.VerdictPassed)
	if !coached("cross-stream", find("cross-stream")) {
		t.Error("an exercise with other values counts")
	}
	ended("cross-stream", find("cross-stream"), 88, debrief.VerdictPassed)
	if coached("cross-stream", find("cross-stream")) {
		t.Error("cross-stream is coached after it was passed")
	}
	if !coached("cross-stream", "another file of the name") {
		t.Error("free practice loses its coach")
	}

	// It outlives the program, and is said where exercises are chosen.
	kept, err := ParseSettings(g.Settings.Encode())
	if err != nil || kept.Record == nil || len(kept.Record.Attempts) != 4 {
		t.Fatalf("kept: %+v, %v", kept.Record, err)
	}
	s, ok := g.standing("cross-stream", find("cross-stream"))
	if says := standingSays(s); !ok || !strings.Contains(says, "passed; 2 attempts, best 88 points; now without the coach") {
		t.Errorf("it says %q", says)
	}
}

// Points are never told rounded up: 99.7 is no 100, and 69.9 does not look as if it passed at 70.
func TestPointsAreToldRoundedDown(t *testing.T) {
	for points, want := range map[float64]string{99.7: "best 99", 69.96: "best 69", 70: "best 70", 100: "best 100"} {
		s := course.Standing{State: course.Open, Attempts: 1, Best: points}
		if card, opened := bestSays(s), standingSays(s); !strings.HasSuffix(card, want) || !strings.Contains(opened, want+" points") {
			t.Errorf("%g points: %q on the card and %q beside it, want %s", points, card, opened, want)
		}
	}
}
