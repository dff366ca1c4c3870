package sim

import (
	"fmt"
	"reflect"

	"dryline/sim/exercise"
	"dryline/sim/survey"
	"dryline/sonar/acoustics"
	"dryline/sonar/mosaic"
)

// MostMemory is the most that an exercise may take, bytes: what is kept, however
// long the log is on; Go's collector may hold as much again. The figure is our own
// choice: a computer of 8 GB runs the largest.
const MostMemory = 4e9

// Memory returns the most an exercise takes, bytes: once for all, and for every
// second of its time.
type Memory struct{ Fixed, PerSecond float64 }

// Over returns the bytes it takes in so many seconds.
func (m Memory) Over(seconds float64) float64 { return m.Fixed + m.PerSecond*seconds }

// MemoryOf bounds what an exercise takes at a range scale, with the log on from
// beginning to end: the world, the mosaic kept to it, the pings' record and their
// truth, the search for contacts and the debrief.
func MemoryOf(ex *exercise.Exercise, rangeScale float64) Memory {
	const (
		program = 100e6  // the engine's tables, a workspace for each core, pictures being drawn
		perCell = 24     // of the mosaic: all lines, the one being painted, and two pictures of both
		perArea = 12     // of the debrief's raster, and a holiday as large as it
		grown   = 2.25   // as in package survey
		sights  = 4      // of objects by a ping, about
		figures = 26 * 8 // numbers the debrief gathers of a ping
	)
	rec := survey.Recorder{RangeScale: rangeScale, Samples: ex.Sonar.Samples, Channels: make([]string, len(ex.Sonar.Channels))}
	east, north := ground(ex)
	cells := mosaic.MostCells(east, north, ex.Desk.MosaicCell)
	waiting := batch * 2 * 2 * float64(ex.Sonar.Samples*len(ex.Sonar.Channels))
	ping := rec.PingMemory() + survey.WorkedMemory() + grown*(float64(reflect.TypeFor[TruePing]().Size()+sights*reflect.TypeFor[Sight]().Size())+
		float64(reflect.TypeFor[survey.PingRecord]().Size()+figures+8))
	return Memory{
		Fixed:     program + ex.Seabed.Memory() + perCell*cells + perArea*min(cells, 16e6) + waiting + rec.LookoutMemory(),
		PerSecond: ping/acoustics.PingInterval(rangeScale, ex.Desk.SoundSpeed) + survey.TrackMemory(),
	}
}

// ground is the size of what the mosaic is kept to, metres: a range scale more than
// the world on every side.
func ground(ex *exercise.Exercise) (east, north float64) {
	return ex.Seabed.East + 2*ex.Sonar.RangeScale, ex.Seabed.North + 2*ex.Sonar.RangeScale
}

// checkMemory refuses a range scale whose pings would be too many to keep.
func checkMemory(ex *exercise.Exercise, rangeScale float64) error {
	if took := MemoryOf(ex, rangeScale).Over(ex.Plan.TimeLimit); took > MostMemory && rangeScale != ex.Sonar.RangeScale {
		return fmt.Errorf("pings of %g m to the end of the exercise may take %.1f GB of memory (want at most %g)", rangeScale, took/1e9, MostMemory/1e9)
	}
	return nil
}
