package survey

import "dryline/sonar/waterfall"

// Mobilise has the desk begin with other settings: it is as if it had been set up with
// them, and with these widths of beams and priors. Call it before the first ping. A mosaic that
// cannot be stays as it was.
func (d *Desk) Mobilise(change func(*Settings), beams []float64, priors ...waterfall.Prior) {
	change(&d.Settings)
	for i := range d.settings {
		change(&d.settings[i].settings)
	}
	d.Recorder.Beams = beams
	d.levellers = d.Recorder.levellers(priors)
	d.live = live{}
	if m, err := d.over(&d.Settings); err == nil {
		d.Mosaic = m
	}
}
