package order_test

import (
	"bytes"
	"strings"
	"testing"
	"time"

	"dryline/sim/order"
)

// The head of a practice session names what it was tried again from, in words that
// other programs can read, and reads back as it was.
func TestTheHeadNamesTheParent(t *testing.T) {
	digest := strings.Repeat("0a", 32)
	for _, p := range []*order.Parent{
		nil, {}, {Tick: 4711}, {Started: time.Date(2031, 5, 1, 7, 55, 3, 0, time.UTC), Digest: digest, Tick: 12},
	} {
		s := begin(t, 1)
		s.Attempt = order.Attempt{Parent: p}
		var b bytes.Buffer
		if err := s.WriteLog(&b); err != nil {
			t.Fatal(err)
		}
		written := strings.Contains(b.String(), `"parent":{`)
		if written != (p != nil) {
			t.Errorf("%+v: the head has a parent: %v\n%.300s", p, written, &b)
		}
		if p != nil && p.Tick == 12 && !strings.Contains(b.String(), `"parent":{"started_utc":"2031-05-01T07:55:03Z","digest":"`+digest+`","tick":12}`) {
			t.Errorf("the head reads %.400s", &b)
		}
		l, err := order.ReadLog(&b)
		if err != nil {
			t.Fatal(err)
		}
		if p == nil && l.Parent != nil || p != nil && (l.Parent == nil || *l.Parent != *p) {
			t.Errorf("read back as %+v, want %+v", l.Parent, p)
		}
		again := begin(t, 1)
		if err := again.Replay(l, nil); err != nil {
			t.Fatal(err)
		}
		if got := again.Head().Parent; p != nil && (got == nil || *got != *p) {
			t.Errorf("flown again its head has %+v, want %+v", got, p)
		}
	}
}

// A parent that cannot be is refused, with its key.
func TestAParentThatCannotBeIsRefused(t *testing.T) {
	for parent, fault := range map[string]string{
		`{"tick":-1}`:                              "parent: tick: -1 is out of range",
		`{"tick":99999999999}`:                     "parent: tick: 99999999999 is out of range",
		`{"tick":1,"digest":"xyz"}`:                "parent: digest:",
		`{"tick":1,"digest":"0a"}`:                 "parent: digest:",
		`{"tick":1,"started_utc":"last Thursday"}`: "parent: started_utc:",
		`{"tick":1,"of":2}`:                        `"of" is no key`,
		`7`:                                        "parent",
	} {
		log := `{"dryline_session":1,"parent":` + parent + `,"exercise":"x","sha256":"","seed":1,"source":"a"}` + "\n"
		if _, err := order.ReadLog(strings.NewReader(log)); err == nil || !strings.Contains(err.Error(), fault) || strings.Contains(err.Error(), "\n") {
			t.Errorf("%s: %v, want a line with %q", parent, err, fault)
		}
	}
}
