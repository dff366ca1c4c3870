package app

import "testing"

// Sessions are told apart by the end of their path, and a long path has no room.
func TestShortNameTellsSessionsApart(t *testing.T) {
	for _, test := range []struct{ file, want string }{
		{"/srv/practice/out/first-line-3-watch.jsonl", "first-line-3-watch"},
		{"out/monday/session.jsonl", "monday"},
		{"session.jsonl", "session"},
	} {
		if got := shortName(test.file); got != test.want {
			t.Errorf("%s: got %q, want %q", test.file, got, test.want)
		}
	}
}
