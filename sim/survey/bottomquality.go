package survey

import (
	"math"
	"slices"
)

// BottomQuality grades a first return, 0 to 1, by what the record of a ping shows at a
// height: how much brighter it is behind it than before, either side, and that nothing
// before it is as bright.
//
// A first return that stands out as the tracker asks for, five times over the water, is
// graded 1; one that does not stand out at all 0. Noise that gain lifts, wash and
// scattering layers take from the step; a school, kelp or the surface before the bottom,
// or a tracker that sits on one of these, from the second. Where one side alone shows
// it the grade is half. The figure is our own.
// What a ping by itself does not tell, [DoubtSteps] does.
func BottomQuality(port, starboard []uint16, bin, height float64) float64 {
	at := int(height / bin)
	n := max(at/16, 4) // samples behind the return, and of a block of the water
	gap := max(n/2, 2) // of its rise, left out
	sum := 0.0
	for _, row := range [2][]uint16{port, starboard} {
		if at-gap < 3*n || at+n > len(row) {
			continue
		}
		water, brightest := waterOf(row[:at-gap], n)
		behind := meanOf(row[at : at+n])
		if !(behind > 0) {
			continue
		}
		// Water that is recorded as nothing is no measure.
		const least = trackFloor / trackRise
		step := math.Log(behind/max(water, least)) / math.Log(trackRise)
		clear := math.Log(behind/max(brightest, least)) / math.Log(2)
		sum += min(max(step, 0), 1) * min(max(clear, 0), 1)
	}
	return sum / 2
}

// waterOf is the mean of the water's record and of its brightest block of n samples,
// after the sonar's own pulse has rung down: to thrice the quietest block.
func waterOf(row []uint16, n int) (mean, brightest float64) {
	quietest := math.Inf(1)
	for k := 0; k+n <= len(row); k += n {
		quietest = min(quietest, meanOf(row[k:k+n]))
	}
	const rung, least = 3.0, 4.0
	from := 0
	for from+n <= len(row) && meanOf(row[from:from+n]) > rung*max(quietest, least) {
		from += n
	}
	for k := from; k+n <= len(row); k += max(n/2, 1) {
		brightest = max(brightest, meanOf(row[k:k+n]))
	}
	return meanOf(row[from:]), brightest
}

// DoubtSteps lowers the grade of pings whose floor, height and depth of the fish together,
// stands out of the general floor of the line about them, the median over some hundreds of
// pings either side: a school or a stand of kelp answers as a floor would, and the record
// of a ping alone does not tell. Within a tenth of the height nothing is doubted, from two
// fifths on all.
func DoubtSteps(l *LineRecord) {
	const (
		either = 400 // pings
		every  = 8   // of which one is taken
		from   = 0.1
		to     = 0.4
	)
	var near []float64
	general := 0.0
	for i := range l.Pings {
		if i%every == 0 {
			near = near[:0]
			for k := max(0, i-either); k < min(len(l.Pings), i+either+1); k += every {
				if p := &l.Pings[k]; p.Height > 0 {
					near = append(near, p.Height+p.Fix.Depth)
				}
			}
			slices.Sort(near)
			if general = 0; len(near) > 0 {
				general = near[len(near)/2]
			}
		}
		p := &l.Pings[i]
		height := general - p.Fix.Depth
		if !(height > 0) {
			continue
		}
		off := math.Abs(p.Height-height) / height
		l.Bottom[i].Quality *= min(max((to-off)/(to-from), 0), 1)
	}
}

func meanOf(row []uint16) float64 {
	sum := 0
	for _, v := range row {
		sum += int(v)
	}
	return float64(sum) / float64(max(len(row), 1))
}
