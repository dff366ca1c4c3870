package survey

// track remembers the fixes of the last while.
type track struct {
	fixes []trackFix // oldest first; those before head are forgotten
	head  int
}

type trackFix struct{ time, x, y float64 }

// add enters a fix unless it is the last one still.
func (t *track) add(f trackFix) {
	if n := len(t.fixes); n > t.head && f.time <= t.fixes[n-1].time {
		return
	}
	t.fixes = append(t.fixes, f)
}

// forget drops what is older than the last fix at or before a time, but for two.
func (t *track) forget(before float64) {
	for t.head < len(t.fixes)-2 && t.fixes[t.head+1].time <= before {
		t.head++
	}
	if t.head > len(t.fixes)/2 {
		t.fixes = t.fixes[:copy(t.fixes, t.fixes[t.head:])]
		t.head = 0
	}
}

// since is the way made good from the oldest fix to a place, metres.
func (t *track) since(x, y float64) (dx, dy float64) {
	if t.head == len(t.fixes) {
		return 0, 0
	}
	return x - t.fixes[t.head].x, y - t.fixes[t.head].y
}
