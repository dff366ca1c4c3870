package mark

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// The most pairs, then the least distance: against every way there is.
func TestPairAgainstBruteForce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		objects, marks := rapid.IntRange(0, 5).Draw(t, "objects"), rapid.IntRange(0, 6).Draw(t, "marks")
		var edges []Edge
		near := map[[2]int]float64{}
		for i := range objects {
			for j := range marks {
				if rapid.Bool().Draw(t, "near") {
					d := float64(rapid.IntRange(0, 40).Draw(t, "d")) / 4
					edges, near[[2]int{i, j}] = append(edges, Edge{i, j, d}), d
				}
			}
		}
		of := Pair(objects, marks, edges)
		pairs, sum, taken := 0, 0.0, map[int]bool{}
		for i, j := range of {
			if j < 0 {
				continue
			}
			d, ok := near[[2]int{i, j}]
			if !ok || taken[j] {
				t.Fatalf("object %d has mark %d, which is not near or has another", i, j)
			}
			taken[j] = true
			pairs, sum = pairs+1, sum+d
		}
		bestPairs, bestSum := 0, math.Inf(1)
		used := make([]bool, marks)
		var try func(i, pairs int, sum float64)
		try = func(i, pairs int, sum float64) {
			if i == objects {
				if pairs > bestPairs || pairs == bestPairs && sum < bestSum {
					bestPairs, bestSum = pairs, sum
				}
				return
			}
			try(i+1, pairs, sum)
			for j := range marks {
				if d, ok := near[[2]int{i, j}]; ok && !used[j] {
					used[j] = true
					try(i+1, pairs+1, sum+d)
					used[j] = false
				}
			}
		}
		try(0, 0, 0)
		if pairs != bestPairs || math.Abs(sum-bestSum) > 1e-6 {
			t.Fatalf("%d pairs of %g m together, want %d of %g", pairs, sum, bestPairs, bestSum)
		}
	})
}

// Worked values: TP 8, FP 2, FN 4 (the definitions, exact); Wilson's interval of 8 in
// 12 and E_n of 1.32 against 1.20 computed with Python from the published formulas.
func TestWorkedValues(t *testing.T) {
	p, r := Precision(8, 2), Recall(8, 4)
	low, high := Wilson(8, 12, 1.959964)
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"precision", p, 0.8},
		{"recall", r, 0.66667},
		{"F1", F(1, p, r), 0.72727},
		{"F2", F(2, p, r), 0.68966},
		{"Wilson, low", low, 0.3906},
		{"Wilson, high", high, 0.8619},
		{"E_n", En(1.32, 1.20, 2*0.08, 2*0.02), 0.7276},
	} {
		if math.Abs(c.got-c.want) > 5e-5 {
			t.Errorf("%s: %.5f, want %.5f", c.what, c.got, c.want)
		}
	}
	if F(1, 0, 0) != 0 || Precision(0, 0) != 0 || Recall(0, 0) != 0 {
		t.Error("nothing marked is not worth 0")
	}
}

// Murphy's parts add up to the score (Murphy 1973, exact).
func TestBrierParts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var list []Forecast
		plain := 0.0
		n := rapid.IntRange(1, 30).Draw(t, "n")
		for range n {
			f := Forecast{float64(rapid.IntRange(0, 4).Draw(t, "p")) / 4, rapid.Bool().Draw(t, "so")}
			list = append(list, f)
			o := 0.0
			if f.So {
				o = 1
			}
			plain += math.Pow(f.Confidence-o, 2)
		}
		score, rel, res, unc := Brier(list)
		if math.Abs(score-plain/float64(n)) > 1e-12 || math.Abs(score-(rel-res+unc)) > 1e-12 {
			t.Fatalf("score %g of %g, parts %g - %g + %g", score, plain/float64(n), rel, res, unc)
		}
	})
	if score, _, _, _ := Brier([]Forecast{{1, true}, {0, false}}); score != 0 {
		t.Errorf("sure and right: %g, want 0", score)
	}
	if score, _, _, _ := Brier([]Forecast{{0.5, true}, {0.5, false}}); score != 0.25 {
		t.Errorf("half and half: %g, want 0.25", score)
	}
}

// A true find more, a false mark less: never worse. Over the plane of counts.
func TestFIsMonotone(t *testing.T) {
	f := func(found, wrong, missed int) float64 { return F(1, Precision(found, wrong), Recall(found, missed)) }
	for found := range 12 {
		for wrong := range 12 {
			for missed := 1; missed < 12; missed++ {
				if f(found+1, wrong, missed-1) < f(found, wrong, missed) {
					t.Errorf("one of %d missed found, %d found, %d wrong: it is worth less", missed, found, wrong)
				}
				if wrong > 0 && f(found, wrong-1, missed) < f(found, wrong, missed) {
					t.Errorf("one of %d wrong taken off, %d found, %d missed: it is worth less", wrong, found, missed)
				}
			}
		}
	}
}

// Whatever is asked for, the points add up to the whole.
func TestWeightsAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		asked := map[ID]bool{}
		for _, id := range IDs() {
			asked[id] = rapid.Bool().Draw(t, string(id))
		}
		w := Default(rapid.Bool().Draw(t, "objects")).Over(func(id ID) bool { return asked[id] })
		sum := 0.0
		for _, v := range w {
			sum += v
		}
		if math.Abs(sum-Full) > 1e-9 {
			t.Fatalf("%v add up to %g", w, sum)
		}
	})
}
