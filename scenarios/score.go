package scenarios

import "dryline/sim/exercise"

type scoreSection struct {
	Area          [][2]float64 `key:"area" items:"3,200" unit:"m" min:"-10000" max:"15000" absent:"the lines' own strip" doc:"Corners of the area to be covered, east and north."`
	Coverage      float64      `key:"coverage_percent" unit:"percent" min:"0" max:"100" default:"95" doc:"Share of the area wanted in the mosaic."`
	OffLine       float64      `key:"off_line_m" unit:"m" min:"0.1" max:"200" default:"4" doc:"Largest distance off line wanted."`
	AltitudeMin   float64      `key:"altitude_min_percent" unit:"percent" min:"0" max:"100" default:"8" doc:"Lowest height of the fish wanted, of the range scale."`
	AltitudeMax   float64      `key:"altitude_max_percent" unit:"percent" min:"0" max:"100" default:"20" doc:"Greatest height of the fish wanted, of the range scale."`
	PingsPerMetre float64      `key:"pings_per_metre" min:"0" max:"100" default:"3" doc:"Fewest pings wanted to a metre of track."`
	Pass          float64      `key:"pass" min:"0" max:"100" default:"70" doc:"Score needed to pass."`
}

func (s scoreSection) score(c *checker) exercise.Score {
	c.polygon("score.area", s.Area)
	const low, high = "score.altitude_min_percent", "score.altitude_max_percent"
	if c.sound(low, high) && s.AltitudeMin >= s.AltitudeMax {
		c.fault(low, c.number(s.AltitudeMin), "is not below altitude_max_percent", "less than "+c.number(s.AltitudeMax)+" percent")
	}
	return exercise.Score{
		Area: points(s.Area), Coverage: s.Coverage / hundred, OffLine: s.OffLine,
		AltitudeMin: s.AltitudeMin / hundred, AltitudeMax: s.AltitudeMax / hundred,
		PingsPerMetre: s.PingsPerMetre, Pass: s.Pass,
	}
}
