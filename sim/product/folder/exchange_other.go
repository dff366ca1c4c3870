//go:build !linux

package folder

import "errors"

// exchange: see exchange_linux.go. Other systems take two renames.
var exchange = func(a, b string) error { return errors.ErrUnsupported }

func renameNew(from, to string) error { return renameUnlessThere(from, to) }
