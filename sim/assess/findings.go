package assess

import (
	"archive/tar"
	"bytes"
	"errors"
	"fmt"
	"io"
	"strings"

	"dryline/sim/product"
)

// pack makes a tar file of what is sealed. It is filled up to a power of two of MiB, so that its
// length does not tell how much there was to be found.
func pack(files *product.Memory) ([]byte, error) {
	var b bytes.Buffer
	w := tar.NewWriter(&b)
	for _, e := range files.Files() {
		if err := w.WriteHeader(&tar.Header{Name: e.Name, Mode: 0o644, Size: e.Bytes, Format: tar.FormatUSTAR}); err != nil {
			return nil, err
		}
		if _, err := w.Write(files.Content(e.Name)); err != nil {
			return nil, err
		}
	}
	if err := w.Close(); err != nil {
		return nil, err
	}
	size := 1 << 20
	for size < b.Len() {
		size *= 2
	}
	return append(b.Bytes(), make([]byte, size-b.Len())...), nil
}

// mostPacked bounds the files in a tar file that is read.
const mostPacked = 16

// unpack reads what pack packed.
func unpack(packed []byte) (map[string][]byte, error) {
	files := map[string][]byte{}
	r := tar.NewReader(bytes.NewReader(packed))
	for {
		h, err := r.Next()
		if errors.Is(err, io.EOF) {
			return files, nil
		}
		if err != nil {
			return nil, fmt.Errorf("%s: %w", FindingsFile, err)
		}
		if len(files) == mostPacked || h.Size > int64(len(packed)) || h.Typeflag != tar.TypeReg || h.Name == "" || strings.ContainsAny(h.Name, `/\:`) || files[h.Name] != nil {
			return nil, fmt.Errorf("%s: it holds something that no assessment puts there: %q", FindingsFile, h.Name)
		}
		content, err := io.ReadAll(r) // of a sparse file too no more than the whole is long
		if err != nil {
			return nil, fmt.Errorf("%s: %s: %w", FindingsFile, h.Name, err)
		}
		files[h.Name] = content
	}
}
