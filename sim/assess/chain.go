package assess

import (
	"bytes"
	"crypto/hmac"
	"crypto/sha256"
	"encoding/hex"
	"errors"
)

// A record of the log ends in its two members "chain" and "hmac". The chain is the SHA-256
// of the chain so far (nothing at the start) and the record without the two, byte for byte:
// anybody can check it. The HMAC-SHA256 is that of the chain, by the key of the record; the
// key of the next is the HMAC of nextKey by it.

const (
	chainMember = `,"chain":"`
	macMember   = `","hmac":"`
	tieEnd      = `"}`
	hexLength   = 2 * sha256.Size
	tieLength   = len(chainMember) + hexLength + len(macMember) + hexLength + len(tieEnd)
)

const nextKey = "the next record of a dryline assessment"

var (
	errChain = errors.New("the chain does not hold: this record was changed, or one before it was changed, added or taken out")
	errMAC   = errors.New("its HMAC is not of this session's key: the record was not written by the session, or was changed")
	errNone  = errors.New("the record has no chain and HMAC")
)

func macOf(key, text []byte) []byte {
	h := hmac.New(sha256.New, key)
	h.Write(text)
	return h.Sum(nil)
}

func keyAfter(key []byte) []byte { return macOf(key, []byte(nextKey)) }

func chainAfter(chain, record []byte) []byte {
	h := sha256.New()
	h.Write(chain)
	h.Write(record)
	return h.Sum(nil)
}

// tie adds chain and HMAC to a record, a JSON object on one line.
func tie(record, chain, key []byte) (line, next []byte) {
	next = chainAfter(chain, record)
	line = append(line, record[:len(record)-1]...)
	line = append(line, chainMember...)
	line = hex.AppendEncode(line, next)
	line = append(line, macMember...)
	line = hex.AppendEncode(line, macOf(key, next))
	return append(line, tieEnd...), next
}

// untie checks the chain of a line and returns the record, the chain and the HMAC, which it
// does not check.
func untie(line, chain []byte) (record, next, mac []byte, err error) {
	at := len(line) - tieLength
	if at < 1 || !bytes.HasPrefix(line[at:], []byte(chainMember)) || !bytes.HasSuffix(line, []byte(tieEnd)) {
		return nil, nil, nil, errNone
	}
	rest := line[at+len(chainMember):]
	if !bytes.HasPrefix(rest[hexLength:], []byte(macMember)) {
		return nil, nil, nil, errNone
	}
	record = append(bytes.Clone(line[:at]), '}')
	next = chainAfter(chain, record)
	if !bytes.Equal(rest[:hexLength], hex.AppendEncode(nil, next)) {
		return nil, nil, nil, errChain
	}
	mac, err = hex.DecodeString(string(rest[hexLength+len(macMember) : 2*hexLength+len(macMember)]))
	if err != nil {
		return nil, nil, nil, errNone
	}
	return record, next, mac, nil
}
