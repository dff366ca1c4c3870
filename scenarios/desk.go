package scenarios

import (
	"math"
	"slices"

	"dryline/sim/survey"
	"dryline/sonar/mosaic"
)

type deskSection struct {
	SoundSpeed     float64  `key:"sound_speed_m_s" unit:"m/s" min:"1350" max:"1650" default:"1500" doc:"Sound speed that turns time into range."`
	Position       string   `key:"position" enum:"position" default:"track" doc:"How the fish is placed: by the layback along the track made good or along the heading, by the acoustic beacon, or by the layback corrected by the beacon."`
	Swath          string   `key:"swath" enum:"swath" default:"course" doc:"What the swath is laid square to: the course made good, the vessel's heading, or the fish's compass, which in a cross current alone knows how the fish swims and has errors of its own."`
	BeaconError    float64  `key:"beacon_error_percent" unit:"percent" min:"0.01" max:"20" default:"1" doc:"Error believed of the beacon, in percent of the slant range."`
	SheaveHeight   *float64 `key:"sheave_height_m" unit:"m" min:"0" max:"20" absent:"that of vessel.sheave" doc:"Height of the sheave above the water."`
	CatenaryFactor float64  `key:"catenary_factor" min:"0.3" max:"1" default:"0.97" doc:"Factor on the cable out that allows for its curve."`
	AntennaToTow   *float64 `key:"antenna_to_tow_m" unit:"m" min:"-200" max:"200" absent:"that of vessel.antenna and vessel.sheave" doc:"Distance from the antenna aft to the sheave."`
	TowToStarboard *float64 `key:"tow_to_starboard_m" unit:"m" min:"-20" max:"20" absent:"that of vessel.antenna and vessel.sheave" doc:"Distance from the antenna to starboard to the sheave."`
	CourseTime     float64  `key:"course_time_s" unit:"s" min:"0.5" max:"600" default:"6" doc:"Time over which the track made good is taken."`
	MosaicCell     float64  `key:"mosaic_cell_m" unit:"m" min:"0.02" max:"10" default:"0.25" doc:"Size of a cell of the mosaic."`
	MosaicChannel  string   `key:"mosaic_channel" runes:"20" absent:"the first channel" doc:"Name of the sonar channel that is painted."`
	Combine        string   `key:"combine" enum:"combine" default:"best" doc:"How looks from several lines share a cell of the mosaic."`
}

// mostCells bounds the mosaic; see [exercise.Exercise.Memory] for what it takes.
const mostCells = 80e6

func (d deskSection) settings(c *checker) survey.Settings {
	v := c.file.Vessel
	s := survey.Settings{
		SoundSpeed: d.SoundSpeed, Position: survey.Position(d.Position), Swath: survey.SwathBy(d.Swath), BeaconShare: d.BeaconError / hundred, SheaveHeight: v.Sheave.Up, CatenaryFactor: d.CatenaryFactor,
		AntennaToTow: v.Antenna.Forward - v.Sheave.Forward, TowToStarboard: v.Sheave.Starboard - v.Antenna.Starboard, CourseTime: d.CourseTime,
		MosaicCell: d.MosaicCell, Combine: mosaic.Combine(d.Combine),
	}
	if d.SheaveHeight != nil {
		s.SheaveHeight = *d.SheaveHeight
	}
	if d.AntennaToTow != nil {
		s.AntennaToTow = *d.AntennaToTow
	}
	if d.TowToStarboard != nil {
		s.TowToStarboard = *d.TowToStarboard
	}
	s.MosaicChannel = d.channel(c)
	d.checkPosition(c)
	d.checkMosaic(c)
	return s
}

// checkPosition refuses to place by a beacon that is not there.
func (d deskSection) checkPosition(c *checker) {
	const path = "desk.position"
	if c.sound(path, "instruments.beacon.on") && survey.Position(d.Position).NeedsBeacon() && !c.file.Instruments.Beacon.On {
		c.fault(path, d.Position, "asks for an acoustic beacon, and the fish has none", "track or heading, or instruments.beacon.on: true")
	}
}

// channel finds the channel that is painted.
func (d deskSection) channel(c *checker) int {
	const path = "desk.mosaic_channel"
	if d.MosaicChannel == "" || !c.sound(path, "sonar.channels") {
		return 0
	}
	names := make([]string, len(c.file.Sonar.Channels))
	for i, ch := range c.file.Sonar.Channels {
		names[i] = ch.Name
	}
	i := slices.Index(names, d.MosaicChannel)
	if i < 0 {
		want := "the name of a sonar channel"
		if len(names) == 1 {
			want = names[0]
		} else if near := nearest(d.MosaicChannel, names); near != "" {
			want = near
		}
		c.fault(path, shorten(d.MosaicChannel), "names no channel", want)
		return 0
	}
	return i
}

// checkMosaic bounds the picture, which may reach a range scale beyond the
// world.
func (d deskSection) checkMosaic(c *checker) {
	const path = "desk.mosaic_cell_m"
	if !c.sound(path, "seabed.east_m", "seabed.north_m", "sonar.range_scale_m") {
		return
	}
	margin := 2 * c.file.Sonar.RangeScale
	area := (c.file.Seabed.East + margin) * (c.file.Seabed.North + margin)
	if area/(d.MosaicCell*d.MosaicCell) > mostCells {
		least := math.Ceil(math.Sqrt(area/mostCells)*100) / 100
		c.fault(path, c.number(d.MosaicCell), "makes a mosaic of more than 80 million cells", "at least "+c.number(least)+" m")
	}
}
