package trial

import (
	"context"
	"fmt"
	"math"
	"testing"

	"dryline/seabed"
	"dryline/sim/exercise"
	"dryline/sim/simtest"
)

// straight is one line over flat sand in calm water, with blocks on either side of it.
func straight(t *testing.T, run *Run) *exercise.Exercise {
	ex := simtest.Small(t)
	ex.Seabed.Objects = run.Objects
	ex.Lines, ex.Plan.Order = ex.Lines[:1], ex.Plan.Order[:1]
	ex.Score.AltitudeMax = 1
	return ex
}

// around is ground about that line, a little shorter than it.
var around = []seabed.Point{{X: 60, Y: 230}, {X: 140, Y: 230}, {X: 140, Y: 350}, {X: 60, Y: 350}}

// Pings on a target of length L along the track, at d from ping to ping and with a beam that is B
// wide: (L + B)/d in the mean, and no count other than the whole numbers on either side (geometry).
// B is the half-power width of its two-way beam, hypot(0.6 L_array, 0.64 lambda/L_array R)
// near to far (0.886 lambda/L one way is in any text on arrays, such as Urick, from memory; two ways
// the square of sin x/x falls to 0.707, at 0.64).
func TestPingsOnTarget(t *testing.T) {
	const array, wavelength = 0.48, 1490 / 450e3
	far := math.Hypot(0.6*array, 50*0.638*wavelength/array)
	for _, long := range []float64{0.5, 1, 2} {
		run := &Run{Number: 1}
		for i := range 36 {
			at := 15 + 10*float64(i%3)
			if i%2 == 1 {
				at = -at
			}
			run.Objects = append(run.Objects, seabed.Object{
				Name: fmt.Sprint(i), Kind: "block", At: seabed.Point{X: 100 + at, Y: 225 + 3.637*float64(i)}, Length: long, Width: 1, Height: 0.3,
			})
			run.Of = append(run.Of, i%3)
		}
		ex := straight(t, run)
		out, err := Fly(context.Background(), ex, run, around)
		if err != nil {
			t.Fatal(err)
		}
		d := 2 * 50 / ex.Desk.SoundSpeed * ex.Plan.Speed // a ping of 50 m range each, while the fish makes its speed
		var sum, n [3]float64
		for _, s := range out.Seen {
			beam := 0.6*array + (far-0.6*array)*(15+10*float64(s.Target))/50
			m := (long + beam) / d
			if len(s.Looks) != 1 {
				t.Fatalf("%d looks from one line", len(s.Looks))
			}
			got := s.Looks[0].Pings
			if math.Abs(float64(got)-m) > 1.2 {
				t.Errorf("a block of %g m: %d pings, want %.2f", long, got, m)
			}
			sum[s.Target] += float64(got)/12 - m/12
			n[s.Target]++
		}
		for k := range sum {
			if n[k] != 12 || math.Abs(sum[k]) > 0.25 {
				t.Errorf("a block of %g m at %d m: %+.2f pings off the mean of %g", long, 15+10*k, sum[k], n[k])
			}
		}
	}
}
