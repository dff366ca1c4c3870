package assess

import (
	"bytes"
	"crypto/hmac"
	"encoding/json"
	"errors"
	"fmt"
	"time"

	"dryline/sim/order"
)

// Bounds of a log that is read.
const (
	mostOrders = 1 << 20
	mostTicks  = 1 << 26
)

// Written is the log of an assessment as it was read.
type Written struct {
	Head     Head
	Orders   []order.Command
	Ticks    int64 // it got to
	Moments  []Moment
	HandedIn *HandedIn // nil while it is under way
	Torn     bool      // the last record is not whole, and left out

	records int
	whole   int // bytes of whole records
	chain   []byte
}

// Moment is when a record was written.
type Moment struct {
	At      time.Time
	Tick    int64
	Resumed bool // after it was left
	Over    bool // the watch was
}

// readLog reads a log. check is called with each record's number, chain and HMAC.
func readLog(data []byte, check func(n int, chain, mac []byte) error) (*Written, error) {
	l := &Written{}
	if len(data) > longestLog {
		return nil, fmt.Errorf("%s: it is longer than %d bytes", LogFile, longestLog)
	}
	for len(data) > 0 {
		line, rest, whole := bytes.Cut(data, []byte("\n"))
		data = rest
		if !whole {
			l.Torn = true
			break
		}
		err := l.take(line, check)
		if err != nil {
			return nil, fmt.Errorf("%s: line %d: %w", LogFile, l.records+1, err)
		}
		l.records++
		l.whole += len(line) + 1
	}
	if l.records == 0 {
		return nil, fmt.Errorf("%s: it is empty", LogFile)
	}
	if l.Torn && l.HandedIn != nil {
		return nil, fmt.Errorf("%s: something follows the end", LogFile)
	}
	return l, nil
}

func (l *Written) take(line []byte, check func(n int, chain, mac []byte) error) error {
	if l.HandedIn != nil {
		return errors.New("something follows the end")
	}
	record, chain, mac, err := untie(line, l.chain)
	if err != nil {
		return err
	}
	if err := check(l.records, chain, mac); err != nil {
		return err
	}
	l.chain = chain
	if l.records == 0 {
		return l.Head.read(record)
	}
	return l.read(record)
}

func (h *Head) read(record []byte) error {
	if err := strictly(record, h); err != nil {
		return fmt.Errorf("not the log of an assessment: %w", err)
	}
	if h.Format != LogFormat {
		return fmt.Errorf("dryline_assessment is %d (want %d)", h.Format, LogFormat)
	}
	if err := order.CheckTrainee(h.Trainee); err != nil {
		return fmt.Errorf("trainee: %w", err)
	}
	if err := order.CheckPlatform(h.Platform); err != nil {
		return err
	}
	if err := order.CheckTrainee(h.Exercise); err != nil { // told to the instructor as well
		return fmt.Errorf("exercise: %w", err)
	}
	if _, err := time.Parse(time.RFC3339, h.Begun); err != nil {
		return fmt.Errorf("begun_utc: %q is no time", h.Begun)
	}
	return nil
}

func (l *Written) read(record []byte) error {
	var e entry
	if err := strictly(record, &e); err != nil {
		return err
	}
	at, err := time.Parse(time.RFC3339, e.At)
	if err != nil {
		return fmt.Errorf("at_utc: %q is no time", e.At)
	}
	said := 0
	m := Moment{At: at.UTC(), Over: e.Over}
	if e.Order != nil {
		said++
		m.Tick = e.Order.Tick
		if len(l.Orders) == mostOrders {
			return fmt.Errorf("more than %d orders", mostOrders)
		}
		l.Orders = append(l.Orders, *e.Order)
	}
	for i, tick := range []*int64{e.Reached, e.Resumed} {
		if tick != nil {
			said++
			m.Tick, m.Resumed = *tick, i == 1
		}
	}
	if e.HandedIn != nil {
		said++
		l.HandedIn, m.Tick = e.HandedIn, e.HandedIn.Tick
	}
	if said != 1 {
		return errors.New("the record says not just one thing")
	}
	if m.Tick < l.Ticks || m.Tick > mostTicks {
		return fmt.Errorf("tick %d is out of range (want %d to %d)", m.Tick, l.Ticks, mostTicks)
	}
	l.Ticks = m.Tick
	if n := len(l.Moments); n > 0 && l.Moments[n-1].Over {
		m.Over = true
	}
	l.Moments = append(l.Moments, m)
	return nil
}

// byKey checks every HMAC from record from on, the key being that one's.
func byKey(key []byte, from int) func(n int, chain, mac []byte) error {
	return func(n int, chain, mac []byte) error {
		if n < from {
			return nil
		}
		if !hmac.Equal(mac, macOf(key, chain)) {
			return errMAC
		}
		key = keyAfter(key)
		return nil
	}
}

// strictly decodes one JSON object and nothing else.
func strictly(text []byte, v any) error {
	d := json.NewDecoder(bytes.NewReader(text))
	d.DisallowUnknownFields()
	if err := d.Decode(v); err != nil {
		return order.JSONFault(err)
	}
	if d.More() {
		return errors.New("more than one value")
	}
	return nil
}
