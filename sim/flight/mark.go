package flight

import (
	"cmp"
	"context"
	"errors"
	"fmt"

	"dryline/sim"
	"dryline/sim/debrief"
	"dryline/sim/record"
)

// ErrNoVerdict says that a session flown again is not, or cannot be shown to be, the
// survey that its log was written of, so that it is not marked.
var ErrNoVerdict = errors.New("no verdict")

// Mark flies a finished session again by its log and marks it by today's rubric. It
// writes nothing. A session that gives another survey than its log says is not marked.
func (f *Flight) Mark(ctx context.Context) (debrief.Report, error) {
	s := f.Session
	if f.Log.Digest == "" {
		return debrief.Report{}, fmt.Errorf("%w: the log does not say what the session gave, as one cut short or of format 1, so nothing shows that this is the same survey", ErrNoVerdict)
	}
	witness := sim.Attend(s)
	store := record.New(cmp.Or[record.Backing](f.Backing, record.InMemory())) // the desk may have worked it up again
	defer store.Close()
	sim.KeepLogged(s, store)
	err := s.Replay(f.Log, func() bool {
		f.tell()
		return ctx.Err() == nil
	})
	if err == nil {
		err = context.Cause(ctx)
	}
	if err != nil {
		return debrief.Report{}, err
	}
	s.Close(f.Log.Reason)
	f.tell()
	if err := compare(f.Log, s); err != nil {
		return debrief.Report{}, err
	}
	if s.Another != "" {
		return debrief.Report{}, fmt.Errorf("%w: another engine: %s, and flown again it gives another survey", ErrNoVerdict, s.Another)
	}
	return debrief.Make(s, witness), nil
}
