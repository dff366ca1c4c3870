package survey

import (
	"strconv"
	"testing"
)

func TestPercent(t *testing.T) {
	for _, row := range []struct {
		percent  float64
		decimals int
		want     string
	}{
		{100, 1, "100.0"}, {99.983, 1, "99.9"}, {99.999999999, 1, "99.9"}, {99.999999999, 0, "99"},
		{94.96, 1, "94.9"}, {94.5, 0, "94"}, {0, 1, "0.0"}, {0.04, 1, "0.0"}, {-1e-12, 1, "0.0"}, {100.0000001, 0, "100"},
	} {
		if got := Percent(row.percent, row.decimals); got != row.want {
			t.Errorf("%v to %d decimals: got %s, want %s", row.percent, row.decimals, got, row.want)
		}
	}
	// What is a whole number of hundredths keeps it, by whatever sum it came.
	for n := range 101 {
		if got := Percent(100*(float64(n)/100), 0); got != strconv.Itoa(n) {
			t.Errorf("%d hundredths: got %s", n, got)
		}
	}
}
