package survey

import "dryline/sonar/mosaic"

// Settings are what the surveyor has entered.
type Settings struct {
	SoundSpeed     float64 // m/s, used to turn time into range
	SheaveHeight   float64 // above water, metres
	CatenaryFactor float64 // on the cable out, 0..1
	AntennaToTow   float64 // from GNSS antenna aft to the sheave, metres
	CourseTime     float64 // the track made good is taken over this long, seconds

	MosaicCell    float64 // metres
	MosaicChannel int     // index of the channel painted
	Combine       mosaic.Combine
}
