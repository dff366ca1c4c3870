package main

import (
	"os"
	"runtime/debug"
)

// memoryGoal is the heap that the garbage collector works to stay under. A survey holds
// some hundred megabytes of floor and mosaic and makes little garbage, so
// keeping to the goal costs next to nothing.
const memoryGoal = 400 << 20

func main() {
	debug.SetMemoryLimit(memoryGoal)
	os.Exit(Main(os.Args[1:], os.Stdout, os.Stderr))
}
