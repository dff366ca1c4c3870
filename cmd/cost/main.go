package main

import (
	"bytes"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
)

func main() {
	out := flag.String("o", "docs", "folder to write cost.md and cost.png to")
	rounds := flag.Int("rounds", 3, "times that every survey is flown; the least time counts")
	flag.Parse()
	if flag.NArg() > 0 || *rounds < 1 {
		fmt.Fprintln(os.Stderr, "cost: takes no arguments, and one round at least")
		os.Exit(2)
	}
	if err := run(*out, *rounds, os.Stderr); err != nil {
		fmt.Fprintln(os.Stderr, "cost:", err)
		os.Exit(1)
	}
}

// run measures all and writes what came of it.
func run(out string, rounds int, progress io.Writer) error {
	if info, err := os.Stat(out); err != nil || !info.IsDir() {
		return fmt.Errorf("%s is no folder", out) // before minutes of flying
	}
	runtime.GOMAXPROCS(1)
	all := series()
	for round := range rounds {
		for i := range all {
			for j := range all[i].points {
				p := &all[i].points[j]
				if err := p.measure(); err != nil {
					return fmt.Errorf("%s, %g: %w", all[i].title, p.value, err)
				}
				fmt.Fprintf(progress, "round %d, %s %g: %.2f s\n", round+1, all[i].title, p.value, p.seconds)
			}
		}
	}
	var picture bytes.Buffer
	if err := draw(&picture, all); err != nil {
		return err
	}
	for name, content := range map[string][]byte{"cost.md": []byte(page(all)), "cost.png": picture.Bytes()} {
		if err := os.WriteFile(filepath.Join(out, name), content, 0o644); err != nil {
			return err
		}
	}
	return nil
}
