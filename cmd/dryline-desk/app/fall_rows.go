package app

import (
	"bytes"
	"compress/flate"
	"io"

	"dryline/cmd/dryline-desk/crew"
	"dryline/cmd/dryline-desk/panes"
)

// rowStore keeps every row of the waterfalls, packed, so that the whole session can be scrolled back: each value
// in thirty-two steps of grey, which speckle hides, chunks of rows deflated. An hour of two channels takes some
// fifty megabytes.
type rowStore struct {
	channels int
	chunks   [][]byte // of chunkRows rows each
	open     []byte   // rows of the one not full yet
	rows     int
	packer   *flate.Writer
	cache    struct {
		chunk int
		data  []byte
	}
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

func newRowStore(channels int) *rowStore {
	s := &rowStore{channels: channels}
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
	s.chunks = append(s.chunks, bytes.Clone(out.Bytes()))
	s.open = s.open[:0]
}

// chunk is a chunk unpacked; it is good until the next is asked for.
func (s *rowStore) chunk(n int) []byte {
	if n == len(s.chunks) {
		return s.open
	}
	if s.cache.chunk != n {
		r := flate.NewReader(bytes.NewReader(s.chunks[n]))
		if s.cache.data == nil {
			s.cache.data = make([]byte, chunkRows*s.rowLong())
		}
		if _, err := io.ReadFull(r, s.cache.data); err != nil {
			clear(s.cache.data) // memory gone bad: nothing heard
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

// long is how many bytes the store holds.
func (s *rowStore) long() int {
	sum := len(s.open)
	for _, c := range s.chunks {
		sum += len(c)
	}
	return sum
}
