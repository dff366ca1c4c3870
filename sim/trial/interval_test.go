package trial

import (
	"math"
	"testing"
)

// Figures of R's binom.confint as statsmodels keeps them in its
// tests/results/results_proportion.py (Wilson and exact), to the digits copied here; those
// for 30/30 and 0/30 agree with the closed forms n/(n+z2) and 1-0.025^(1/n).
func TestIntervalsAgreeWithPublishedFigures(t *testing.T) {
	for _, c := range []struct {
		k, n         int
		wilson, beta [2]float64
	}{
		{18, 20, [2]float64{.698966, .972134}, [2]float64{.683017, .987651}},
		{4, 20, [2]float64{.080658, .416017}, [2]float64{.057334, .436614}},
		{4, 200, [2]float64{.007804, .050287}, [2]float64{.005476, .050414}},
		{0, 30, [2]float64{0, .113513}, [2]float64{0, .115703}},
		{30, 30, [2]float64{.886487, 1}, [2]float64{.884297, 1}},
		{90, 100, [2]float64{.825634, .944771}, [2]float64{.823777, .950995}},
		{900, 1000, [2]float64{.879848, .917091}, [2]float64{.879712, .917895}},
	} {
		near := func(name string, got Interval, want [2]float64) {
			if math.Abs(got.Low-want[0]) > 2e-6 || math.Abs(got.High-want[1]) > 2e-6 {
				t.Errorf("%s of %d/%d: %.6f to %.6f, want %.6f to %.6f", name, c.k, c.n, got.Low, got.High, want[0], want[1])
			}
		}
		near("Wilson", Wilson(float64(c.k), float64(c.n)), c.wilson)
		near("Clopper-Pearson", ClopperPearson(c.k, c.n), c.beta)
	}
}

// Runs for a half-width of 0.05 at 95 % by Wilson: 381 at 0.5, 141 at 0.9 (worked out from
// Wilson's formula; the Wald figures are the 385 and 139 of textbooks).
func TestRunsForAHalfWidth(t *testing.T) {
	for p, want := range map[float64]int{0.5: 381, 0.9: 141} {
		n := 1
		for i := Wilson(p, 1); (i.High-i.Low)/2 > 0.05; i = Wilson(p*float64(n), float64(n)) {
			n++
		}
		if n != want {
			t.Errorf("at %g: %d runs, want %d", p, n, want)
		}
	}
}

// Paired binary differences: of 400 pairs 30 won and 12 lost give a difference of 0.045
// with a standard error of 0.016045, sqrt(b+c-(b-c)^2/n)/n (Agresti, Categorical Data
// Analysis, the standard error of a paired difference; from memory), where the unpaired
// figure is 0.023.
func TestPairedDifference(t *testing.T) {
	var a, b []float64
	for i := range 400 {
		x, y := 1.0, 1.0
		switch {
		case i < 30:
			y = 0
		case i < 42:
			x = 0
		}
		a, b = append(a, x), append(b, y)
	}
	d := Paired(a, b)
	se := (d.High - d.Low) / 2 / 1.96594 // Student's t of 399 degrees, 97.5 %
	if math.Abs(d.Mean-0.045) > 1e-12 || math.Abs(se-0.016045) > 3e-5 || d.Low <= 0 {
		t.Errorf("%+v with a standard error of %.6f", d, se)
	}
}

// Targets that are found together or not at all are worth no more than their runs; ones
// that are independent are worth themselves.
func TestTargetsOfOneRunAreClustered(t *testing.T) {
	var together, of []float64
	for i := range 40 {
		k := 0.0
		if i%4 != 0 {
			k = 10
		}
		together, of = append(together, k), append(of, 10)
	}
	all, runs := Clustered(together, of), Wilson(30, 40)
	if math.Abs((all.High-all.Low)-(runs.High-runs.Low)) > 0.01 {
		t.Errorf("ten to a run together: %.3f wide, want the %.3f of 40 runs", all.High-all.Low, runs.High-runs.Low)
	}
	if none := Clustered(make([]float64, 40), of); none.Low != 0 || math.Abs(none.High-Wilson(0, 40).High) > 1e-12 {
		t.Errorf("none found in 40 runs: %+v", none)
	}
}
