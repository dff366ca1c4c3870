package app

import (
	"slices"
	"strings"
	"testing"

	"dryline/scenarios"
)

// Values are said as people say them.
func TestValuesAreSpoken(t *testing.T) {
	for _, row := range []struct{ value, want string }{
		{"true", "yes"}, {"false", "no"}, {"survey_launch", "survey launch"},
		{"armoured_17mm", "armoured 17 mm"}, {"soft", "soft"}, {"12", "12"}, {"mm", "mm"},
	} {
		if got := spoken(row.value); got != row.want {
			t.Errorf("%q: got %q, want %q", row.value, got, row.want)
		}
	}
}

// Of a choice every option is told.
func TestOptionsOfAChoiceAreTold(t *testing.T) {
	ex, err := scenarios.Find("first-line")
	if err != nil {
		t.Fatal(err)
	}
	p, err := NewPractice(ex)
	if err != nil {
		t.Fatal(err)
	}
	choices := 0
	for i := range p.fields {
		f := &p.fields[i]
		says := strings.Join(explains(f), "\n")
		for _, c := range f.Choices {
			choices++
			if !strings.Contains(says, spoken(c)) {
				t.Errorf("%s: %q is not told: %q", f.Label, c, says)
			}
		}
	}
	if choices == 0 {
		t.Error("there is nothing to choose")
	}
}

// The way back from practice leads to the exercise it came from.
func TestTheWayBackLeadsToTheExercise(t *testing.T) {
	for _, name := range []string{"first-line", "sloping-bank", "disused-anchorage"} {
		if _, _, got := chooseAt(name).Inspect(); got != name {
			t.Errorf("%s: %v is chosen", name, got)
		}
	}
	if c := chooseAt("none of them"); c.deck.chosen != 0 {
		t.Errorf("an exercise that is not listed chooses %d", c.deck.chosen)
	}
}

// Sessions are listed by exercise and by how far they went.
func TestSessionsAreListedByWhatTheyAre(t *testing.T) {
	g := NewGame(&memory{}, false)
	keepOne(t, g)
	list := g.Store.Sessions()
	half := summarise(list[0].Read())
	if half.spent < 3 || half.spent > 5 {
		t.Errorf("five seconds of a watch are said to be %d", half.spent)
	}
	half.spent = 156
	if got := half.label(list[0]); !strings.HasPrefix(got, "The disused anchorage, left at 2 min 36 s, 12 May") {
		t.Errorf("left half way: %q", got)
	}
	half.over = true
	if got := half.label(list[1]); got != half.title+", over after 2 min 36 s" {
		t.Errorf("over: %q", got)
	}
	if got := summarise([]byte("no log"), nil).label(SavedSession{Name: "out/a.jsonl"}); got != "a, cannot be read" {
		t.Errorf("broken: %q", got)
	}
	if !slices.ContainsFunc(half.says, func(s string) bool { return strings.HasPrefix(s, "Lines begun: ") }) {
		t.Errorf("it does not say which lines were begun: %q", half.says)
	}
}
