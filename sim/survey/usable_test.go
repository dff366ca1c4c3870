package survey

import (
	"math"
	"testing"
)

// NOAA Hydrographic Surveys Specifications and Deliverables 2021, 6.1.2: the fish
// is towed at 8 to 20 percent of the range scale, and below 8 % the range is good
// for 12.5 times its height.
func TestUsableRange(t *testing.T) {
	for _, row := range []struct {
		name                  string
		scale, height, wanted float64
	}{
		{"8 %", 100, 8, 100},
		{"20 %", 100, 20, 100},
		{"6 %", 100, 6, 75},
		{"4 m on 75 m", 75, 4, 50},
		{"on the floor", 75, 0, 0},
	} {
		if got := UsableRange(row.scale, row.height); got != row.wanted {
			t.Errorf("%s: got %g m, want %g", row.name, got, row.wanted)
		}
	}
	// 4 m up, 50 m of slant range end at a ground range of sqrt(50^2 - 4^2).
	if got, want := GroundReach(75, 4), 49.8397431775; math.Abs(got-want) > 1e-9 {
		t.Errorf("over the ground it is %v m, want %v", got, want)
	}
}

func TestHeightBand(t *testing.T) {
	if low, high := HeightBand(0.1, 0.15); low != 0.1 || high != 0.15 {
		t.Errorf("given 10 to 15 %%: %g to %g", low, high)
	}
	if low, high := HeightBand(0, 0); 100*low != 8 || 100*high != 20 {
		t.Errorf("given nothing: %g to %g %%, want 8 to 20", 100*low, 100*high)
	}
}
