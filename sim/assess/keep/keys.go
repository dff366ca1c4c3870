// Package keep has the keys of assessments and the assessments under way on disk.
package keep

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"filippo.io/age"
)

// installationFile is the installation's key in the program's folder of settings.
const installationFile = "assessment.key"

// ErrNoKey says that a file has no key of the kind wanted.
var ErrNoKey = errors.New("no key is in it")

// Installation is the key of this installation, made when it is first asked for. Whoever can
// read it opens what was sealed here: it lies open, for its owner alone.
func Installation() (*age.X25519Identity, error) {
	dir, err := os.UserConfigDir()
	if err != nil {
		return nil, fmt.Errorf("the installation's key has no place: %w", err)
	}
	name := filepath.Join(dir, "dryline", installationFile)
	key, err := Private(name)
	if !errors.Is(err, fs.ErrNotExist) {
		return key, err
	}
	if err := os.MkdirAll(filepath.Dir(name), 0o700); err != nil {
		return nil, err
	}
	if _, err := NewPrivate(name, "the key of this installation of dryline"); err != nil && !errors.Is(err, fs.ErrExist) {
		return nil, err
	}
	return Private(name) // another program may have been quicker
}

// countFile has as many bytes as assessments were begun here.
const countFile = "assessments.begun"

// Begun counts an assessment that is begun on this installation, and says the how manieth it is.
func Begun() (int, error) {
	dir, err := os.UserConfigDir()
	if err != nil {
		return 0, err
	}
	f, err := os.OpenFile(filepath.Join(dir, "dryline", countFile), os.O_CREATE|os.O_APPEND|os.O_WRONLY, 0o600)
	if err != nil {
		return 0, err
	}
	_, err = f.Write([]byte{'|'})
	info, err2 := f.Stat()
	if err = errors.Join(err, err2, f.Close()); err != nil {
		return 0, err
	}
	return int(info.Size()), nil
}

// NewPrivate makes a key pair and writes the private part to a file that is not there yet,
// for its owner alone.
func NewPrivate(name, what string) (*age.X25519Recipient, error) {
	key, err := age.GenerateX25519Identity()
	if err != nil {
		return nil, err
	}
	aside, err := os.CreateTemp(filepath.Dir(name), ".key-*") // mode 0600
	if err != nil {
		return nil, err
	}
	defer os.Remove(aside.Name())
	_, err = fmt.Fprintf(aside, "# %s, to be kept secret\n# public key: %s\n%s\n", what, key.Recipient(), key)
	if err = errors.Join(err, aside.Sync(), aside.Close()); err != nil {
		return nil, err
	}
	if err := os.Link(aside.Name(), name); err != nil { // never in place of another key
		if errors.Is(err, fs.ErrExist) {
			return nil, fmt.Errorf("%s %w", name, fs.ErrExist)
		}
		return nil, err
	}
	return key.Recipient(), nil
}

// longestKeyFile bounds a key file that is read, bytes.
const longestKeyFile = 64 << 10

// Private reads a private key from a file.
func Private(name string) (*age.X25519Identity, error) {
	text, err := readKey(name)
	if err != nil {
		return nil, err
	}
	for _, line := range lines(text) {
		if key, err := age.ParseX25519Identity(line); err == nil {
			return key, nil
		}
	}
	return nil, fmt.Errorf("%s: %w (want a line AGE-SECRET-KEY-1...)", name, ErrNoKey)
}

// Public reads a public key: one itself, or a file with one, such as what "dryline assess
// key" printed.
func Public(text string) (*age.X25519Recipient, error) {
	if strings.HasPrefix(text, "age1") {
		key, err := age.ParseX25519Recipient(text)
		if err != nil {
			return nil, fmt.Errorf("%q is no public key: %w", text, ErrNoKey)
		}
		return key, nil
	}
	content, err := readKey(text)
	if err != nil {
		return nil, err
	}
	for _, line := range lines(content) {
		if key, err := age.ParseX25519Recipient(line); err == nil {
			return key, nil
		}
		if strings.HasPrefix(line, "AGE-SECRET-KEY-") {
			return nil, fmt.Errorf("%s: %w: it has a private one, which no trainee is to have", text, ErrNoKey)
		}
	}
	return nil, fmt.Errorf("%s: %w (want age1...)", text, ErrNoKey)
}

func readKey(name string) (string, error) {
	f, err := os.Open(name)
	if err != nil {
		return "", err
	}
	defer f.Close()
	text, err := io.ReadAll(io.LimitReader(f, longestKeyFile))
	return string(text), err
}

// lines are the lines that are no comments.
func lines(text string) []string {
	var out []string
	for line := range strings.Lines(text) {
		if line = strings.TrimSpace(line); line != "" && line[0] != '#' {
			out = append(out, line)
		}
	}
	return out
}
