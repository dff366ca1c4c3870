package app

import "time"

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
	// Keep writes the log of a session, over what was kept of it before or under
	// a name of its own if where is empty, and says where it is.
	Keep(where, name string, log []byte) (string, error)
	// Drop lets go of what was kept.
	Drop(where string) error
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

// SavedSession is a session log that is kept.
type SavedSession struct {
	Name  string
	Where string    // for [Store.Keep]; empty if it is not the window's to write over
	When  time.Time // it was written
	Read  func() ([]byte, error)
}
