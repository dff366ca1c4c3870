package sim_test

import (
	"bytes"
	"testing"

	"dryline/sim"
	"dryline/sim/exercise"
	"dryline/sim/order"
	"dryline/sim/simtest"
	"dryline/sonar/waterfall"

	"github.com/google/go-cmp/cmp"
)

// session is a session with a witness.
type session struct {
	*sim.Session
	Truth *sim.Witness
}

// begin sets up an exercise with seed 1.
func begin(t testing.TB, ex *exercise.Exercise) *session {
	t.Helper()
	s, err := sim.New(ex, 1)
	if err != nil {
		t.Fatal(err)
	}
	return &session{s, sim.Attend(s)}
}

// fly runs the small exercise to its end with the mate, in groups of n ticks.
func fly(t *testing.T, n, workers int) *session {
	t.Helper()
	s := begin(t, simtest.Small(t))
	s.Workers = workers
	s.AttachMate()
	for !s.Done() {
		s.Advance(n)
	}
	return s
}

// tended runs the small exercise with a mate, and a person who does things at
// given ticks, advancing in strides.
func tended(t *testing.T, stride int, deeds map[int64]func(*session)) *session {
	t.Helper()
	s := begin(t, simtest.Small(t))
	s.AttachMate()
	for !s.Done() {
		if f := deeds[s.Ticks()]; f != nil {
			f(s)
		}
		s.Advance(stride)
	}
	return s
}

// replayed writes the session's log and runs it again.
func replayed(t *testing.T, s *session) *session {
	t.Helper()
	var log bytes.Buffer
	if err := s.WriteLog(&log); err != nil {
		t.Fatal(err)
	}
	l, err := order.ReadLog(&log)
	if err != nil {
		t.Fatal(err)
	}
	again := begin(t, s.Exercise)
	if err := again.Replay(l, nil); err != nil {
		t.Fatal(err)
	}
	return again
}

// same compares everything that two sessions made.
func same(t *testing.T, what string, a, b *session) {
	t.Helper()
	picture := func(s *session) []byte {
		p, ok := s.Desk.Mosaic.Render(waterfall.Tone)
		if !ok {
			t.Fatal("the mosaic is empty")
		}
		return p.Gray.Pix
	}
	if !bytes.Equal(picture(a), picture(b)) {
		t.Errorf("%s: the mosaics differ", what)
	}
	for name, d := range map[string]string{
		"contacts": cmp.Diff(a.Desk.Contacts, b.Desk.Contacts), "watch logs": cmp.Diff(a.Desk.Track, b.Desk.Track),
		"truths": cmp.Diff(a.Truth.Pings, b.Truth.Pings), "commands": cmp.Diff(a.Commands, b.Commands),
	} {
		if d != "" {
			t.Errorf("%s: %s differ:\n%s", what, name, d)
		}
	}
	if a.Digest() != b.Digest() {
		t.Errorf("%s: the digests differ", what)
	}
}
