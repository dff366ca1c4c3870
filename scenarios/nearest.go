package scenarios

// nearest returns the name most like what was written, or "" if none is close:
// at most a third of its letters wrong.
func nearest(written string, names []string) string {
	if len(written) > 64 {
		return ""
	}
	best, least := "", 0
	for _, name := range names {
		if d := distance(written, name); best == "" || d < least {
			best, least = name, d
		}
	}
	if best == "" || least > max(1, len(best)/3) {
		return ""
	}
	return best
}

// distance is the number of letters to insert, drop or change to turn a into
// b (Levenshtein, Soviet Physics Doklady 10, 1966), case aside.
func distance(a, b string) int {
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		corner := row[0]
		row[0] = i + 1
		for j := range len(b) {
			cost := 1
			if lower(a[i]) == lower(b[j]) {
				cost = 0
			}
			corner, row[j+1] = row[j+1], min(corner+cost, row[j]+1, row[j+1]+1)
		}
	}
	return row[len(b)]
}

func lower(c byte) byte {
	if 'A' <= c && c <= 'Z' {
		return c + 'a' - 'A'
	}
	return c
}
