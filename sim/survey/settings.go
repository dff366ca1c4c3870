package survey

// Settings are what the surveyor has entered.
type Settings struct {
	SoundSpeed     float64 // m/s, used to turn time into range
	SheaveHeight   float64 // above water, metres
	CatenaryFactor float64 // on the cable out, 0..1
	AntennaToTow   float64 // from GNSS antenna aft to the sheave, metres
	CourseTime     float64 // the track made good is taken over this long, seconds

	MosaicCell    float64 // metres
	MosaicChannel int     // index of the channel painted
	Combine       Combine
}

// Combine says how looks from several lines share a cell of the mosaic.
type Combine string

// The ways to combine overlapping looks.
const (
	Mean      Combine = "mean"      // of all looks
	Strongest Combine = "strongest" // brightest look: targets survive, so does noise
	Nearest   Combine = "nearest"   // the look from the range where the record is best
	Latest    Combine = "latest"    // the last line painted
)

// Combines lists the ways to combine looks.
func Combines() []Combine { return []Combine{Mean, Strongest, Nearest, Latest} }
