package app

import (
	"time"

	"dryline/sim/exercise"
)

// Store is where the window keeps things: files on the desktop, the browser's
// own storage, downloads and uploads on a page.
type Store interface {
	// Settings reads the settings file; nil if there is none.
	Settings() ([]byte, error)
	// KeepSettings writes it.
	KeepSettings([]byte) error
	// SetAside keeps a settings file that could not be read under another name,
	// and says which.
	SetAside() (string, error)
	// Save writes a file for the person and says where it went.
	Save(name string, data []byte) (where string, err error)
	// Begin begins the log of a session under way with some records, under a name
	// of its own or, where is not empty, in place of all that is kept there; it says
	// where it is. done is called, before Begin returns or from [Store.Poll], when
	// the records are kept or cannot be.
	Begin(where, name string, records []byte, done func(error)) (Ledger, string)
	// Beside keeps the files that the exercise of a session names, where the session is
	// resumed from. The error says that it cannot be.
	Beside(files []exercise.File) error
	// Finish keeps the whole log of a session that is over under a name of its own,
	// and lets go of what was kept of it at part, if that is not empty. done is
	// called like that of Begin.
	Finish(part, name string, log []byte, done func(where string, err error))
	// Sessions lists the session logs that are kept, the newest first.
	Sessions() []SavedSession
	// Pick lets the person choose a session log where what is kept is not all
	// there may be; got is called from [Store.Poll].
	Pick(got func(name string, data []byte, err error))
	// Poll delivers what was picked; call it every frame.
	Poll()
	// Files reports whether what is saved and kept are files on this machine,
	// which [Store.Show] opens. A page hands over downloads instead, and keeps
	// sessions where only it finds them.
	Files() bool
	// Show opens a file the person saved, if the platform can.
	Show(where string) error
}

// Ledger is the log of a session under way, to which records are only added.
type Ledger interface {
	// Add adds records. done is called, before Add returns or from [Store.Poll], when
	// they outlive this program or cannot be kept; in the order they were added.
	Add(records []byte, done func(error))
	// Sync has what was added outlive the machine as well. It does not wait.
	Sync()
	// Close ends the adding.
	Close() error
}

// SavedSession is a session log that is kept.
type SavedSession struct {
	Name  string
	Where string    // for [Store.Begin]; empty if it is not the window's to write over
	When  time.Time // it was written
	Read  func() ([]byte, error)
}
