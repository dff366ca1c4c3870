package app

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
	// Sessions lists the session logs that can be resumed without asking.
	Sessions() []SavedSession
	// Pick lets the person choose a session log, if the platform can; got is
	// called from [Store.Poll].
	Pick(got func(name string, data []byte, err error)) bool
	// Poll delivers what was picked; call it every frame.
	Poll()
	// Opens reports whether the platform can show a saved file.
	Opens() bool
	// Show opens a file the person saved, if the platform can.
	Show(where string) error
}

// SavedSession is a session log on the desktop.
type SavedSession struct {
	Name string
	Read func() ([]byte, error)
}
