//go:build js

package main

import (
	"errors"
	"slices"
	"syscall/js"
	"time"

	"dryline/cmd/dryline-desk/app"
)

// Sessions are kept in the browser's own database, record by record: a watch under
// way is found again when the page, the browser or the machine has died with it.
// The page's script has the database; here is a copy of what it holds.

// mostKept bounds the sessions.
const mostKept = 8

// keptSession is a session in the database.
type keptSession struct {
	id, name string
	when     time.Time // it was written
	log      []byte
	records  int // of it
}

// database asks the page's script for something; told is called from Poll.
func (p *page) database(what string, told func(error), args ...any) {
	var done js.Func
	done = js.FuncOf(func(_ js.Value, args []js.Value) any {
		var err error
		if fault := args[0].String(); fault != "" {
			err = errors.New(fault)
		}
		p.picked = append(p.picked, func() { told(err) })
		done.Release()
		return nil
	})
	js.Global().Get("drylineSessions").Call(what, append(args, done)...)
}

// openSessions waits for the database and reads it.
func (p *page) openSessions() {
	listed := make(chan struct{})
	done := js.FuncOf(func(_ js.Value, args []js.Value) any {
		for i := range args[0].Length() {
			v := args[0].Index(i)
			k := &keptSession{id: v.Get("id").String(), name: v.Get("name").String(), log: []byte(v.Get("log").String()), records: v.Get("records").Int()}
			k.when, _ = time.Parse(time.RFC3339, v.Get("when").String())
			p.kept = append(p.kept, k)
		}
		close(listed)
		return nil
	})
	js.Global().Get("drylineSessions").Call("open", done)
	<-listed
	done.Release()
}

func stamp(t time.Time) string { return t.UTC().Format(time.RFC3339) }

// put keeps a log whole, in place of what is kept under its id, and lets the
// others named go, and the oldest beyond what there is room for.
func (p *page) put(k *keptSession, told func(error), gone ...string) {
	p.kept = slices.DeleteFunc(p.kept, func(o *keptSession) bool { return o.id == k.id || slices.Contains(gone, o.id) })
	slices.SortStableFunc(p.kept, func(a, b *keptSession) int { return b.when.Compare(a.when) })
	for len(p.kept) >= mostKept {
		gone = append(gone, p.kept[len(p.kept)-1].id)
		p.kept = p.kept[:len(p.kept)-1]
	}
	k.when, k.records = time.Now(), 1
	p.kept = append(p.kept, k)
	drop := []any{}
	for _, id := range gone {
		drop = append(drop, id)
	}
	p.database("put", told, k.id, k.name, stamp(k.when), string(k.log), js.ValueOf(drop))
}

// newID is one that no other session has: no two are begun in one millisecond.
func newID(name string) string { return time.Now().UTC().Format(time.RFC3339Nano) + " " + name }

// Begin implements [app.Store].
func (p *page) Begin(where, name string, records []byte, done func(error)) (app.Ledger, string) {
	if where == "" {
		where = newID(name)
	} else if i := slices.IndexFunc(p.kept, func(k *keptSession) bool { return k.id == where }); i >= 0 {
		name = p.kept[i].name
	}
	k := &keptSession{id: where, name: name, log: slices.Clone(records)}
	p.put(k, done)
	return &pageLedger{p, k}, where
}

// Finish implements [app.Store].
func (p *page) Finish(part, name string, log []byte, done func(string, error)) {
	k := &keptSession{id: newID(name), name: name, log: slices.Clone(log)}
	var gone []string
	if part != "" {
		gone = append(gone, part)
	}
	p.put(k, func(err error) {
		if err != nil {
			done("", err)
			return
		}
		done(k.id, nil)
	}, gone...)
}

// pageLedger is a session under way in the database.
type pageLedger struct {
	page *page
	kept *keptSession
}

// Add implements [app.Ledger].
func (l *pageLedger) Add(records []byte, done func(error)) {
	k := l.kept
	k.when, k.log = time.Now(), append(k.log, records...)
	l.page.database("add", done, k.id, k.name, stamp(k.when), k.records, string(records))
	k.records++
}

// Sync implements [app.Ledger]: the database says that something is kept when it
// is on the disk.
func (l *pageLedger) Sync() {}

// Close implements [app.Ledger].
func (l *pageLedger) Close() error { return nil }

// Sessions implements [app.Store].
func (p *page) Sessions() []app.SavedSession {
	var list []app.SavedSession
	for _, k := range p.kept {
		list = append(list, app.SavedSession{Name: k.name, Where: k.id, When: k.when, Read: func() ([]byte, error) { return k.log, nil }})
	}
	slices.SortStableFunc(list, func(a, b app.SavedSession) int { return b.When.Compare(a.When) })
	return list
}
