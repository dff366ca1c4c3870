package scenarios

import (
	"math"
	"testing"
)

// Trails lead where the current of the flow sets to, unless a bearing is given.
func TestTrailsFollowTheCurrent(t *testing.T) {
	for _, test := range []struct {
		marks string
		want  float64 // degrees
	}{{"kind: trails, length_m: 12", 70}, {"kind: trails, length_m: 12, along_deg: 0", 0}} {
		ex, err := Parse("my.yaml", []byte(edit(t, small(t), "  depth_m: 20",
			"  depth_m: 20\n  flow: { current_kn: 1, set_deg: 70 }\n  sediment: { patches: [{ class: gravel, marks: { "+test.marks+" } }] }")))
		if err != nil {
			t.Fatal(err)
		}
		if got := ex.Seabed.Patches[0].Marks.Along / degree; math.Abs(got-test.want) > 1e-9 {
			t.Errorf("%s: along %g degrees, want %g", test.marks, got, test.want)
		}
	}
}
