package product

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
)

// Text is a keyword of a PNG file and what is written under it, in Latin-1.
type Text struct{ Keyword, Value string }

// afterHeader is where the first chunk may be put into a PNG file: behind the
// signature of 8 bytes and the header chunk of 25 (W3C PNG, 5.2 and 11.2.1).
const afterHeader = 8 + 25

// WithTexts puts texts into a PNG file, each a chunk of its own (11.3.3.2): the
// standard library writes none.
func WithTexts(png []byte, texts []Text) []byte {
	var b bytes.Buffer
	b.Write(png[:afterHeader])
	for _, t := range texts {
		data := []byte("tEXt" + t.Keyword + "\x00")
		for _, r := range t.Value {
			if r > 0xff {
				r = '?'
			}
			data = append(data, byte(r))
		}
		binary.Write(&b, binary.BigEndian, uint32(len(data)-len("tEXt")))
		b.Write(data)
		binary.Write(&b, binary.BigEndian, crc32.ChecksumIEEE(data))
	}
	b.Write(png[afterHeader:])
	return b.Bytes()
}
