package mark

import "math"

// Precision is the share of the marks that are true, and Recall the share of the
// objects that were found; with none to judge by they are 0.
func Precision(found, wrong int) float64 { return share(found, found+wrong) }

// Recall is the share of the objects that were found.
func Recall(found, missed int) float64 { return share(found, found+missed) }

func share(part, whole int) float64 {
	if whole <= 0 {
		return 0
	}
	return float64(part) / float64(whole)
}

// F is the F-beta measure of precision and recall, (1+b^2) P R / (b^2 P + R): recall
// counts beta times as much as precision (van Rijsbergen, Information Retrieval,
// 1979, from memory).
func F(beta, precision, recall float64) float64 {
	b := beta * beta
	if below := b*precision + recall; below > 0 {
		return (1 + b) * precision * recall / below
	}
	return 0
}

// Wilson is the score interval of a share, part of whole, at z standard deviations
// (Wilson, J. Am. Stat. Assoc. 22, 1927; from memory). They need not be whole numbers:
// the whole may be an effective one.
func Wilson(part, whole, z float64) (low, high float64) {
	if !(whole > 0) {
		return 0, 1
	}
	n, p := whole, part/whole
	middle := (p + z*z/(2*n)) / (1 + z*z/n)
	half := z / (1 + z*z/n) * math.Sqrt(p*(1-p)/n+z*z/(4*n*n))
	return max(middle-half, 0), min(middle+half, 1)
}

// En is the difference of two values over their expanded uncertainties (k = 2)
// together; up to 1 they agree (ISO 13528 and ISO/IEC 17043, from memory).
func En(x, reference, u, uReference float64) float64 {
	return (x - reference) / math.Hypot(u, uReference)
}

// Forecast is how sure somebody was of something, and whether it was so.
type Forecast struct {
	Confidence float64 // 0..1
	So         bool
}

// Brier is the mean squared difference of confidences and what was so, 0 at best,
// with Murphy's parts of it: score = reliability - resolution + uncertainty
// (Murphy, J. Appl. Meteorol. 12, 1973). Confidences that are equal are one group.
func Brier(forecasts []Forecast) (score, reliability, resolution, uncertainty float64) {
	n := float64(len(forecasts))
	if n == 0 {
		return 0, 0, 0, 0
	}
	type group struct{ n, so float64 }
	groups := map[float64]group{}
	var order []float64 // sums in the order things came in are the same every time
	base := 0.0
	for _, f := range forecasts {
		o := 0.0
		if f.So {
			o = 1
		}
		g, known := groups[f.Confidence]
		if !known {
			order = append(order, f.Confidence)
		}
		groups[f.Confidence] = group{g.n + 1, g.so + o}
		score += (f.Confidence - o) * (f.Confidence - o) / n
		base += o / n
	}
	for _, p := range order {
		g := groups[p]
		mean := g.so / g.n
		reliability += g.n / n * (p - mean) * (p - mean)
		resolution += g.n / n * (mean - base) * (mean - base)
	}
	return score, reliability, resolution, base * (1 - base)
}
