//go:build !js

package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"

	"dryline/cmd/dryline-desk/app"
	"dryline/scenarios"
	"dryline/sim/exercise"
	"dryline/sim/order"
)

// ledger is the file of a session under way. What is written is the system's to
// keep at once, should this program die; what is synced outlives the machine.
type ledger struct {
	file    *os.File
	unsaved bool          // since the last sync
	syncing chan struct{} // closed when the sync under way is done
}

// Begin implements [app.Store].
func (f *folder) Begin(where, name string, records []byte, done func(error)) (app.Ledger, string) {
	file, where, err := f.begin(where, name, records)
	done(err)
	if err != nil {
		return nil, where
	}
	return &ledger{file: file, unsaved: true}, where
}

func (f *folder) begin(where, name string, records []byte) (*os.File, string, error) {
	if where != "" {
		if err := write(where, records); err != nil {
			return nil, where, err
		}
		file, err := os.OpenFile(where, os.O_WRONLY|os.O_APPEND, 0)
		return file, where, err
	}
	file, err := f.fresh(name)
	if err != nil {
		return nil, "", err
	}
	if _, err := file.Write(records); err != nil {
		file.Close()
		os.Remove(file.Name()) // it is our own and holds nothing yet
		return nil, "", err
	}
	return file, file.Name(), nil
}

// Add implements [app.Ledger]. A record that is written in part is the last one
// there: after a fault the log is begun afresh, and until then it is read up to
// the one before.
func (l *ledger) Add(records []byte, done func(error)) {
	_, err := l.file.Write(records)
	l.unsaved = true
	done(err)
}

// Sync implements [app.Ledger].
func (l *ledger) Sync() {
	select {
	case <-l.syncing:
		l.syncing = nil
	default:
		if l.syncing != nil {
			return // the one before is not done: a slow disk is not to be piled upon
		}
	}
	if !l.unsaved {
		return
	}
	l.unsaved = false
	done := make(chan struct{})
	l.syncing = done
	go func() {
		l.file.Sync() // what fails here shows in the next writing
		close(done)
	}()
}

// Close implements [app.Ledger].
func (l *ledger) Close() error {
	if l.syncing != nil {
		<-l.syncing
	}
	return l.file.Close()
}

// Beside implements [app.Store]: a file by its SHA-256, once for all sessions that fly on it.
func (f *folder) Beside(files []exercise.File) error {
	for _, file := range files {
		name := filepath.Join(f.out, scenarios.KeptName(file.Name, file.Hash))
		if info, err := os.Stat(name); err == nil && info.Size() == int64(len(file.Data)) {
			continue
		}
		if err := write(name, file.Data); err != nil {
			return err
		}
	}
	return nil
}

// readLog reads a session's log, and finds what its exercise names beside it or in the
// folder of sessions.
func readLog(name string, folders ...string) ([]byte, error) {
	data, err := os.ReadFile(name)
	if err != nil {
		return nil, err
	}
	if l, err := order.ReadLog(bytes.NewReader(data)); err == nil { // who reads it says what is wrong with it
		if err := scenarios.Fetch(l.Source, append([]string{filepath.Dir(name)}, folders...)...); err != nil {
			return nil, err
		}
	}
	return data, nil
}

// Finish implements [app.Store].
func (f *folder) Finish(part, name string, log []byte, done func(string, error)) {
	where, err := f.Save(name, log)
	if err == nil && part != "" {
		if err = os.Remove(part); err != nil {
			err = fmt.Errorf("what was kept of it under way could not be removed: %w", err)
		}
	}
	done(where, err)
}
