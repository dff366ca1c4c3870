package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

// bundle is the trainer window for the browser and the glue that starts it. The
// two have to be of the same Go release.
type bundle struct {
	wasm, glue []byte
}

// glueName is the file of the Go distribution that runs a program in a browser.
const glueName = "wasm_exec.js"

var errNoGo = errors.New("the Go tool is not here to build the window for the browser; install it, or give one built before with --bundle")

// readBundle takes a bundle built before. Its glue is beside it or, failing
// that, the Go tool's.
func readBundle(ctx context.Context, name string) (b bundle, err error) {
	if b.wasm, err = os.ReadFile(name); err != nil {
		return b, fmt.Errorf("--bundle: %w", err)
	}
	// The preamble of every module: magic and version (WebAssembly Core
	// Specification 1.0, 5.5.16).
	if !bytes.HasPrefix(b.wasm, []byte("\x00asm\x01\x00\x00\x00")) {
		return b, fmt.Errorf("--bundle: %s is not a WebAssembly module", name)
	}
	beside := filepath.Join(filepath.Dir(name), glueName)
	if b.glue, err = os.ReadFile(beside); errors.Is(err, os.ErrNotExist) {
		if b.glue, err = readGlue(ctx, ""); errors.Is(err, errNoGo) {
			err = fmt.Errorf("--bundle: want %s of the Go release that built it beside it", glueName)
		}
	}
	return b, err
}

// buildBundle builds the window with the Go tool under a cache directory. The
// tool itself sees whether anything has changed since.
func buildBundle(ctx context.Context, cache string, stderr io.Writer) (b bundle, err error) {
	dir, err := goTool(ctx, "", nil, "list", "-m", "-f", "{{.Dir}}", "dryline")
	if errors.Is(err, errNoGo) {
		return b, err
	}
	if err != nil || dir == "" {
		return b, errors.New("the window is built from the module's directory: run dryline serve there, or give one built before with --bundle")
	}
	name := filepath.Join(cache, "dryline", "dryline-desk.wasm")
	if _, err := os.Stat(name); err != nil {
		fmt.Fprintln(stderr, "dryline: building the window for the browser; the first time this takes a minute")
	}
	if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
		return b, err
	}
	if _, err := goTool(ctx, dir, []string{"GOOS=js", "GOARCH=wasm"},
		"build", "-trimpath", "-ldflags", "-s -w", "-o", name, "dryline/cmd/dryline-desk"); err != nil {
		return b, fmt.Errorf("the window could not be built: %w", err)
	}
	if b.wasm, err = os.ReadFile(name); err != nil {
		return b, err
	}
	b.glue, err = readGlue(ctx, dir)
	return b, err
}

// readGlue is the glue of the Go tool that is used in a directory.
func readGlue(ctx context.Context, dir string) ([]byte, error) {
	root, err := goTool(ctx, dir, nil, "env", "GOROOT")
	if err != nil {
		return nil, err
	}
	return os.ReadFile(filepath.Join(root, "lib", "wasm", glueName))
}

// goTool runs the Go tool and returns what it prints. Its complaint is the
// error.
func goTool(ctx context.Context, dir string, env []string, args ...string) (string, error) {
	path, err := exec.LookPath("go")
	if err != nil {
		return "", errNoGo
	}
	c := exec.CommandContext(ctx, path, args...)
	c.Dir, c.Env = dir, append(os.Environ(), env...)
	var stdout, stderr bytes.Buffer
	c.Stdout, c.Stderr = &stdout, &stderr
	if err := c.Run(); err != nil {
		if says := strings.TrimSpace(stderr.String()); says != "" {
			return "", errors.New(says)
		}
		return "", err
	}
	return strings.TrimSpace(stdout.String()), nil
}
