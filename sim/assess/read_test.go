package assess

import (
	"bytes"
	"crypto/hmac"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"math"
	"strings"
	"testing"
	"time"
)

// The key of each record and its HMAC, worked out anew from the description: HMAC-SHA256
// (RFC 2104), the key of the next being the HMAC of a text by the one before.
func TestRecordsAreTiedAsDescribed(t *testing.T) {
	key := bytes.Repeat([]byte{7}, 32)
	l := Log{w: new(bytes.Buffer), keep: func(State) error { return nil }, key: bytes.Clone(key), now: time.Now}
	for i := range int64(3) {
		if err := l.write(map[string]int64{"n": i}); err != nil {
			t.Fatal(err)
		}
	}
	mac := func(key, text []byte) []byte {
		h := hmac.New(sha256.New, key)
		h.Write(text)
		return h.Sum(nil)
	}
	var want bytes.Buffer
	var chain []byte
	for _, record := range []string{`{"n":0}`, `{"n":1}`, `{"n":2}`} {
		sum := sha256.Sum256(append(bytes.Clone(chain), record...))
		chain = sum[:]
		want.WriteString(record[:len(record)-1] + `,"chain":"` + hex.EncodeToString(chain) + `","hmac":"` + hex.EncodeToString(mac(key, chain)) + "\"}\n")
		key = mac(key, []byte("the next record of a dryline assessment"))
	}
	if got := l.w.(*bytes.Buffer).String(); got != want.String() {
		t.Errorf("got\n%s\nwant\n%s", got, want.String())
	}
	if !bytes.Equal(l.key, key) {
		t.Error("the key does not go on")
	}
}

// FuzzRecords has records of any text, rightly tied, read: what got past the seal is still
// held to its bounds.
func FuzzRecords(f *testing.F) {
	for _, text := range []string{
		`{"dryline_assessment":1,"session":"a","engine":1,"platform":"p","exercise":"e","begun_utc":"2031-01-01T00:00:00Z","for":"age1","exercise_age_sha256":"","records_age_sha256":""}` + "\n" +
			`{"at_utc":"2031-01-01T00:00:00.000Z","order":{"tick":3,"do":"log_off"}}` + "\n" + `{"at_utc":"2031-01-01T00:00:01.000Z","reached":9}`,
		`{"at_utc":"x"}`, "{}", "[]\n1", "",
	} {
		f.Add([]byte(text))
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		key := make([]byte, 32)
		var log, chain []byte
		at := key
		for line := range bytes.SplitSeq(text, []byte("\n")) {
			if len(line) == 0 {
				line = []byte("{}")
			}
			var tied []byte
			tied, chain = tie(line, chain, at)
			at = keyAfter(at)
			log = append(append(log, tied...), '\n')
		}
		l, err := readLog(log, byKey(key, 0))
		if err != nil {
			return
		}
		last := int64(0)
		for _, m := range l.Moments {
			if m.Tick < last || m.Tick > mostTicks {
				t.Fatalf("tick %d after %d", m.Tick, last)
			}
			last = m.Tick
		}
		Gaps(l.Moments)
	})
}

// FuzzUnpack reads what a seal holds.
func FuzzUnpack(f *testing.F) {
	f.Add(make([]byte, 1024))
	f.Add(sparse())
	f.Fuzz(func(t *testing.T, packed []byte) { unpack(packed) })
}

// sparse is a tar file of one file with a hole (GNU tar manual, "Storing Sparse Files"): its
// header says 2^40 bytes, and none follow.
func sparse() []byte {
	b := make([]byte, 1536)
	copy(b, "hole")
	copy(b[100:], "0000644\x000000000\x000000000\x0000000000000\x0000000000000\x00        S")
	copy(b[257:], "ustar  \x00")
	copy(b[386:], "000000000000\x00"[:12])
	copy(b[386+12:], "00000000000\x00")
	copy(b[483:], "\x80\x00\x00\x00\x00\x00\x01\x00\x00\x00\x00\x00") // the whole length, 2^40
	sum := 0
	for _, c := range b[:512] {
		sum += int(c)
	}
	copy(b[148:], fmt.Sprintf("%06o\x00 ", sum))
	return b
}

func TestAHoleFillsNoMemory(t *testing.T) {
	if _, err := unpack(sparse()); err == nil || !strings.Contains(err.Error(), "no assessment puts there") {
		t.Errorf("got %v", err)
	}
}

func TestGaps(t *testing.T) {
	begun := time.Date(2031, 6, 1, 9, 0, 0, 0, time.UTC)
	at := func(wall, sailed float64) Moment {
		return Moment{At: begun.Add(time.Duration(wall * float64(time.Second))), Tick: int64(math.Round(sailed * 10))}
	}
	resumed := func(m Moment) Moment { m.Resumed = true; return m }
	over := func(m Moment) Moment { m.Over = true; return m }
	for _, test := range []struct {
		what    string
		moments []Moment
		want    []Gap // without their hours
	}{
		{"as on the water", []Moment{at(0, 0), at(10, 10), at(21, 20), at(31, 31)}, nil},
		{"stood still", []Moment{at(0, 0), at(70, 10), at(80, 20)}, []Gap{{Sailed: 10, Passed: 70}}},
		{"went faster, in small steps", []Moment{at(0, 0), at(1, 3), at(2, 6), at(3, 9), at(4, 12), at(5, 15), at(6, 18), at(7, 21), at(8, 24)}, []Gap{{Sailed: 24, Passed: 8}}},
		{"left and resumed at once", []Moment{at(0, 0), at(10, 10), resumed(at(11, 10)), at(21, 20)}, []Gap{{Tick: 100, Sailed: 0, Passed: 1, Resumed: true}}},
		{"set back", []Moment{at(0, 0), at(10, 10), at(-50, 12), at(-40, 22)}, []Gap{{Tick: 100, Sailed: 2, Passed: -60}}},
		{"at the desk", []Moment{at(0, 0), over(at(10, 10)), over(at(500, 10))}, nil},
		{"left at the desk", []Moment{at(0, 0), over(at(10, 10)), over(resumed(at(500, 10)))}, []Gap{{Tick: 100, Passed: 490, Resumed: true}}},
		{"two breaks", []Moment{at(0, 0), at(40, 20), at(60, 40), at(90, 60)}, []Gap{{Sailed: 20, Passed: 40}, {Tick: 400, Sailed: 20, Passed: 30}}},
	} {
		got := Gaps(test.moments)
		for i := range got {
			got[i].From, got[i].To = time.Time{}, time.Time{}
		}
		if len(got) != len(test.want) {
			t.Errorf("%s: got %+v, want %+v", test.what, got, test.want)
			continue
		}
		for i := range got {
			if got[i] != test.want[i] {
				t.Errorf("%s: got %+v, want %+v", test.what, got[i], test.want[i])
			}
		}
	}
}
