package scenarios_test

import (
	"fmt"
	"strings"

	"dryline/scenarios"
)

func ExampleFind() {
	e, err := scenarios.Find(scenarios.Default)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%s: %d lines at %.2f m/s\n", e.Title, len(e.Lines), e.Plan.Speed)
	// Output:
	// The disused anchorage: 5 lines at 2.16 m/s
}

// A file's faults are all told at once.
func ExampleParse() {
	e, err := scenarios.Find("first-line")
	if err != nil {
		fmt.Println(err)
		return
	}
	source := strings.NewReplacer(
		"depth_m: 18", "depth_m: deep",
		"order: [A, -B]", "order: [A, -C]",
		"speed_kn: 4.2", "speed_kn: 42",
	).Replace(string(e.Source))
	_, err = scenarios.Parse("mine.yaml", []byte(source))
	fmt.Println(err)
	// Output:
	// mine.yaml:28: seabed.depth_m: "deep" is not a number (want 2 to 500 m)
	// mine.yaml:57: plan.order[1]: "-C" names no line (want A)
	// mine.yaml:58: plan.speed_kn: 42 is out of range (want 0.5 to 15 kn)
}
