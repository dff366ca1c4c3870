package grid_test

import (
	"os"
	"strconv"
	"testing"
)

func strconvFormat(v float64) string { return strconv.FormatFloat(v, 'f', 6, 64) }

func readFile(t testing.TB, name string) []byte {
	t.Helper()
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return data
}
