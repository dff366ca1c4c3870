package order

import (
	"strings"
	"testing"
)

// What is wrong with a line of a log is said without a word of the library's.
func TestFaultsOfJSONAreSaidInWords(t *testing.T) {
	head, _, _ := strings.Cut(GoodLog, "\n")
	for _, test := range []struct{ text, want string }{
		{"7\n", "session log: line 1: not a session log: a number stands where a set of keys belongs"},
		{`["a"]` + "\n", "session log: line 1: not a session log: a list stands where a set of keys belongs"},
		{`{"dryline_session":"one"}` + "\n", "session log: line 1: not a session log: dryline_session: a text stands where a whole number belongs"},
		{"Dear harbour master,\n", "session log: line 1: not a session log: it is no JSON from its character 1 on"},
		{head + "\n" + `{"tick":0.5,"do":"finish"}` + "\n", "session log: line 2: tick: 0.5 stands where a whole number belongs"},
		{head + "\n" + `{"tick":0,"do":true}` + "\n", "session log: line 2: do: true or false stands where a text belongs"},
		{head + "\n" + `{"tick":0,"do":"finish","loud":1}` + "\n", `session log: line 2: "loud" is no key that belongs there`},
		{head + "\n" + `{"tick":0,` + "\n", "session log: line 2: it breaks off before its end"},
		{head + "\n" + `{"tick":0,"ping":-1}` + "\n", "session log: line 2: ping: -1 stands where a whole number from 0 up belongs"},
	} {
		_, err := ReadLog(strings.NewReader(test.text))
		if err == nil || err.Error() != test.want {
			t.Errorf("%q: got %v, want %s", test.text, err, test.want)
		}
	}
}
