package coach

import (
	"fmt"
	"math"

	"dryline/sonar/recorder"
)

// How full a record is when it is worth a word: our own choice. Far ground at a
// low grazing angle lies forty decibels below full scale and more, and is well
// recorded.
const (
	muchClipped = 0.02 // share of the samples at full scale
	fewCounts   = 60.0 // mean, of the 65535 of sixteen bits
	wellBelow   = 36.0 // dB below full scale, of the mean
)

// tooMuch is about how far down the gain should go, dB, when a share of the
// samples is cut off: the amplitudes of a rough floor are Rayleigh distributed
// (Jakeman and Pusey 1976), of which exp(-(pi/4) (A/m)^2) exceed A with m the mean,
// and the mean of what is well recorded lies 36 dB below full scale, our own
// choice. Above half there is no telling.
func tooMuch(cut float64) string {
	if cut > 0.5 {
		return "40 or more"
	}
	mean := 1 / math.Sqrt(4/math.Pi*math.Log(1/cut)) // of full scale
	return fmt.Sprintf("some %.0f", max(math.Round(20*math.Log10(mean)+wellBelow), 3))
}

// tooLittle is how far up it should go, dB: to 36 dB below full scale.
func tooLittle(counts float64) float64 {
	return math.Round(-wellBelow - 20*math.Log10(counts/recorder.FullScale))
}

// recordChecks are about the gain.
func (c *Coach) recordChecks(s *sight) []check {
	worst, faint := 0, 0
	for i, l := range s.Levels {
		if l.Clipped > s.Levels[worst].Clipped {
			worst = i
		}
		if l.Mean < s.Levels[faint].Mean {
			faint = i
		}
	}
	if len(s.Levels) == 0 || s.Bridge.Alongside { // a hand that rubs is as loud as it likes
		return nil
	}
	name := func(i int) string {
		if i < len(s.Recorder.Channels) {
			return s.Recorder.Channels[i]
		}
		return fmt.Sprint(i + 1)
	}
	cut, counts := s.Levels[worst].Clipped, s.Levels[faint].Mean*recorder.FullScale
	heard := counts > 0 && !s.Bridge.Touching
	when := "Take"
	if s.logging {
		when = "After the line take"
	}
	return []check{
		{"gain_high", Caution, cut > muchClipped, cut > muchClipped/2, func() string {
			return fmt.Sprintf("%.0f %% of the record of channel %s is at full scale, and what is brighter looks the same. %s %s dB off its gain.", 100*cut, name(worst), when, tooMuch(cut))
		}},
		{"gain_low", Caution, heard && counts < fewCounts, heard && counts < 2*fewCounts, func() string {
			return fmt.Sprintf("The record of channel %s is down at %.0f counts: weak ground is lost in its steps. Give it some %.0f dB more gain.", name(faint), counts, tooLittle(counts))
		}},
	}
}
