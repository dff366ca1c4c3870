package order

import (
	"fmt"
	"time"
	"unicode"
	"unicode/utf8"
)

// Attempt says who flew a session and when it was begun. It changes no result;
// the session log's header carries it, and products take it from there.
type Attempt struct {
	Trainee string    // a name, or empty
	Started time.Time // UTC, to the second; zero if it is not known
	Parent  *Parent   // what a practice session was tried again from; nil for a session of its own
}

// Parent names the session that a practice session was tried again from, and where. A
// practice session has the exercise and the seeds of its parent, and the orders that
// were given before that tick; it never counts.
type Parent struct {
	Started time.Time // UTC, to the second; zero if it is not known
	Digest  string    // of what it gave, hex; empty if it is not known
	Tick    int64
}

// longestName is the most characters a trainee's name may have.
const longestName = 80

// CheckTrainee refuses a name that cannot be printed on one line.
func CheckTrainee(name string) error {
	if !utf8.ValidString(name) {
		return fmt.Errorf("%q is not valid UTF-8", name)
	}
	if n := utf8.RuneCountInString(name); n > longestName {
		return fmt.Errorf("a name of %d characters is too long (want at most %d)", n, longestName)
	}
	for _, r := range name {
		if !unicode.IsPrint(r) {
			return fmt.Errorf("%+q has the character %U (want letters, digits, spaces and signs that can be printed)", name, r)
		}
	}
	return nil
}
