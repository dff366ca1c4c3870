package record

import (
	"bytes"
	"errors"
	"io"
	"math/rand/v2"
	"testing"
)

// Memory in pieces gives back what was put in, across their borders, and no more than it may hold is
// taken.
func TestMemoryInPieces(t *testing.T) {
	const most = 2*piece + 1000
	b, whole := InMemoryUpTo(most), InMemory()
	draw := rand.New(rand.NewPCG(4, 2))
	size := int64(0)
	for {
		chunk := make([]byte, 1+draw.IntN(piece/3))
		for i := range chunk {
			chunk[i] = byte(draw.Uint32())
		}
		n, err := b.Write(chunk)
		if size+int64(len(chunk)) > most {
			if !errors.Is(err, ErrFull) || n != 0 {
				t.Fatalf("%d bytes over %d: wrote %d, %v", size+int64(len(chunk))-most, most, n, err)
			}
			break
		}
		if err != nil || n != len(chunk) {
			t.Fatal(n, err)
		}
		whole.Write(chunk)
		size += int64(n)
	}
	for range 200 {
		at, n := draw.Int64N(size+10), 1+draw.IntN(piece)
		got, want := make([]byte, n), make([]byte, n)
		k1, err1 := b.ReadAt(got, at)
		k2, err2 := whole.ReadAt(want, at)
		if k1 != k2 || (err1 == nil) != (err2 == nil) || err1 != nil && err1 != io.EOF || !bytes.Equal(got[:k1], want[:k2]) {
			t.Fatalf("%d bytes at %d: %d, %v; want %d, %v", n, at, k1, err1, k2, err2)
		}
	}
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
}
