package scenarios

import (
	"testing"

	"dryline/sim/exercise"
)

func TestHelp(t *testing.T) {
	for _, row := range []struct {
		name, section string
		want          exercise.Help
	}{
		{"left out", "", exercise.Help{Coach: true, Pause: true, MostSpeedUp: 20}},
		{"an examination", "help: { coach: false, pause: false, most_speed_up: 1 }\n", exercise.Help{MostSpeedUp: 1}},
		{"to begin with", "help: { true_scene: true }\n", exercise.Help{Coach: true, TrueScene: true, Pause: true, MostSpeedUp: 20}},
	} {
		e, err := Parse("small.yaml", []byte(edit(t, small(t), "plan:\n", row.section+"plan:\n")))
		if err != nil {
			t.Fatal(err)
		}
		if e.Help != row.want {
			t.Errorf("%s: got %+v, want %+v", row.name, e.Help, row.want)
		}
	}
	first, err := Find("first-line")
	if err != nil {
		t.Fatal(err)
	}
	if !first.Help.TrueScene {
		t.Error("the first exercise hides the truth")
	}
}
