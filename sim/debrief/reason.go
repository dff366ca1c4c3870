package debrief

import "slices"

// inWords is a reason for people.
func inWords(r Reason) string {
	switch r {
	case untrusted:
		return "a fix not to be trusted"
	case silent:
		return "the fish sent nothing"
	case inTurn:
		return "logged in a turn"
	case outOfReach:
		return "beyond the range that the height carries"
	case inNoise:
		return "down in the noise"
	case clipped:
		return "at full scale"
	case faint:
		return "too faint for the recorder"
	case ailing:
		return "a channel dead, weak or swapped"
	case sparse:
		return "too few pings to a metre"
	case offBottom:
		return "bottom track off the bottom"
	case underFish:
		return "under the fish"
	case noSwath:
		return "no swath"
	}
	return "looked at"
}

// reasonInWords is a reason of a report for people.
func reasonInWords(name string) string {
	if i := slices.Index(reasonNames[:], name); i > 0 {
		return inWords(Reason(i))
	}
	return words(name)
}
