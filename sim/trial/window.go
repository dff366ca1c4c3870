package trial

import "math"

// Fit is when the boat can work, by the planner's own record of the weather.
type Fit struct {
	MostWind float64   // in which she works, knots
	Hourly   []float64 // wind of hour after hour, knots
	Least    *float64  // hours: windows shorter than that are not gone out for; nil is that the work is not broken off
}

// Windows is how a plan goes into the fit hours of a record. An hour is fit where its wind is no more
// than asked, a window is fit hours in a row.
type Windows struct {
	Needs    float64  `json:"needs_h"`
	Hours    int      `json:"record_h"`
	Fit      float64  `json:"fit_share"`               // of the hours of the record
	Count    int      `json:"windows"`                 // long enough for all of it
	Longest  int      `json:"longest_h"`               //
	Begin    float64  `json:"begin_share"`             // hours of the record at which it could begin and be done without a break
	Wait     *float64 `json:"wait_h,omitempty"`        // mean, from any hour that one still follows to the next at which it could begin
	Broken   *float64 `json:"broken_off_h,omitempty"`  // mean, from any hour to the end of the work if it is broken off and resumed in windows of the least hours
	Outlives float64  `json:"not_in_record,omitempty"` // share of hours from which the record ends before the work
}

// windows goes through a record for a piece of work.
func (f *Fit) windows(needs float64) *Windows {
	n := len(f.Hourly)
	w := &Windows{Needs: needs, Hours: n}
	hours := max(int(math.Ceil(needs-1e-9)), 1)
	last := make([]int, n+1) // fit hours in a row from each on
	fit := 0
	for i := n - 1; i >= 0; i-- {
		if f.Hourly[i] <= f.MostWind {
			last[i] = last[i+1] + 1
			fit++
		}
		w.Longest = max(w.Longest, last[i])
	}
	begins, waited, waits := 0, 0, 0
	next := -1
	for i := n - 1; i >= 0; i-- {
		if last[i] >= hours {
			next = i
			begins++
			if i == 0 || last[i-1] == 0 {
				w.Count++
			}
		}
		if next >= 0 {
			waited, waits = waited+next-i, waits+1
		}
	}
	w.Fit, w.Begin = float64(fit)/float64(n), float64(begins)/float64(n)
	if waits > 0 {
		mean := float64(waited) / float64(waits)
		w.Wait = &mean
	}
	w.Outlives = 1 - float64(waits)/float64(n)
	if f.Least != nil {
		f.inPieces(w, needs, last)
	}
	return w
}

// inPieces reckons work that is broken off when the weather goes and resumed in the next
// window of the least hours.
func (f *Fit) inPieces(w *Windows, needs float64, last []int) {
	least := max(int(math.Ceil(*f.Least)), 1)
	n := len(f.Hourly)
	sum, done := 0.0, 0
	for from := range n {
		left := needs
		for i := from; i < n; {
			if last[i] < least {
				i++
				continue
			}
			if work := float64(last[i]); work < left {
				left -= work
				i += last[i]
				continue
			}
			sum += float64(i-from) + left
			done++
			break
		}
	}
	w.Outlives = 1 - float64(done)/float64(n)
	if done > 0 {
		mean := sum / float64(done)
		w.Broken = &mean
	}
}
