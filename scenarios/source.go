package scenarios

import (
	"bytes"
	"io"
	"os"

	"go.yaml.in/yaml/v3"
)

// maxSource is the largest file read, bytes.
const maxSource = 1 << 20

// readSource reads a file, and no more of it than tells that it is too large.
func readSource(path string) ([]byte, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return io.ReadAll(io.LimitReader(f, maxSource+1))
}

// encode writes a file down, with its comments and the order of its keys.
func encode(doc *yaml.Node) ([]byte, error) {
	var out bytes.Buffer
	e := yaml.NewEncoder(&out)
	e.SetIndent(2)
	err := e.Encode(doc)
	return out.Bytes(), err
}
