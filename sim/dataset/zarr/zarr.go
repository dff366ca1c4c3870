// Package zarr writes arrays as Zarr, version 2, in a zip file: chunks of the first
// dimension, each compressed by zlib, with the metadata of all of them together besides, so
// that a reader learns it in one go.
//
// Sources: "Zarr storage specification version 2" (zarr-developers/zarr-specs, docs/v2); the
// consolidated metadata of the Python library, .zmetadata; and the attribute
// _ARRAY_DIMENSIONS, by which xarray and GDAL name dimensions. Without a fill value
// fill_value is null; chunks are whole, the last filled up with zeros.
package zarr

import (
	"archive/zip"
	"bytes"
	"compress/zlib"
	"encoding/json"
	"fmt"
	"io"
	"slices"
)

// Array is an array of a group.
type Array struct {
	Name  string
	Type  string // as NumPy has it: >u2, |u1, >f8, |S1
	Dims  []string
	Shape []int64
	Rows  int64 // of the first dimension in a chunk; 0 is all
	Fill  any   // nil for none
	Attrs map[string]any
}

// chunkRows is how many rows a chunk has.
func (a *Array) chunkRows() int64 {
	if a.Rows > 0 {
		return a.Rows
	}
	if len(a.Shape) > 0 {
		return max(a.Shape[0], 1)
	}
	return 1
}

// Writer writes a group into a zip file.
type Writer struct {
	zip  *zip.Writer
	meta map[string]json.RawMessage
	pack bytes.Buffer
}

// NewWriter begins a group with attributes.
func NewWriter(out io.Writer, attrs map[string]any) (*Writer, error) {
	w := &Writer{zip: zip.NewWriter(out), meta: map[string]json.RawMessage{}}
	if err := w.note(".zgroup", map[string]any{"zarr_format": 2}); err != nil {
		return nil, err
	}
	return w, w.note(".zattrs", attrs)
}

// note writes metadata, and keeps it for the list of all.
func (w *Writer) note(key string, v any) error {
	b, err := json.Marshal(v)
	if err != nil {
		return fmt.Errorf("zarr: %s: %w", key, err)
	}
	w.meta[key] = b
	return w.file(key, b)
}

func (w *Writer) file(key string, b []byte) error {
	// Stored as it is, without a time: chunks are compressed already.
	f, err := w.zip.CreateHeader(&zip.FileHeader{Name: key, Method: zip.Store})
	if err != nil {
		return err
	}
	_, err = f.Write(b)
	return err
}

// Describe adds an array; its chunks follow.
func (w *Writer) Describe(a *Array) error {
	chunks := slices.Clone(a.Shape)
	for i := range chunks {
		chunks[i] = max(chunks[i], 1)
	}
	if len(chunks) > 0 {
		chunks[0] = a.chunkRows()
	}
	if chunks == nil {
		chunks = []int64{}
	}
	attrs := map[string]any{"_ARRAY_DIMENSIONS": append([]string{}, a.Dims...)}
	for k, v := range a.Attrs {
		attrs[k] = v
	}
	if err := w.note(a.Name+"/.zarray", map[string]any{
		"zarr_format": 2, "shape": append([]int64{}, a.Shape...), "chunks": chunks, "dtype": a.Type, "fill_value": a.Fill, "order": "C", "filters": nil,
		"compressor": map[string]any{"id": "zlib", "level": 1},
	}); err != nil {
		return err
	}
	return w.note(a.Name+"/.zattrs", attrs)
}

// Chunk writes chunk n of an array's first dimension, from 0: the bytes of its rows, fewer
// in the last one.
func (w *Writer) Chunk(a *Array, n int64, rows []byte, rowBytes int64) error {
	w.pack.Reset()
	z, err := zlib.NewWriterLevel(&w.pack, zlib.BestSpeed)
	if err != nil {
		return err
	}
	if _, err := z.Write(rows); err != nil {
		return err
	}
	if lack := a.chunkRows()*rowBytes - int64(len(rows)); lack > 0 {
		if _, err := z.Write(make([]byte, lack)); err != nil {
			return err
		}
	}
	if err := z.Close(); err != nil {
		return err
	}
	key := fmt.Sprintf("%s/%d", a.Name, n)
	for range max(len(a.Shape)-1, 0) {
		key += ".0"
	}
	return w.file(key, w.pack.Bytes())
}

// Close writes the list of all metadata and ends the file.
func (w *Writer) Close() error {
	b, err := json.Marshal(map[string]any{"zarr_consolidated_format": 1, "metadata": w.meta})
	if err != nil {
		return err
	}
	if err := w.file(".zmetadata", b); err != nil {
		return err
	}
	return w.zip.Close()
}
