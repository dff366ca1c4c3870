//go:build js

package main

import (
	"slices"
	"strings"
	"time"

	"dryline/cmd/dryline-desk/app"
)

// Sessions are kept in the browser's own storage under this, when they were
// begun and their name: a watch under way is found again when the browser has
// died with it.
const sessionKey = "dryline.session "

// mostKept bounds them: a browser gives a page a few megabytes in all.
const mostKept = 8

// Keep implements [app.Store]. The oldest make room.
func (p *page) Keep(where, name string, log []byte) (string, error) {
	now := time.Now().UTC().Format(time.RFC3339)
	if where == "" {
		for kept := p.Sessions(); len(kept) >= mostKept; kept = kept[:len(kept)-1] {
			p.Drop(kept[len(kept)-1].Where)
		}
		where = sessionKey + now + " " + name
	}
	return where, store(where, now+"\n"+string(log))
}

// Drop implements [app.Store].
func (p *page) Drop(where string) error {
	storage().Call("removeItem", where)
	return nil
}

// Sessions implements [app.Store].
func (p *page) Sessions() []app.SavedSession {
	var list []app.SavedSession
	for i := range storage().Get("length").Int() {
		key := storage().Call("key", i).String()
		rest, ok := strings.CutPrefix(key, sessionKey)
		if !ok {
			continue
		}
		_, name, _ := strings.Cut(rest, " ")
		when, log, _ := strings.Cut(storage().Call("getItem", key).String(), "\n")
		s := app.SavedSession{Name: name, Where: key, Read: func() ([]byte, error) { return []byte(log), nil }}
		s.When, _ = time.Parse(time.RFC3339, when)
		list = append(list, s)
	}
	slices.SortStableFunc(list, func(a, b app.SavedSession) int { return b.When.Compare(a.When) })
	return list
}
