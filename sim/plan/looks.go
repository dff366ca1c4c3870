package plan

import (
	"math"
	"slices"
)

// Looks are the shares of the ground that are seen 0, 1, 2, ... times by lines without
// end, S apart, each of which sees from a gap g on either side of it out to R: a place x
// is seen by every line with g <= |x - iS| <= R. Exact.
func Looks(reach, spacing, gap float64) []float64 {
	var cuts []float64
	add := func(x float64) {
		x = math.Mod(x, spacing)
		if x < 0 {
			x += spacing
		}
		cuts = append(cuts, x)
	}
	n := int(math.Ceil(reach/spacing)) + 1
	for i := -n; i <= n; i++ {
		for _, d := range []float64{-reach, -gap, gap, reach} {
			add(float64(i)*spacing + d)
		}
	}
	cuts = append(cuts, 0, spacing)
	slices.Sort(cuts)
	var shares []float64
	for i := 1; i < len(cuts); i++ {
		if cuts[i]-cuts[i-1] < 1e-12*spacing {
			continue
		}
		x, looks := (cuts[i]+cuts[i-1])/2, 0
		for k := -n; k <= n; k++ {
			if d := math.Abs(x - float64(k)*spacing); d >= gap && d <= reach {
				looks++
			}
		}
		for len(shares) <= looks {
			shares = append(shares, 0)
		}
		shares[looks] += (cuts[i] - cuts[i-1]) / spacing
	}
	return shares
}

// Found is the chance that something is seen at least once, where every look sees it
// with a chance of its own, by the shares of looks. Looks at one thing are not
// independent at sea: this is the better end.
func Found(shares []float64, each float64) float64 {
	sum := 0.0
	for k, s := range shares {
		sum += s * (1 - math.Pow(1-each, float64(k)))
	}
	return sum
}

// FoundOff is Found where each line lies off its place by a normal error of its own,
// deviation sigma, as navigation has it: the mean over the ground.
func FoundOff(reach, spacing, gap, sigma, each float64) float64 {
	if sigma <= 0 {
		return Found(Looks(reach, spacing, gap), each)
	}
	const steps = 2000
	n := int(math.Ceil((reach+6*sigma)/spacing)) + 1
	between := func(d, a, b float64) float64 { // chance that d + error lies in a..b
		return (math.Erf((b-d)/(sigma*math.Sqrt2)) - math.Erf((a-d)/(sigma*math.Sqrt2))) / 2
	}
	sum := 0.0
	for i := range steps {
		x := (float64(i) + 0.5) / steps * spacing
		miss := 1.0
		for k := -n; k <= n; k++ {
			d := x - float64(k)*spacing
			seen := between(d, -reach, reach) - between(d, -gap, gap)
			miss *= 1 - each*seen
		}
		sum += 1 - miss
	}
	return sum / steps
}

// GapShare is the part of the reach next to the fish that is not to be relied upon where
// nobody says more: 25 m of 150 (IHO C-13, chapter 4, 2.3.3.3).
const GapShare = 1.0 / 6

// Nadir says what is done about the ground under the fish.
type Nadir string

// The strategies.
const (
	GapLeft    Nadir = "gap"        // it is left, and said so
	Neighbour  Nadir = "neighbour"  // lines so close that each sees under its neighbours: S = R - g
	Interleave Nadir = "interleave" // a second set of lines between the first
)

// Nadirs lists them.
func Nadirs() []Nadir { return []Nadir{GapLeft, Neighbour, Interleave} }

// SpacingFor is the distance between neighbouring lines of one set: 2 R less an overlap, a
// share of the full swath; where neighbours look under the fish at most R - g (IHO C-13, chapter 4, 2.3.3.3).
func SpacingFor(reach, overlap, gap float64, nadir Nadir) float64 {
	s := 2 * reach * (1 - overlap)
	if nadir == Neighbour {
		s = min(s, reach-gap)
	}
	return s
}
