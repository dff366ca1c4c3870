package main

import (
	"bytes"
	"encoding/json"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

// Whatever the flags of a calculator are set to within their limits, its answer
// is finite, or it says in one line why there is none, with status 2.
func TestCalculatorsAnswerWithFiniteNumbers(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	calc, _, err := newRootCommand().Find([]string{"calc"})
	if err != nil {
		t.Fatal(err)
	}
	answered := 0
	for _, c := range calc.Commands() {
		for range 150 {
			args := []string{"calc", c.Name(), "--json"}
			for name, value := range draw(c, random) {
				args = append(args, "--"+name+"="+strconv.FormatFloat(value, 'g', -1, 64))
			}
			var stdout, stderr bytes.Buffer
			status := Main(args, &stdout, &stderr)
			switch said := stdout.String() + stderr.String(); {
			case strings.Contains(said, "Inf") || strings.Contains(said, "NaN"):
				t.Fatalf("%v: %s", args, said)
			case status == exitUsage && strings.Count(stderr.String(), "\n") == 1:
				continue
			case status != exitOK:
				t.Fatalf("%v: status %d, %s", args, status, stderr.String())
			}
			var object map[string]any
			if err := json.Unmarshal(stdout.Bytes(), &object); err != nil || len(object) == 0 {
				t.Fatalf("%v: %v in %s", args, err, stdout.String())
			}
			answered++
		}
	}
	if answered < 500 {
		t.Errorf("only %d answers: the test hardly tests", answered)
	}
}

// draw sets the numbers of a command to their limits, to zero, or to something
// between, small numbers as often as large ones.
func draw(c *cobra.Command, random *rand.Rand) map[string]float64 {
	values := map[string]float64{}
	c.Flags().VisitAll(func(f *pflag.Flag) {
		n, ok := f.Value.(*number)
		if !ok || !n.required && random.IntN(2) == 0 {
			return
		}
		low, high := n.limits.min, n.limits.max
		v := low
		switch random.IntN(6) {
		case 0:
		case 1:
			v = high
		case 2:
			v = min(max(0, low), high)
		case 3:
			v = low + (high-low)*math.Pow(10, -6*random.Float64())
		default:
			v = low + (high-low)*random.Float64()
		}
		if !n.limits.allows(v) {
			v = math.Nextafter(low, high)
		}
		values[f.Name] = v
	})
	return values
}
