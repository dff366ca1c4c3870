package survey

import (
	"slices"

	"dryline/sonar/mosaic"
	"dryline/sonar/recorder"
)

// Settings holds what the surveyor has entered.
type Settings struct {
	SoundSpeed     float64  // m/s, used to turn time into range
	Position       Position // how the fish is placed; empty is [ByTrack]
	Swath          SwathBy  // what the swath is laid square to; empty is [SwathByCourse]
	SheaveHeight   float64  // above water, metres
	CatenaryFactor float64  // on the cable out, 0..1
	AntennaToTow   float64  // from GNSS antenna aft to the sheave, metres
	TowToStarboard float64  // from GNSS antenna to starboard to the sheave, metres
	CourseTime     float64  // the track made good is taken over this long, seconds
	BeaconShare    float64  // the beacon's error believed, each axis, as a share of the slant range; 0 is 0.01

	MosaicCell    float64 // metres
	MosaicX       float64 // where cells meet, metres: a point whose UTM coordinates are whole cells
	MosaicY       float64
	MosaicChannel int // index of the channel painted
	Combine       mosaic.Combine
}

// Position names a way of placing the fish.
type Position string

// The ways of placing the fish.
const (
	ByTrack    Position = "track"    // the layback astern along the track made good
	ByHeading  Position = "heading"  // the layback astern along the vessel's heading
	ByBeacon   Position = "beacon"   // where the acoustic beacon was heard
	ByFiltered Position = "filtered" // the layback along the track, corrected by the beacon
)

var positions = []Position{ByTrack, ByHeading, ByBeacon, ByFiltered}

// Positions returns the ways of placing the fish.
func Positions() []Position { return slices.Clone(positions) }

// NeedsBeacon reports whether the way asks for an acoustic beacon.
func (p Position) NeedsBeacon() bool { return p == ByBeacon || p == ByFiltered }

// SetRangeScale tells the desk that the sonar has another range scale, metres.
// An open line is closed: its record has one range scale.
func (d *Desk) SetRangeScale(metres float64) {
	d.EndLine()
	d.Recorder.RangeScale = metres
}

// SetReceiver tells the desk that a channel is amplified in another way. An open
// line is closed: its record has one gain.
func (d *Desk) SetReceiver(channel int, r recorder.Receiver) {
	d.EndLine()
	d.Recorder.Receivers = slices.Clone(d.Recorder.Receivers) // others hold the recorder as it was
	d.Recorder.Receivers[channel] = r
	d.levellers[channel].Set(r)
	d.live = live{}
}
