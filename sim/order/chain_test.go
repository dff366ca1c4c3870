package order_test

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"dryline/sim/order"
	"dryline/sim/provenance"
	"dryline/sim/simtest"
)

// written is the log of a short session, a record a line.
func written(t *testing.T) []string {
	t.Helper()
	s := begin(t, 1)
	s.Attempt = order.Attempt{Trainee: "Åse Test", Started: time.Date(2031, 5, 1, 7, 55, 3, 0, time.UTC)}
	simtest.Give(t, s, order.Command{Do: order.Speed, Value: 2}, order.Command{Do: order.Factor, Value: 0.95})
	s.Advance(20)
	simtest.Give(t, s, order.Command{Do: order.LogOn, Line: "L1"})
	s.Advance(30)
	simtest.Give(t, s, order.Command{Do: order.Cable, Value: 21.5}, order.Command{Do: order.LogOff})
	s.Advance(5)
	var b bytes.Buffer
	if err := s.WriteLog(&b); err != nil {
		t.Fatal(err)
	}
	records := strings.SplitAfter(b.String(), "\n")
	return records[:len(records)-1]
}

// The chain by hand: SHA-256 of the chain before, as bytes, and the record
// without its "chain".
func TestTheChainIsSHA256(t *testing.T) {
	chain := regexp.MustCompile(`^(.*),"chain":"([0-9a-f]{64})"}\n?$`)
	var before []byte
	for n, line := range written(t) {
		m := chain.FindStringSubmatch(line)
		if m == nil {
			t.Fatalf("record %d has no chain at its end: %s", n+1, line)
		}
		sum := sha256.Sum256(append(slices.Clone(before), m[1]+"}"...))
		if got := hex.EncodeToString(sum[:]); got != m[2] {
			t.Fatalf("record %d: chain %s, by hand %s", n+1, m[2], got)
		}
		before = sum[:]
		var any map[string]any
		if err := json.Unmarshal([]byte(line), &any); err != nil {
			t.Fatalf("record %d is no JSON: %v", n+1, err)
		}
	}
}

func TestTheHeaderSaysWhoFlewIt(t *testing.T) {
	records := written(t)
	var header map[string]any
	if err := json.Unmarshal([]byte(records[0]), &header); err != nil {
		t.Fatal(err)
	}
	for key, want := range map[string]any{
		"dryline_session": 2.0, "engine": float64(provenance.Engine), "platform": provenance.Platform(),
		"trainee": "Åse Test", "started_utc": "2031-05-01T07:55:03Z",
	} {
		if header[key] != want {
			t.Errorf("%s: %v, want %v", key, header[key], want)
		}
	}
	l, err := order.ReadLog(strings.NewReader(strings.Join(records, "")))
	if err != nil {
		t.Fatal(err)
	}
	again := begin(t, 1)
	if err := again.Replay(l, nil); err != nil {
		t.Fatal(err)
	}
	again.Close(l.Reason)
	var b bytes.Buffer
	if err := again.WriteLog(&b); err != nil {
		t.Fatal(err)
	}
	if got := b.String(); got != strings.Join(records, "") {
		t.Errorf("the replay's log reads\n%s\nthe session's\n%s", got, strings.Join(records, ""))
	}
	if l.Digest == "" || l.Digest != again.Digest() {
		t.Errorf("digest %q in the log, %q flown again", l.Digest, again.Digest())
	}
}

// A log in which anything was changed, taken out, put in or moved is refused at
// the record that shows it; cut off at its end it is read up to there.
func TestAChangedLogIsRefused(t *testing.T) {
	whole := written(t)
	if len(whole) != 7 {
		t.Fatalf("%d records, want a header, five orders and an end", len(whole))
	}
	read := func(records []string) (*order.Log, error) {
		return order.ReadLog(strings.NewReader(strings.Join(records, "")))
	}
	refused := func(what string, records []string, line int) {
		t.Helper()
		_, err := read(records)
		if want := fmt.Sprintf("session log: line %d: ", line); err == nil || !strings.HasPrefix(err.Error(), want) || strings.Contains(err.Error(), "\n") {
			t.Errorf("%s: got %v, want one line that begins %q", what, err, want)
		}
	}
	for i := range whole {
		// Every byte of the record: another one in its place is found.
		for at := 0; at < len(whole[i])-1; at += 3 {
			changed := slices.Clone(whole)
			b := []byte(whole[i])
			if b[at] ^= 1; b[at] == '\n' {
				continue
			}
			changed[i] = string(b)
			if _, err := read(changed); err == nil {
				t.Errorf("record %d with byte %d changed to %q was read", i+1, at, b[at])
			}
		}
		if i > 0 && i < len(whole)-1 {
			refused("doubled", slices.Insert(slices.Clone(whole), i, whole[i]), i+2)
			refused("taken out", slices.Delete(slices.Clone(whole), i, i+1), i+1)
		}
		if i > 1 && i < len(whole)-1 {
			swapped := slices.Clone(whole)
			swapped[i], swapped[i-1] = swapped[i-1], swapped[i]
			refused("swapped", swapped, i)
		}
		cut, err := read(whole[:i+1])
		if err != nil || (cut.Reason == order.ReasonTruncated) != (i < len(whole)-1) {
			t.Errorf("cut after record %d: %v, %v", i+1, cut, err)
		}
	}
	seed := slices.Clone(whole)
	seed[0] = strings.Replace(seed[0], `"seed":1`, `"seed":2`, 1)
	refused("another seed", seed, 1)
	tick := slices.Clone(whole)
	tick[3] = strings.Replace(tick[3], `"tick":20`, `"tick":21`, 1)
	refused("another tick", tick, 4)
	unchained := slices.Clone(whole)
	unchained[2] = regexp.MustCompile(`,"chain":"[0-9a-f]*"`).ReplaceAllString(unchained[2], "")
	refused("no chain", unchained, 3)
}

func TestReadFile(t *testing.T) {
	b := simtest.Small(t).Brief()
	good := "{\"tick\":0,\"do\":\"speed\",\"value\":2}\n\n{\"tick\":5,\"do\":\"log_on\",\"line\":\"L1\"}\n"
	orders, err := order.ReadFile(strings.NewReader(good), "mine.jsonl", b)
	if err != nil || len(orders) != 2 || orders[1].Line != "L1" {
		t.Errorf("got %v, %v", orders, err)
	}
	bad := `{"tick":9,"do":"speed","value":2}
{"tick":3,"do":"speed","value":2}
{"tick":9,"do":"speed","value":99}
{"tick":10,"do":"log_on","line":"L9"}
{"tick":11,"do":"fly"}
hello
{"tick":12,"do":"finish","chain":"00"}
`
	_, err = order.ReadFile(strings.NewReader(bad), "mine.jsonl", b)
	if err == nil {
		t.Fatal("bad orders were read")
	}
	lines := strings.Split(err.Error(), "\n")
	want := []string{"mine.jsonl:2: tick", "mine.jsonl:3: speed: 99", `mine.jsonl:4: log_on: no line is called "L9"`, "mine.jsonl:5: no command", "mine.jsonl:6: ", "mine.jsonl:7: "}
	if len(lines) != len(want) {
		t.Fatalf("faults:\n%v\nwant %d", err, len(want))
	}
	for i := range want {
		if !strings.HasPrefix(lines[i], want[i]) {
			t.Errorf("fault %q, want %q", lines[i], want[i])
		}
	}
	if _, err := order.ReadFile(strings.NewReader("\n"), "mine.jsonl", b); err == nil {
		t.Error("a file of no orders was read")
	}
}
