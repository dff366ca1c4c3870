//go:build wasm

package main

import (
	"errors"
	"io"
)

func openSerial(string, int, io.Writer) (outlet, error) {
	return nil, errors.New("--serial: there are no serial ports here")
}
