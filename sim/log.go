package sim

import "fmt"

// A session log is JSON Lines: a header, an order a line, and an end.
//
//	{"dryline_session":2,"engine":1,"platform":"linux/amd64","exercise":"...","sha256":"...","seed":7,"source":"...","chain":"..."}
//	{"tick":0,"do":"speed","value":2.16,"chain":"..."}
//	...
//	{"end":21112,"reason":"finished","digest":"...","chain":"..."}
//
// The header carries the whole exercise, so a log replays years later. A log
// that is being kept has records of how far the session got as well:
//
//	{"reached":3050,"chain":"..."}
//
// Every record carries the chain, see [chain]; the end carries the digest of
// what the session gave, see [Session.Digest]. Format 1 had neither, nor an
// engine number; it is read, never written.

// LogFormat is the version of the session log that is written.
const LogFormat = 2

type logHeader struct {
	Format   int    `json:"dryline_session"`
	Engine   int    `json:"engine,omitempty"`
	Platform string `json:"platform,omitempty"`
	Origin   int    `json:"origin_format,omitempty"` // of the log it was flown from, if that had no chain
	Trainee  string `json:"trainee,omitempty"`
	Started  string `json:"started_utc,omitempty"` // RFC 3339
	Exercise string `json:"exercise"`
	Hash     string `json:"sha256"`
	Seed     uint64 `json:"seed"`
	Source   string `json:"source"`
}

type logEnd struct {
	End    *int64 `json:"end"`
	Reason string `json:"reason"`
	Digest string `json:"digest,omitempty"`
}

type logReached struct {
	Reached *int64 `json:"reached"`
}

// Reasons a session log ends.
const (
	ReasonFinished    = "finished"
	ReasonInterrupted = "interrupted"
	ReasonTruncated   = "truncated" // never written: the reader's word for a log without an end
)

// Log is a session as written down.
type Log struct {
	Format   int    // it was written in
	Engine   int    // that flew it; 0 in format 1, which does not say
	Platform string // it was flown on; empty in format 1
	Attempt  Attempt

	Exercise string
	Hash     string
	Seed     uint64
	Source   []byte
	Commands []Command
	Ticks    int64
	Reason   string
	Digest   string // of what the session gave, hex; empty without an end

	origin int
	chain  chain
}

// Protected reports whether a chain shows what was changed in the log. It finds
// damage and careless edits, not forgery: whoever knows how can make it anew.
func (l *Log) Protected() bool { return l.Format >= 2 && l.origin == 0 }

// Foreign says how the engine that flew the session differs from this one, in
// words, or nothing.
func (l *Log) Foreign() string {
	switch {
	case l.Engine != 0 && l.Engine != EngineNumber:
		return fmt.Sprintf("flown by engine %d, and this is engine %d", l.Engine, EngineNumber)
	case l.Platform != "" && l.Platform != Platform():
		return fmt.Sprintf("flown on %s, and this is %s", l.Platform, Platform())
	}
	return ""
}
