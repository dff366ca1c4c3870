package assess

import (
	"cmp"
	"context"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"

	"filippo.io/age"

	"dryline/sim"
	"dryline/sim/order"
	"dryline/sim/product"
	"dryline/sim/product/folder"
	"dryline/sim/record"
)

// Opened is an assessment that its instructor opened: every record is of the session, and
// every sealed file is its own.
type Opened struct {
	Secret   *Secret
	Log      *Written
	Findings map[string][]byte // as they were sealed; nil if it was not handed in

	files fs.FS
}

// Open opens the folder of an assessment, handed in or under way, and holds all of it together.
// It refuses one in which anything was changed but the desk's products, of which
// [Opened.FlyAgain] tells.
func Open(files fs.FS, by age.Identity) (*Opened, error) {
	read := map[string][]byte{}
	for _, f := range []struct {
		name    string
		longest int64
	}{{KeyFile, longestSecret}, {LogFile, longestLog}, {SecretFile, longestSecret}} {
		content, err := readFile(files, f.name, f.longest)
		if errors.Is(err, fs.ErrNotExist) {
			return nil, fmt.Errorf("%s is not there: this is no assessment, or not all of it", f.name)
		}
		if err != nil {
			return nil, err
		}
		read[f.name] = content
	}
	var k recordKey
	if err := unsealJSON(KeyFile, read[KeyFile], by, &k); err != nil {
		return nil, err
	}
	key, err := hex.DecodeString(k.Key)
	if err != nil || len(key) != 32 {
		return nil, fmt.Errorf("%s: it holds no key", KeyFile)
	}
	l, err := readLog(read[LogFile], byKey(key, 0))
	if err != nil {
		return nil, err
	}
	if l.Head.Session != k.Session {
		return nil, fmt.Errorf("%s: %w", KeyFile, errSwapped)
	}
	known, err := openSecret(read[SecretFile], read[KeyFile], &l.Head, by)
	if err != nil {
		return nil, err
	}
	o := &Opened{Secret: known, Log: l, files: files}
	sealed, err := readFile(files, FindingsFile, longestFindings)
	switch {
	case errors.Is(err, fs.ErrNotExist) && l.HandedIn == nil:
		return o, nil
	case err != nil:
		return nil, err
	case l.HandedIn == nil:
		return nil, fmt.Errorf("%s: it is cut short: %s is there, and the record that handed it in is not", LogFile, FindingsFile)
	case hashOf(sealed) != l.HandedIn.Findings:
		return nil, fmt.Errorf("%s: it was changed, or is of another session: the log's end names another", FindingsFile)
	}
	packed, err := unseal(FindingsFile, sealed, longestFindings, by)
	if err != nil {
		return nil, err
	}
	o.Findings, err = unpack(packed)
	return o, err
}

// FlyAgain flies the orders again over the same ground, which is the evidence, and writes
// what came of it to the sink: what the desk made, the truth, the debrief and the session's log.
// It says how that stands to what was handed in.
func (o *Opened) FlyAgain(ctx context.Context, parse Parse, sink product.Sink, backing record.Backing, tell func(*sim.Session)) (*Statement, error) {
	s, err := o.Log.session(o.Secret, parse)
	if err != nil {
		return nil, err
	}
	store := record.New(cmp.Or[record.Backing](backing, record.InMemory()))
	defer store.Close()
	writer := attach(s, sink, sink, store)
	err = s.Follow(o.Log.Orders, o.Log.Ticks, func() bool {
		if tell != nil {
			tell(s)
		}
		return ctx.Err() == nil
	})
	if err = cmp.Or(err, context.Cause(ctx)); err != nil {
		return nil, fmt.Errorf("flown again: %w", err)
	}
	s.Close(order.ReasonInterrupted)
	report, err := writer.Finish()
	if err != nil {
		return nil, err
	}
	st, err := o.state(s, &report, sink)
	if err != nil {
		return nil, err
	}
	return st, o.tell(st, sink, writer)
}

// The statement's files.
const (
	StatementText = "statement.txt"
	StatementJSON = "statement.json"
)

// tell writes the statement, what was sealed where it is not what was flown again, and the
// list of it all.
func (o *Opened) tell(st *Statement, sink product.Sink, writer *product.Writer) error {
	for _, f := range st.Files {
		if content, sealed := o.Findings[f.Name]; sealed {
			if err := sink.Write("sealed-"+f.Name, bytesTo(content)); err != nil {
				return err
			}
		}
	}
	if err := sink.Write(StatementText, st.Write); err != nil {
		return err
	}
	if err := sink.Write(StatementJSON, func(w io.Writer) error {
		enc := json.NewEncoder(w)
		enc.SetIndent("", "  ")
		return enc.Encode(st)
	}); err != nil {
		return err
	}
	return sink.Write(folder.ListFile, writer.Contents)
}
