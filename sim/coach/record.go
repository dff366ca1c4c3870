package coach

import "fmt"

// How full a record is when it is worth a word: our own choice. Far ground at a
// low grazing angle lies forty decibels below full scale and more, and is well
// recorded.
const (
	muchClipped = 0.02    // share of the samples at full scale
	fewCounts   = 60.0    // mean, of the 65535 of sixteen bits
	fullCounts  = 65535.0 // of sixteen bits
)

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
	if len(s.Levels) == 0 {
		return nil
	}
	name := func(i int) string {
		if i < len(s.Recorder.Channels) {
			return s.Recorder.Channels[i]
		}
		return fmt.Sprint(i + 1)
	}
	cut, counts := s.Levels[worst].Clipped, s.Levels[faint].Mean*fullCounts
	heard := counts > 0 && !s.Bridge.Touching
	when := "Take"
	if s.logging {
		when = "After the line take"
	}
	return []check{
		{"gain_high", Caution, cut > muchClipped, cut > muchClipped/2, func() string {
			return fmt.Sprintf("%.0f %% of the record of channel %s is at full scale, and what is brighter looks the same. %s some 6 dB off its gain.", 100*cut, name(worst), when)
		}},
		{"gain_low", Caution, heard && counts < fewCounts, heard && counts < 2*fewCounts, func() string {
			return fmt.Sprintf("The record of channel %s is down at %.0f counts: weak ground is lost in its steps. Give it some 20 dB more gain.", name(faint), counts)
		}},
	}
}
