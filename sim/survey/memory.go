package survey

import "reflect"

// grown is how much a slice that grows holds at most for each byte in it: a
// quarter in reserve, and its old self while it moves.
const grown = 2.25

// PingMemory bounds what the record of a logged ping takes, bytes: its numbers and
// a row of every channel.
func (r Recorder) PingMemory() float64 {
	const rounded = 512 // RowBins as the allocator rounds it up
	row := grown*float64(reflect.TypeFor[Row]().Size()) + 2*min(rounded, float64(r.Samples)+32)
	return grown*float64(reflect.TypeFor[PingRecord]().Size()) + row*float64(len(r.Channels))
}

// WorkedMemory bounds what a logged ping takes besides when the survey is worked up
// again, bytes: the old and the new for a moment.
func WorkedMemory() float64 {
	return 2 * float64(reflect.TypeFor[PingRecord]().Size()+reflect.TypeFor[BottomNote]().Size())
}

// TrackMemory bounds what the watch log takes, bytes a second.
func TrackMemory() float64 { return grown * float64(reflect.TypeFor[TrackPoint]().Size()) }

// LookoutMemory bounds what the search of a line takes, bytes, however long the
// line is.
func (r Recorder) LookoutMemory() float64 {
	const (
		kept     = 2 * 4      // bytes a cell: both sides' pictures
		searched = 16 + 8 + 1 // sums, floor and marks of one side
	)
	return (kept + searched) * (stretchCells + r.RangeScale/lookCell)
}
