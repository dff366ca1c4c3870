package assess

import (
	"bytes"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"time"

	"filippo.io/age"

	"dryline/sim"
	"dryline/sim/exercise"
	"dryline/sim/order"
	"dryline/sim/provenance"
)

// Box keeps the files of an assessment under way.
type Box interface {
	Read(name string) ([]byte, error)
	Put(name string, content []byte) error    // whole or not at all, in place of what is there
	Append(name string, content []byte) error // so that it outlives the program
}

// Parse reads an exercise from its file, named.
type Parse func(name string, source []byte) (*exercise.Exercise, error)

// Session is a session flown as an assessment.
type Session struct {
	*sim.Session
	Log *Log

	box          Box
	instructor   age.Recipient
	installation age.Recipient
	left         *Written // what it is first brought back to; nil when it was just begun
}

// Start says what is begun and for whom.
type Start struct {
	Exercise     *exercise.Exercise
	Trainee      string
	Nth          int       // begun on the installation
	Began        time.Time // UTC, to the second
	Instructor   *age.X25519Recipient
	Installation *age.X25519Recipient
	Chance       io.Reader // what is secret is drawn from it, such as crypto/rand
	Now          func() time.Time
}

// ErrNotReady says that an exercise cannot be flown as an assessment.
var ErrNotReady = errors.New("it cannot be flown as an assessment")

// Begin draws the seeds, seals them, and sets the session up.
func (b *Start) Begin(box Box) (*Session, error) {
	if err := Ready(b.Exercise); err != nil {
		return nil, fmt.Errorf("%s: %w: %w", b.Exercise.Name, ErrNotReady, err)
	}
	if err := order.CheckTrainee(b.Trainee); err != nil {
		return nil, err
	}
	seeds, err := Draw(b.Exercise, b.Chance)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", b.Exercise.Name, err)
	}
	var drawn [16 + 32]byte
	if _, err := io.ReadFull(b.Chance, drawn[:]); err != nil {
		return nil, err
	}
	id, key := hex.EncodeToString(drawn[:16]), drawn[16:]
	known := Secret{id, b.Exercise.Name, b.Exercise.Source, seeds}
	sealed, err := sealJSON(known.encode(), b.Instructor, b.Installation)
	if err != nil {
		return nil, err
	}
	sealedKey, err := sealJSON(recordKey{id, hex.EncodeToString(key)}, b.Instructor)
	if err != nil {
		return nil, err
	}
	inner, err := sim.NewSeeded(Assessed(b.Exercise), seeds)
	if err != nil {
		return nil, err
	}
	inner.Attempt = order.Attempt{Trainee: b.Trainee, Started: b.Began.UTC()}
	s := &Session{Session: inner, box: box, instructor: b.Instructor, installation: b.Installation}
	if err := errors.Join(box.Put(SecretFile, sealed), box.Put(KeyFile, sealedKey), box.Put(LogFile, nil)); err != nil {
		return nil, err
	}
	s.Log = &Log{w: appender{box}, keep: s.keep, session: id, key: bytes.Clone(key), now: b.Now}
	return s, s.Log.write(Head{
		Format: LogFormat, Session: id, Engine: provenance.Engine, Platform: provenance.Platform(), Trainee: b.Trainee,
		Exercise: b.Exercise.Name, Begun: b.Began.UTC().Format(time.RFC3339), For: b.Instructor.String(), Nth: b.Nth,
		Secret: hashOf(sealed), Key: hashOf(sealedKey),
	})
}

// appender adds to the log in a box.
type appender struct{ box Box }

func (a appender) Write(b []byte) (int, error) { return len(b), a.box.Append(LogFile, b) }

// keep seals to the installation the state that the log is continued from.
func (s *Session) keep(st State) error {
	sealed, err := sealJSON(state{st.session, st.records, hex.EncodeToString(st.key)}, s.installation)
	if err != nil {
		return err
	}
	return s.box.Put(StateFile, sealed)
}

// Resume takes up a session where it was left, on the installation it was begun on. It is
// brought there by [Flight.Fly].
func Resume(box Box, by *age.X25519Identity, parse Parse, now func() time.Time) (*Session, error) {
	files := map[string][]byte{}
	for _, name := range []string{SecretFile, KeyFile, LogFile, StateFile} {
		content, err := box.Read(name)
		if err != nil {
			return nil, err
		}
		files[name] = content
	}
	var st state
	if err := unsealJSON(StateFile, files[StateFile], by, &st); err != nil {
		return nil, begunElsewhere(err)
	}
	key, err := hex.DecodeString(st.Key)
	if err != nil || st.Records < 0 {
		return nil, fmt.Errorf("%s: it holds no key", StateFile)
	}
	check := byKey(key, st.Records)
	l, err := readLog(files[LogFile], func(n int, chain, mac []byte) error {
		if err := check(n, chain, mac); err != nil {
			return err
		}
		if n >= st.Records {
			key = keyAfter(key)
		}
		return nil
	})
	switch {
	case err != nil:
		return nil, err
	case l.Head.Session != st.Session:
		return nil, fmt.Errorf("%s: %w", StateFile, errSwapped)
	case l.records < st.Records:
		return nil, fmt.Errorf("%s: it has %d records, and %d were written: the last were taken out", LogFile, l.records, st.Records)
	case l.HandedIn != nil:
		return nil, fmt.Errorf("%s: it was handed in", LogFile)
	}
	secret, err := openSecret(files[SecretFile], files[KeyFile], &l.Head, by)
	if err != nil {
		return nil, begunElsewhere(err)
	}
	instructor, err := age.ParseX25519Recipient(l.Head.For)
	if err != nil {
		return nil, fmt.Errorf("%s: for: it is no public key", LogFile)
	}
	if l.Torn {
		if err := box.Put(LogFile, files[LogFile][:l.whole]); err != nil {
			return nil, err
		}
	}
	inner, err := l.session(secret, parse)
	if err != nil {
		return nil, err
	}
	s := &Session{Session: inner, box: box, instructor: instructor, installation: by.Recipient(), left: l}
	s.Log = &Log{w: appender{box}, keep: s.keep, session: st.Session, records: l.records, chain: l.chain, key: key, now: now}
	return s, nil
}

func begunElsewhere(err error) error {
	if errors.Is(err, ErrNotForThisKey) {
		return fmt.Errorf("it was not begun on this installation, and cannot be resumed here: %w", err)
	}
	return err
}

var errSwapped = errors.New("it is of another session")

// openSecret opens the exercise and the seeds of a session, and holds the sealed files
// against the head of its log.
func openSecret(sealed, sealedKey []byte, h *Head, by age.Identity) (*Secret, error) {
	for _, f := range []struct{ name, got, want string }{{SecretFile, hashOf(sealed), h.Secret}, {KeyFile, hashOf(sealedKey), h.Key}} {
		if f.got != f.want {
			return nil, fmt.Errorf("%s: it was changed, or is of another session: the log's head names another", f.name)
		}
	}
	var in secret
	if err := unsealJSON(SecretFile, sealed, by, &in); err != nil {
		return nil, err
	}
	out := in.decode()
	if out.Session != h.Session || out.Exercise != h.Exercise {
		return nil, fmt.Errorf("%s: %w", SecretFile, errSwapped)
	}
	return out, nil
}

// session sets a session up as it was at its start.
func (l *Written) session(known *Secret, parse Parse) (*sim.Session, error) {
	ex, err := parse(known.Exercise, known.Source)
	if err != nil {
		return nil, fmt.Errorf("%s: the exercise in it: %w", SecretFile, err)
	}
	s, err := sim.NewSeeded(Assessed(ex), known.Seeds)
	if err != nil {
		return nil, fmt.Errorf("%s: the exercise in it: %w", SecretFile, err)
	}
	began, err := time.Parse(time.RFC3339, l.Head.Begun)
	if err != nil {
		return nil, err
	}
	s.Attempt = order.Attempt{Trainee: l.Head.Trainee, Started: began.UTC()}
	return s, nil
}

// readFile reads a file of a folder, no longer than so many bytes.
func readFile(files fs.FS, name string, longest int64) ([]byte, error) {
	switch info, err := fs.Stat(files, name); {
	case err != nil:
		return nil, err
	case !info.Mode().IsRegular():
		return nil, fmt.Errorf("%s: it is no file", name) // a pipe would be waited for
	}
	f, err := files.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	content, err := io.ReadAll(io.LimitReader(f, longest+1))
	if err == nil && int64(len(content)) > longest {
		err = fmt.Errorf("%s: it is longer than %d bytes", name, longest)
	}
	return content, err
}
