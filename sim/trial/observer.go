package trial

import "math"

// halfSeen is how many line pairs over its critical size an object is detected by in half
// of all cases (Johnson 1958, detection, from memory: 1.0 +- 0.25). The criterion is an
// optical one: its use for sonar is an analogy.
const halfSeen = 1.0

// Observed is the probability that a careful observer sees a target in one look: that its
// echo or shadow stands out at all, which is the detector's word, and that it covers enough
// pixels: P = r^E/(1+r^E) with E = 2.7 + 0.7 r, r the line pairs over [halfSeen] (the usual
// fit to Johnson's figures, from memory), two pixels to a pair, over the fewer of the pings
// and the samples that it covers. What it leaves out: fatigue, the screen, who is looking.
func Observed(l *Look, threshold float64) float64 {
	if l.Score <= threshold {
		return 0
	}
	return johnson(math.Min(float64(l.Pings), l.Samples) / 2 / halfSeen)
}

func johnson(r float64) float64 {
	if r <= 0 {
		return 0
	}
	e := math.Pow(r, 2.7+0.7*r)
	if math.IsInf(e, 1) {
		return 1
	}
	return e / (1 + e)
}

// observed is the probability that one of the looks shows it to the observer.
func (s *Sight) observed(threshold float64) float64 {
	miss := 1.0
	for i := range s.Looks {
		miss *= 1 - Observed(&s.Looks[i], threshold)
	}
	return 1 - miss
}
