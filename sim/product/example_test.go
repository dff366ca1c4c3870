package product_test

import (
	"fmt"
	"strings"

	"dryline/scenarios"
	"dryline/sim"
	"dryline/sim/order"
	"dryline/sim/product"
)

// The products of a session that is driven step by step, in memory. The writer is
// attached before the first step: it draws each waterfall as its line is closed.
func Example() {
	ex, err := scenarios.Find("first-line")
	if err != nil {
		fmt.Println(err)
		return
	}
	s, err := sim.New(ex, 5)
	if err != nil {
		fmt.Println(err)
		return
	}
	var files product.Memory
	writer := product.Attach(s, sim.Attend(s), &files)
	if err := s.Give(order.Command{Do: order.LogOn, Line: "A"}); err != nil {
		fmt.Println(err)
		return
	}
	s.Advance(200) // twenty seconds
	s.Close(order.ReasonFinished)
	if _, err := writer.Finish(); err != nil {
		fmt.Println(err)
		return
	}
	for _, f := range files.Files() {
		if !strings.HasSuffix(f.Name, ".png") {
			fmt.Println(f.Name)
		}
	}
	// Output:
	// track.csv
	// lines.geojson
	// contacts.geojson
	// debrief.json
	// debrief.html
	// truth.geojson
	// session.jsonl
	// mosaic.tif
	// coverage.tif
	// contents.json
}
