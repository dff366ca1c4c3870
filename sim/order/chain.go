package order

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
)

// chain ties each record of a log to all before it: SHA-256 of the chain so far
// (nothing at the start) and the record without its own "chain", byte for byte.
// It is the last member of each record. It finds damage and careless edits; it
// keeps no secret, so it does not stop forgery.
type chain []byte

const (
	chainMember = `,"chain":"`
	chainEnd    = `"}`
	chainLength = len(chainMember) + 2*sha256.Size + len(chainEnd)
)

var errBroken = errors.New("the chain does not hold: this record was changed, or one before it was changed, added or taken out")

// tie adds the chain to a record, a JSON object on one line, and goes on to it.
func (c *chain) tie(record []byte) []byte {
	*c = c.after(record)
	out := make([]byte, 0, len(record)+chainLength)
	out = append(out, record[:len(record)-1]...)
	out = append(out, chainMember...)
	out = hex.AppendEncode(out, *c)
	return append(out, chainEnd...)
}

// untie checks the chain of a record and returns the record without it.
func (c *chain) untie(line []byte) ([]byte, error) {
	at := len(line) - chainLength
	if at < 1 || !bytes.HasPrefix(line[at:], []byte(chainMember)) || !bytes.HasSuffix(line, []byte(chainEnd)) {
		return nil, errors.New("the record has no chain")
	}
	record := append(bytes.Clone(line[:at]), '}')
	want := c.after(record)
	if !bytes.Equal(line[at+len(chainMember):len(line)-len(chainEnd)], hex.AppendEncode(nil, want)) {
		return nil, errBroken
	}
	*c = want
	return record, nil
}

func (c chain) after(record []byte) chain {
	h := sha256.New()
	h.Write(c)
	h.Write(record)
	return h.Sum(nil)
}
