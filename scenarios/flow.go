package scenarios

import "dryline/seabed"

// flowSection is the water that has shaped the bed: not that of the day, which is in
// sea.
type flowSection struct {
	WaveHeight float64 `key:"wave_height_m" unit:"m" min:"0" max:"20" default:"0" doc:"Height of the waves that move the grains."`
	WavePeriod float64 `key:"wave_period_s" unit:"s" min:"2" max:"25" default:"8" doc:"Their period."`
	WavesFrom  float64 `key:"waves_from_deg" unit:"deg" min:"0" max:"360" default:"0" doc:"Grid bearing they come from; ripples lie across it."`
	Current    float64 `key:"current_kn" unit:"kn" min:"0" max:"6" default:"0" doc:"Mean current over the depth."`
	Set        float64 `key:"set_deg" unit:"deg" min:"0" max:"360" default:"0" doc:"Grid bearing it sets to."`
}

func (f flowSection) flow() seabed.Flow {
	return seabed.Flow{
		WaveHeight: f.WaveHeight, WavePeriod: f.WavePeriod, WavesFrom: f.WavesFrom * degree,
		Current: knots(f.Current), Set: f.Set * degree,
	}
}

// flowing refuses what goes by the flow where there is none.
func (c *checker) flowing(path, what string) {
	f := c.file.Seabed.Flow
	if c.sound(path, "seabed.flow") && f.WaveHeight == 0 && f.Current == 0 {
		c.fault(path, "", what+" goes by a flow, and there is none", "waves or a current in seabed.flow")
	}
}
