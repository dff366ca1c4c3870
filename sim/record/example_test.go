package record_test

import (
	"fmt"

	"dryline/sim/record"
	"dryline/sim/survey"
	"dryline/vessel/nav/geodesy"
)

// A session puts its pings into a store as they reach the desk; the desk goes
// through a line again when the surveyor has changed his mind.
func Example() {
	backing, err := record.OnDisk("") // in memory or nowhere else: record.InMemory(), nil
	if err != nil {
		fmt.Println(err)
		return
	}
	store := record.New(backing)
	defer store.Close()

	set := survey.Recorder{RangeScale: 50, Samples: 4, Channels: []string{"450"}}
	store.StartLine("L1", geodesy.Track{BY: 100})
	for n := range uint64(3) {
		echo := [][]uint16{{1, 2, 300, uint16(40 * n)}}
		if err := store.Append(&survey.Ping{Number: n, Port: echo, Starboard: echo}, &set); err != nil {
			fmt.Println(err)
		}
	}
	store.EndLine()

	for i, line := range store.Lines() {
		fmt.Println(line.Name, line.Pings)
		for p, err := range store.LinePings(i) {
			if err != nil {
				fmt.Println(err)
				break
			}
			fmt.Println(p.Number, p.Recorder.RangeScale, p.Port[0])
		}
	}
	// Output:
	// L1 3
	// 0 50 [1 2 300 0]
	// 1 50 [1 2 300 40]
	// 2 50 [1 2 300 80]
}
