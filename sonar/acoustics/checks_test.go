package acoustics

import (
	"encoding/csv"
	"maps"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// check is one row of a file of published values, by column name.
type check map[string]string

// readChecks reads testdata/acoustics/name. The opening comment lines cite the
// source; the first record names the columns.
func readChecks(t *testing.T, name string) []check {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "..", "testdata", "acoustics", name))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	records, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(records) < 2 {
		t.Fatalf("%s holds no rows", name)
	}
	var checks []check
	for _, record := range records[1:] {
		row := make(check)
		for i, column := range records[0] {
			row[column] = record[i]
		}
		checks = append(checks, row)
	}
	return checks
}

// number returns the named column, failing the test when it is not a number.
func (c check) number(t *testing.T, column string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(c[column], 64)
	if err != nil {
		t.Fatalf("column %s of %v: %v", column, maps.Clone(c), err)
	}
	return x
}

// halfDigit returns half of the last digit printed in a decimal, which is all
// that a printed value can be held to.
func halfDigit(printed string) float64 {
	_, fraction, _ := strings.Cut(printed, ".")
	return 0.5 * math.Pow(10, -float64(len(fraction)))
}

// near reports whether got is within tolerance of want, allowing for the
// rounding of the tolerance itself.
func near(got, want, tolerance float64) bool {
	return math.Abs(got-want) <= tolerance*(1+1e-9)
}

func degrees(d float64) float64 { return d * math.Pi / 180 }
