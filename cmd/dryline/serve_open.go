package main

import (
	"os/exec"
	"runtime"
)

// openBrowser shows an address in the person's browser, by the usual command of
// the system.
func openBrowser(at string) error {
	args := []string{"xdg-open"}
	switch runtime.GOOS {
	case "darwin":
		args = []string{"open"}
	case "windows":
		args = []string{"rundll32", "url.dll,FileProtocolHandler"}
	}
	c := exec.Command(args[0], append(args[1:], at)...)
	if err := c.Start(); err != nil {
		return err
	}
	go c.Wait() // it is not ours to judge
	return nil
}
