package assess

import (
	"bytes"
	"encoding/json"
	"io"
	"time"

	"dryline/sim/order"
	"dryline/sim/product/folder"
)

// LogFormat is the version of the log of an assessment.
const LogFormat = 1

// Head opens the log. It says what a trainee may know.
type Head struct {
	Format   int    `json:"dryline_assessment"`
	Session  string `json:"session"` // drawn for it, hex
	Engine   int    `json:"engine"`
	Platform string `json:"platform"`
	Trainee  string `json:"trainee,omitempty"`
	Exercise string `json:"exercise"`
	Begun    string `json:"begun_utc"` // RFC 3339
	For      string `json:"for"`       // the instructor's public key
	Nth      int    `json:"nth_begun"` // on the installation, as it says

	Secret string `json:"exercise_age_sha256"`
	Key    string `json:"records_age_sha256"`
}

// entry is any record but the head: one of its members besides the hour.
type entry struct {
	At string `json:"at_utc"` // by the machine's clock, RFC 3339 with milliseconds

	Order    *order.Command `json:"order,omitempty"`
	Reached  *int64         `json:"reached,omitempty"` // tick
	Over     bool           `json:"over,omitempty"`    // the watch is; the desk may work on
	Resumed  *int64         `json:"resumed,omitempty"` // tick
	HandedIn *HandedIn      `json:"handed_in,omitempty"`
}

// HandedIn ends a log.
type HandedIn struct {
	Tick     int64          `json:"tick"`
	Reason   string         `json:"reason"`
	Digest   string         `json:"digest"` // of what the session gave
	Products []folder.Entry `json:"products"`
	Findings string         `json:"findings_age_sha256"`
}

const hourForm = "2006-01-02T15:04:05.000Z"

// state is all that a log is continued from: how far it is, and the key of the next record.
type state struct {
	Session string `json:"session"`
	Records int    `json:"records"`
	Key     string `json:"key"` // hex
}

// Log writes the log of an assessment. After an error, writes do nothing but report it.
type Log struct {
	w       io.Writer
	keep    func(State) error // the state after each record
	session string
	records int
	chain   []byte
	key     []byte
	now     func() time.Time
	err     error
}

// State returns what has to be kept, sealed, to continue the log.
type State struct {
	session string
	records int
	key     []byte
}

func (l *Log) order(c order.Command) error { return l.add(entry{Order: &c}) }

func (l *Log) reached(tick int64, over bool) error { return l.add(entry{Reached: &tick, Over: over}) }

func (l *Log) resumed(tick int64) error { return l.add(entry{Resumed: &tick}) }

func (l *Log) add(e entry) error {
	e.At = l.now().UTC().Format(hourForm)
	return l.write(e)
}

// write adds a record, in one call of the writer, and forgets its key.
func (l *Log) write(record any) error {
	if l.err != nil {
		return l.err
	}
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	if l.err = enc.Encode(record); l.err != nil {
		return l.err
	}
	line, chain := tie(bytes.TrimSuffix(b.Bytes(), []byte("\n")), l.chain, l.key)
	if _, l.err = l.w.Write(append(line, '\n')); l.err != nil {
		return l.err
	}
	next := keyAfter(l.key)
	clear(l.key)
	l.chain, l.key = chain, next
	l.records++
	l.err = l.keep(State{l.session, l.records, bytes.Clone(next)})
	return l.err
}
