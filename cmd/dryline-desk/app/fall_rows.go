package app

import (
	"bytes"
	"compress/flate"
	"io"

	"dryline/cmd/dryline-desk/crew"
	"dryline/cmd/dryline-desk/panes"
	"dryline/sim/record"
)

// rowStore keeps every row of the waterfalls, packed, so that the whole session can be scrolled back: each value
// in thirty-two steps of grey, which speckle hides, chunks of rows deflated. An hour of two channels takes some
// eighty megabytes: of a temporary file where there is a disk, of memory in a browser or where the disk is full.
type rowStore struct {
	channels int
	chunks   []chunk
	open     []byte         // rows of the one not full yet
	file     record.Backing // nil where there is none
	written  int64          // bytes of it
	rows     int
	packer   *flate.Writer
	cache    struct {
		chunk int
		data  []byte
	}
}

// chunk is chunkRows rows packed: so many bytes from a place of the file, or the bytes.
type chunk struct {
	at     int64
	long   int
	packed []byte
}

// packHard is how hard rows are packed: the usual level, some thirty megabytes a second.
const packHard = 6

const (
	chunkRows = 64
	sidesKept = 4 // of a channel: levelled and as recorded, port and starboard

	recordedKept = 2  // the first as recorded, kept by how it differs from the levelled one
	unlike       = 32 // kept where it does not

	greySteps = 3 // bits of a grey value that are let go
)

// newRowStore returns an empty store over a file, which may be nil.
func newRowStore(channels int, file record.Backing) *rowStore {
	s := &rowStore{channels: channels, file: file}
	s.cache.chunk = -1
	return s
}

// rowLong is how long a row is unpacked: a byte and two of the bottom, then the sides of every channel. The
// first byte has a bit for each channel that was heard.
func (s *rowStore) rowLong() int { return 3 + s.channels*sidesKept*panes.RowBins }

// add keeps a row, its bottom at a share of the range.
func (s *rowStore) add(p *crew.Ping, bottom float64) {
	from := len(s.open)
	s.open = append(s.open, make([]byte, s.rowLong())...)
	row := s.open[from:]
	at := int(bottom * 65535)
	row[1], row[2] = byte(at>>8), byte(at)
	for c := range min(s.channels, len(p.Rows)) {
		row[0] |= 1 << min(c, 7)
		sides := [sidesKept][]uint8{p.Rows[c][0], p.Rows[c][1], p.Plain[c][0], p.Plain[c][1]}
		for k, side := range sides {
			if len(side) == 0 {
				continue
			}
			to := row[3+(c*sidesKept+k)*panes.RowBins:][:panes.RowBins]
			for i := range to {
				v := side[i*len(side)/panes.RowBins]
				if v == 0 {
					continue // nothing heard
				}
				to[i] = max(v>>greySteps, 1)
				if k >= recordedKept {
					// Levelling is smooth along the range: by how much it differs packs to next to nothing.
					to[i] += unlike - row[3+(c*sidesKept+k-recordedKept)*panes.RowBins+i]
				}
			}
		}
	}
	s.rows++
	if s.rows%chunkRows == 0 {
		s.pack()
	}
}

// pack deflates the chunk that is full.
func (s *rowStore) pack() {
	var out bytes.Buffer
	if s.packer == nil {
		s.packer, _ = flate.NewWriter(&out, packHard) // the level is one there is
	} else {
		s.packer.Reset(&out)
	}
	s.packer.Write(s.open) // a buffer takes all
	s.packer.Close()
	s.chunks = append(s.chunks, s.keep(out.Bytes()))
	s.open = s.open[:0]
}

// keep writes a packed chunk to the file. What that does not take stays in memory.
func (s *rowStore) keep(packed []byte) chunk {
	if s.file != nil {
		at := s.written
		n, err := s.file.Write(packed)
		s.written += int64(n)
		if err == nil {
			return chunk{at: at, long: len(packed)}
		}
	}
	return chunk{long: len(packed), packed: bytes.Clone(packed)}
}

// packed holds the kept part of a chunk.
func (s *rowStore) packed(c chunk) io.Reader {
	if c.packed != nil {
		return bytes.NewReader(c.packed)
	}
	return io.NewSectionReader(s.file, c.at, int64(c.long))
}

// close lets go of the file; rows that were in it are gone.
func (s *rowStore) close() {
	if s.file != nil {
		s.file.Close() // nothing of it is to last
		s.file, s.chunks, s.rows, s.open = nil, nil, 0, nil
	}
}

// chunk is a chunk unpacked; it is good until the next is asked for.
func (s *rowStore) chunk(n int) []byte {
	if n == len(s.chunks) {
		return s.open
	}
	if s.cache.chunk != n {
		r := flate.NewReader(s.packed(s.chunks[n]))
		if s.cache.data == nil {
			s.cache.data = make([]byte, chunkRows*s.rowLong())
		}
		if _, err := io.ReadFull(r, s.cache.data); err != nil {
			clear(s.cache.data) // a disk gone bad: nothing heard
		}
		s.cache.chunk = n
	}
	return s.cache.data
}

// row is one row of a channel as it was kept.
func (s *rowStore) row(n, channel int) (levelled, plain [2][]uint8, bottom float64) {
	row := s.chunk(n / chunkRows)[n%chunkRows*s.rowLong():][:s.rowLong()]
	bottom = float64(int(row[1])<<8|int(row[2])) / 65535
	if row[0]&(1<<min(channel, 7)) == 0 {
		return levelled, plain, bottom
	}
	side := func(k int) []uint8 {
		from := row[3+(channel*sidesKept+k)*panes.RowBins:][:panes.RowBins]
		out := make([]uint8, panes.RowBins)
		for i, v := range from {
			if k >= recordedKept && v > 0 {
				v += row[3+(channel*sidesKept+k-recordedKept)*panes.RowBins+i] - unlike
			}
			out[i] = v<<greySteps | v>>(5-greySteps)
		}
		return out
	}
	return [2][]uint8{side(0), side(1)}, [2][]uint8{side(2), side(3)}, bottom
}

// long is how many bytes of memory the store takes.
func (s *rowStore) long() int {
	sum := len(s.open)
	for _, c := range s.chunks {
		sum += len(c.packed)
	}
	return sum
}
