package scenarios

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"

	"dryline/seabed/grid"

	"go.yaml.in/yaml/v3"
)

// library keeps the files that exercises name, by what they hold. An exercise is a
// text, and is read again from it by whoever has the text (the window, a log): the file
// it names is then found by its hash, which says that it is the same.
type library struct {
	mu    sync.Mutex
	files map[string]*keptFile
}

type keptFile struct {
	data []byte

	mu   sync.Mutex
	as   grid.Options
	read *grid.Raster
}

var shelf = library{files: map[string]*keptFile{}}

func (l *library) get(hash string) (*keptFile, bool) {
	l.mu.Lock()
	defer l.mu.Unlock()
	f, ok := l.files[hash]
	return f, ok
}

// raster reads the file, or gives what it was read as before.
func (f *keptFile) raster(o grid.Options) (*grid.Raster, error) {
	f.mu.Lock()
	defer f.mu.Unlock()
	if f.read != nil && f.as == o {
		return f.read, nil
	}
	r, err := grid.Read(f.data, o)
	if err == nil {
		f.as, f.read = o, r
	}
	return r, err
}

// mostFile is the largest file that an exercise may name, bytes.
const mostFile = 1 << 30

// Keep keeps the contents of a file that exercises may name, and returns its SHA-256.
func Keep(data []byte) (hash string) {
	sum := sha256.Sum256(data)
	hash = hex.EncodeToString(sum[:])
	shelf.mu.Lock()
	defer shelf.mu.Unlock()
	if _, ok := shelf.files[hash]; !ok {
		shelf.files[hash] = &keptFile{data: data}
	}
	return hash
}

// KeptName returns the name of a file that exercises name, where many are kept, each once: by
// its SHA-256, with the ending it had.
func KeptName(name, hash string) string {
	return "depths-" + hash + strings.ToLower(filepath.Ext(name))
}

// Fetch looks in folders for the file of depths that an exercise's text names, unless
// it is kept already, and keeps it for [Parse]; under its own name or that of [KeptName]. An exercise that names none needs none; a file that
// is not there is for Parse to report. The error says that a file of the name is there
// and is another than the exercise was made with.
func Fetch(source []byte, folders ...string) error {
	var names struct {
		Seabed struct {
			Depths struct {
				File string `yaml:"file"`
				Hash string `yaml:"sha256"`
			} `yaml:"depths"`
		} `yaml:"seabed"`
	}
	if len(source) > maxSource || yaml.Unmarshal(source, &names) != nil { // Parse says what is wrong
		return nil
	}
	d := names.Seabed.Depths
	hash := strings.ToLower(d.Hash)
	if d.File == "" || !filepath.IsLocal(d.File) || strings.ContainsAny(d.File, `/\`) || !isHash(hash) {
		return nil
	}
	if _, ok := shelf.get(hash); ok {
		return nil
	}
	var other error
	for _, folder := range folders {
		for _, called := range [...]string{KeptName(d.File, hash), d.File} {
			name := filepath.Join(folder, called)
			info, err := os.Stat(name)
			if err != nil || !info.Mode().IsRegular() || info.Size() > mostFile {
				continue
			}
			data, err := os.ReadFile(name)
			if err != nil {
				return err
			}
			sum := sha256.Sum256(data)
			if got := hex.EncodeToString(sum[:]); got == hash {
				Keep(data)
				return nil
			} else if other == nil {
				other = fmt.Errorf("%s is another file than the exercise names: its SHA-256 is %s, want %s", name, got, hash)
			}
		}
	}
	return other
}

func isHash(s string) bool {
	b, err := hex.DecodeString(s)
	return err == nil && len(b) == sha256.Size
}
