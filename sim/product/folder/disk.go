package folder

import (
	"crypto/sha256"
	"encoding/hex"
	"io"
	"os"
)

// step is called before every operation on the disk, so that a test can end the
// process there.
var step = func(string) {}

// writeFile makes a file, synced to the disk.
func writeFile(root *os.Root, name string, write func(io.Writer) error) (Entry, error) {
	step("create")
	file, err := root.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return Entry{}, err
	}
	sum := sha256.New()
	count := &counter{}
	err = write(io.MultiWriter(file, sum, count))
	if err == nil {
		step("sync")
		err = file.Sync()
	}
	if closed := file.Close(); err == nil {
		err = closed
	}
	return Entry{Name: name, Bytes: count.n, Hash: hex.EncodeToString(sum.Sum(nil))}, err
}

type counter struct{ n int64 }

func (c *counter) Write(p []byte) (int, error) {
	c.n += int64(len(p))
	return len(p), nil
}
