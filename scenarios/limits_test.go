package scenarios

import (
	"errors"
	"fmt"
	"strings"
	"testing"
)

type hostileRow struct{ name, source, want string }

// hostileRows are files made to exhaust or confuse the reader.
func hostileRows(t testing.TB) []hostileRow {
	var bomb strings.Builder
	bomb.WriteString("a: &a [x, x, x, x, x, x, x, x, x]\n")
	for c := 'b'; c <= 'k'; c++ {
		fmt.Fprintf(&bomb, "%c: &%c [%s]\n", c, c, strings.TrimSuffix(strings.Repeat("*"+string(c-1)+", ", 9), ", "))
	}
	base := small(t)
	return []hostileRow{
		{"empty", "", "x.yaml: is not an exercise: nothing in it"},
		{"only a comment", "# nothing\n", "x.yaml: is not an exercise: nothing in it"},
		{"null", "~", "x.yaml:1: is given no value"},
		{"a text", "hello", "x.yaml:1: \"hello\" is not keys with values"},
		{"a list", "[1, 2]", "x.yaml:1: a list is not keys with values"},
		{"not UTF-8", "title: \xff\xfe", "x.yaml: is not an exercise: "},
		{"control character", "title: \x01", "x.yaml: is not an exercise: "},
		{"too large", strings.Repeat("#", maxSource+1), "x.yaml: is too large for an exercise (want at most 1 MiB)"},
		{"alias bomb", bomb.String(), "x.yaml:1: a: is no key"},
		{"alias bomb in use", "goals: " + "&g [a]\n" + "lines: [" + strings.Repeat("*g, ", 60) + "*g]\n", "lines[0]: *g is an alias"},
		{"alias of itself", "title: &t [*t]", "x.yaml:1: title: a list is not text"},
		{"merge key", edit(t, base, "cable_out_m: 20", "<<: { cable_out_m: 20 }"), "plan.\"<<\": is no key"},
		{"deep", strings.Repeat("[", 200_000), "is not an exercise: "},
		{"deep keys", strings.Repeat("{a: ", 100_000), "is not an exercise: "},
		{"many unknown keys", manyKeys(60_000), "and 59907 faults more"},
		{"many lines", edit(t, base, "lines:\n", "lines:\n"+strings.Repeat("  - {}\n", 100_000)), "lines: has 100002 items (want a list of 1 to 256)"},
		{"long key", "? " + strings.Repeat("k", 500_000) + "\n: 1", "kkk...\": is no key of an exercise"},
		{"long value", edit(t, base, "depth_m: 20", "depth_m: "+strings.Repeat("9", 500_000)), "seabed.depth_m: \"9999999999999999999999999999999999999999...\" is not a number"},
		{"key that is a list", "? [a, b]\n: 1\n", "x.yaml:1: a list is no key"},
		{"escape in text", edit(t, base, "name: L2", `name: "\e[31mL1"`), `lines[1].name: "\x1b[31mL1" holds control or format characters`},
		{"long anchor", "title: *" + strings.Repeat("k", 500_000), "kkk..."},
	}
}

// Hostile files are refused for what they are.
func TestHostileFiles(t *testing.T) {
	for _, row := range hostileRows(t) {
		t.Run(row.name, func(t *testing.T) {
			_, err := Parse("x.yaml", []byte(row.source))
			fs := Faults(nil)
			if !errors.As(err, &fs) {
				t.Fatalf("got %T %v, want faults", err, err)
			}
			if len(fs) > maxFaults+1 || !strings.Contains(err.Error(), row.want) {
				t.Errorf("got %d faults:\n%.600s\nwant %q among them", len(fs), err, row.want)
			}
		})
	}
}

func manyKeys(n int) string {
	var b strings.Builder
	for i := range n {
		fmt.Fprintf(&b, "k%d: 1\n", i)
	}
	return b.String()
}
