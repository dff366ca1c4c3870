package scenarios

import (
	"slices"
	"strings"

	"dryline/seabed"
)

type bedformSection struct {
	Kind       string      `key:"kind" required:"true" enum:"bedform" doc:"Waves are ripples to sand waves, by wavelength; ripples are those that seabed.flow makes of the grains; sand_waves carry megaripples on the side that climbs with the current; scars are furrows of anchors; trawl is pairs of straight furrows; dredge is parallel trenches with flat bottoms; pockmarks are large pits; pits and mounds are those of animals, strewn by chance; outcrop is ridged rock."`
	Area       areaSection `key:"area" doc:"Where they lie; everywhere if left out."`
	On         string      `key:"on" enum:"sediment" absent:"on any" doc:"Sediment that waves, ripples and sand waves keep to."`
	Height     float64     `key:"height_m" unit:"m" min:"0.001" max:"30" absent:"of ripples by the flow, of sand waves by their length" doc:"Trough to crest, or depth of a scar, furrow, trench or pit."`
	Wavelength float64     `key:"wavelength_m" unit:"m" min:"0.05" max:"2000" absent:"only waves, sand waves and outcrop need it" doc:"Of waves, sand waves and outcrop."`
	Crest      float64     `key:"crest_deg" unit:"deg" min:"0" max:"360" default:"0" doc:"Grid bearing of the crests of waves, or of scars, furrows and trenches."`
	Asymmetry  float64     `key:"asymmetry" min:"0" max:"0.8" default:"0" doc:"Of waves: 0 is symmetric, 0.8 steep on one side."`
	Wander     float64     `key:"wander" min:"0" max:"5" default:"0" doc:"Waviness of wave crests in wavelengths, or bending of scars and furrows in radians."`
	Count      int         `key:"count" min:"1" max:"2000" absent:"only scars, trawl, dredge and pockmarks need it" doc:"How many scars, pairs of furrows, trenches or pockmarks."`
	Length     float64     `key:"length_m" unit:"m" min:"1" max:"2000" absent:"only scars, trawl and dredge need it" doc:"Length of scars, furrows or trenches."`
	Width      float64     `key:"width_m" unit:"m" min:"0.1" max:"200" absent:"only waves, ripples, sand waves and outcrop can" doc:"Width of one scar, furrow, pockmark, pit or mound, or of a trench's bottom."`
	Density    float64     `key:"density_per_ha" unit:"1/ha" min:"0.1" max:"2000" absent:"only pits and mounds need it" doc:"Mean number of pits or mounds on a hectare."`
	Spacing    float64     `key:"spacing_m" unit:"m" min:"0.5" max:"500" absent:"only trawl and dredge need it" doc:"Between the two furrows of a pair, or between trenches."`
}

// bedformKeys are the keys each kind must have and may have, besides those of
// all kinds.
var bedformKeys = map[seabed.BedformKind]struct{ must, may []string }{
	seabed.Waves:     {must: []string{"height_m", "wavelength_m"}, may: []string{"on", "crest_deg", "asymmetry", "wander"}},
	seabed.Ripples:   {may: []string{"on", "asymmetry", "wander"}},
	seabed.SandWaves: {must: []string{"wavelength_m"}, may: []string{"on", "height_m", "crest_deg", "asymmetry", "wander"}},
	seabed.Outcrop:   {must: []string{"height_m", "wavelength_m"}},
	seabed.Scars:     {must: []string{"height_m", "count", "length_m", "width_m"}, may: []string{"crest_deg", "wander"}},
	seabed.Trawl:     {must: []string{"height_m", "count", "length_m", "width_m", "spacing_m"}, may: []string{"crest_deg", "wander"}},
	seabed.Dredge:    {must: []string{"height_m", "count", "length_m", "width_m", "spacing_m"}, may: []string{"crest_deg"}},
	seabed.Pockmarks: {must: []string{"height_m", "count", "width_m"}},
	seabed.Pits:      {must: []string{"height_m", "density_per_ha", "width_m"}},
	seabed.Mounds:    {must: []string{"height_m", "density_per_ha", "width_m"}},
}

func bedformKinds() []string {
	return namesOf([]seabed.BedformKind{seabed.Waves, seabed.Ripples, seabed.SandWaves, seabed.Scars, seabed.Trawl, seabed.Dredge, seabed.Pockmarks, seabed.Pits, seabed.Mounds, seabed.Outcrop})
}

func (b bedformSection) bedform(c *checker, path string) seabed.Bedform {
	kind := seabed.BedformKind(b.Kind)
	if c.sound(path + ".kind") {
		keys := bedformKeys[kind]
		for _, k := range []string{"on", "height_m", "wavelength_m", "crest_deg", "asymmetry", "wander", "count", "length_m", "width_m", "density_per_ha", "spacing_m"} {
			at, must := path+"."+k, slices.Contains(keys.must, k)
			switch {
			case must && !c.given(at) && c.sound(at):
				c.fault(at, "", "is missing", b.Kind+" need "+strings.Join(keys.must, ", "))
			case !must && !slices.Contains(keys.may, k) && c.given(at):
				c.fault(at, "", "is not used by "+b.Kind, "")
			}
		}
	}
	if kind == seabed.Ripples {
		c.flowing(path+".kind", "a field of ripples")
	}
	const hectare = 1e4
	on, _ := seabed.ParseSediment(b.On) // Unset, anywhere, for none
	return seabed.Bedform{
		Kind: kind, On: on, Density: b.Density / hectare, Area: b.Area.area(c, path+".area"),
		Height: b.Height, Wavelength: b.Wavelength, Crest: b.Crest * degree, Asymmetry: b.Asymmetry,
		Wander: b.Wander, Count: b.Count, Length: b.Length, Width: b.Width, Spacing: b.Spacing,
	}
}
