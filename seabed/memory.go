package seabed

import "math"

// What a world takes, bytes, as Go's allocator rounds it up; measured, and held
// to by a test.
const (
	tileMemory     = 139_264 // 137 kB of a tile in seventeen pages
	scratchMemory  = 573_440 // to build a tile with
	patchMemory    = microSide * microSide * 4
	listMemory     = 100e3 // of what was built when, and of shapes
	objectMemory   = 400e3 // of the most intricate kind, rubble; most take a tenth
	pipelineMemory = 400   // a metre: a piece every metre and a half
	furrowMemory   = 1800  // a pair of scars
	markMemory     = 120
)

// Memory bounds what the world of a spec takes when all the floor that is kept has
// been asked for, bytes.
func (s *Spec) Memory() float64 {
	tiles := math.Ceil(s.East/tileSize) * math.Ceil(s.North/tileSize)
	sum := listMemory + 8*tiles + tileMemory*min(tiles, TileLimit) + scratchMemory + 4*patchMemory + objectMemory*float64(len(s.Objects))
	if s.Depths != nil {
		sum += s.Depths.Memory()
	}
	for i := range s.Pipelines {
		sum += pipelineMemory * s.Pipelines[i].Length()
	}
	for i := range s.Bedforms {
		sum += furrowMemory * float64(s.Bedforms[i].Count)
	}
	for i := range s.Patches {
		sum += markMemory * float64(s.Patches[i].Marks.Count)
	}
	return sum
}
