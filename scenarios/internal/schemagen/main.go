// Command schemagen writes the JSON Schema of exercise files to the file named
// by its argument.
package main

import (
	"fmt"
	"os"

	"dryline/scenarios"
)

func main() {
	if len(os.Args) != 2 {
		fmt.Fprintln(os.Stderr, "usage: schemagen file")
		os.Exit(2)
	}
	if err := os.WriteFile(os.Args[1], scenarios.Schema(), 0o644); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}
