package order

// A session log is JSON Lines: a header, an order a line, and an end.
//
//	{"dryline_session":2,"engine":1,"platform":"linux/amd64","exercise":"...","sha256":"...","seed":7,"source":"...","chain":"..."}
//	{"tick":0,"do":"speed","value":2.16,"chain":"..."}
//	...
//	{"end":21112,"reason":"finished","digest":"...","chain":"..."}
//
// The header carries the whole exercise, so a log replays years later; "ground_step_m":0.08
// in it says that the sonar read the floor in coarse steps, as in a browser. A log
// that is being kept has records of how far the session got as well:
//
//	{"reached":3050,"chain":"..."}
//
// Every record carries the chain, see [chain]; the end carries the digest of
// what the session gave. Format 1 had neither, nor an engine number; it is read,
// never written.

// LogFormat is the version of the session log that is written.
const LogFormat = 2

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
	Head
	Commands []Command
	Ticks    int64  // it got to
	Reason   string // it ended
	Digest   string // of what the session gave, hex; empty without an end

	chain chain
}
