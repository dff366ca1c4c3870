package order

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"regexp"
	"time"

	"dryline/sim/exercise"
	"dryline/sim/provenance"
	"dryline/sonar"
)

// Head opens a session log: the session before its orders.
type Head struct {
	Attempt
	Exercise string // its name
	Hash     string // SHA-256 of Source, hex
	Source   []byte // the exercise's file, whole
	Seeds    exercise.Seeds

	// Of a log that was read, and ignored in one that is written: its format, and
	// the engine and platform that flew it; 0 and empty in format 1.
	Format   int
	Engine   int
	Platform string

	// Step is that at which the sonar reads the floor: what is flown again is flown so too.
	Step sonar.GroundStep

	// Unchained says that the session was flown from a log without a chain, so that
	// its own protects nothing.
	Unchained bool
}

// HeadOf is the head for the log of an exercise.
func HeadOf(ex *exercise.Exercise, seeds exercise.Seeds, a Attempt) Head {
	return Head{Attempt: a, Exercise: ex.Name, Hash: ex.Hash, Source: ex.Source, Seeds: seeds, Step: ex.Sonar.Step}
}

// Protected reports whether a chain shows what was changed in the log. It finds
// damage and careless edits, not forgery: whoever knows how can make it anew.
func (h *Head) Protected() bool { return h.Format >= 2 && !h.Unchained }

// Foreign says how the engine that flew the session differs from this one, in
// words, or nothing.
func (h *Head) Foreign() string {
	switch {
	case h.Engine != 0 && h.Engine != provenance.Engine:
		return fmt.Sprintf("flown by engine %d, and this is engine %d", h.Engine, provenance.Engine)
	case h.Platform != "" && h.Platform != provenance.Platform():
		return fmt.Sprintf("flown on %s, and this is %s", h.Platform, provenance.Platform())
	}
	return ""
}

// platform matches what [provenance.Platform] may be; a log says it to people.
var platform = regexp.MustCompile(`^[a-z0-9]{1,20}/[a-z0-9]{1,20}$`)

// CheckPlatform refuses what no program runs on.
func CheckPlatform(name string) error {
	if name != "" && !platform.MatchString(name) {
		return fmt.Errorf("platform: %+.60q is none (want one like %s)", name, provenance.Platform())
	}
	return nil
}

// logHead is a head as it is written.
type logHead struct {
	Format   int       `json:"dryline_session"`
	Engine   int       `json:"engine,omitempty"`
	Platform string    `json:"platform,omitempty"`
	Step     float64   `json:"ground_step_m,omitempty"` // if it is not the fine one
	Origin   int       `json:"origin_format,omitempty"` // of the log it was flown from, if that had no chain
	Trainee  string    `json:"trainee,omitempty"`
	Started  string    `json:"started_utc,omitempty"` // RFC 3339
	Parent   *parent   `json:"parent,omitempty"`
	Exercise string    `json:"exercise"`
	Hash     string    `json:"sha256"`
	Seed     uint64    `json:"seed"`
	Seeds    *logSeeds `json:"seeds,omitempty"` // if they are not derived from the one
	Source   string    `json:"source"`
}

// parent is a [Parent] as it is written.
type parent struct {
	Started string `json:"started_utc,omitempty"` // RFC 3339
	Digest  string `json:"digest,omitempty"`
	Tick    int64  `json:"tick"`
}

type logSeeds struct {
	Ground  uint64 `json:"ground"`
	Placed  uint64 `json:"placed"`
	Weather uint64 `json:"weather"`
	Sonar   uint64 `json:"sonar"`
}

func (h *Head) encode() logHead {
	out := logHead{
		Format: LogFormat, Engine: provenance.Engine, Platform: provenance.Platform(), Trainee: h.Trainee,
		Exercise: h.Exercise, Hash: h.Hash, Seed: h.Seeds.One, Source: string(h.Source),
	}
	if h.Unchained {
		out.Origin = 1
	}
	if h.Step != sonar.FineSteps {
		out.Step = h.Step.Metres()
	}
	out.Started = writtenTime(h.Started)
	if p := h.Parent; p != nil {
		out.Parent = &parent{writtenTime(p.Started), p.Digest, p.Tick}
	}
	if s := h.Seeds; s != exercise.SeedsOf(s.One) {
		out.Seeds = &logSeeds{s.Ground, s.Placed, s.Weather, s.Sonar}
	}
	return out
}

// decode takes a head that was read.
func (h *Head) decode(line []byte) error {
	var in logHead
	if err := strictly(line, &in); err != nil {
		return fmt.Errorf("not a session log: %w", err)
	}
	if in.Source == "" {
		return errors.New("it carries no exercise")
	}
	if err := CheckTrainee(in.Trainee); err != nil {
		return fmt.Errorf("trainee: %w", err)
	}
	if err := CheckPlatform(in.Platform); err != nil {
		return err
	}
	*h = Head{
		Attempt: Attempt{Trainee: in.Trainee}, Exercise: in.Exercise, Hash: in.Hash, Source: []byte(in.Source),
		Seeds: exercise.SeedsOf(in.Seed), Format: in.Format, Engine: in.Engine, Platform: in.Platform,
		Unchained: in.Format == 1 || in.Origin != 0,
	}
	if in.Step != 0 {
		if in.Step != sonar.CoarseSteps.Metres() {
			return fmt.Errorf("ground_step_m: %g is none (want %g, or nothing for the fine one)", in.Step, sonar.CoarseSteps.Metres())
		}
		h.Step = sonar.CoarseSteps
	}
	if s := in.Seeds; s != nil {
		h.Seeds = exercise.Seeds{One: in.Seed, Ground: s.Ground, Placed: s.Placed, Weather: s.Weather, Sonar: s.Sonar}
	}
	var err error
	if h.Started, err = readTime(in.Started); err != nil {
		return fmt.Errorf("started_utc: %w", err)
	}
	if in.Parent != nil {
		if h.Parent, err = in.Parent.read(); err != nil {
			return fmt.Errorf("parent: %w", err)
		}
	}
	return nil
}

func (p *parent) read() (*Parent, error) {
	started, err := readTime(p.Started)
	if err != nil {
		return nil, fmt.Errorf("started_utc: %w", err)
	}
	if p.Tick < 0 || p.Tick > maxLogTicks {
		return nil, fmt.Errorf("tick: %d is out of range (want 0 to %d)", p.Tick, maxLogTicks)
	}
	if sum, err := hex.DecodeString(p.Digest); err != nil || len(sum) != 0 && len(sum) != sha256.Size {
		return nil, fmt.Errorf("digest: %q is none (want %d hex digits)", p.Digest, 2*sha256.Size)
	}
	return &Parent{started, p.Digest, p.Tick}, nil
}

// writtenTime is a time as a head has it, empty if it is not known.
func writtenTime(t time.Time) string {
	if t.IsZero() {
		return ""
	}
	return t.UTC().Format(time.RFC3339)
}

func readTime(s string) (time.Time, error) {
	if s == "" {
		return time.Time{}, nil
	}
	t, err := time.Parse(time.RFC3339, s)
	if err != nil {
		return t, fmt.Errorf("%q is not a time (want one like 2031-05-01T08:00:00Z)", s)
	}
	return t.UTC(), nil
}
