package scenarios

import "dryline/vessel"

type vesselSection struct {
	Name          string         `key:"name" runes:"40" default:"Plover" doc:"Name of the vessel."`
	Kind          string         `key:"kind" presets:"vessel" default:"workboat" doc:"Kind of hull, from a launch of 7 m to a training ship of 45 m. Keys given beside it change it."`
	Length        float64        `key:"length_m" unit:"m" min:"3" max:"150" default:"11" doc:"Length on the water line."`
	Beam          float64        `key:"beam_m" unit:"m" min:"1" max:"40" default:"3.6" doc:"Beam."`
	Draft         float64        `key:"draft_m" unit:"m" min:"0.2" max:"15" default:"1.1" doc:"Draft."`
	Mass          float64        `key:"surge_mass_kg" unit:"kg" min:"500" max:"50000000" default:"11000" doc:"Displacement, and the water she takes with her when speeding up."`
	TurningIndex  float64        `key:"turning_index" min:"0.1" max:"5" default:"1.3" doc:"Nomoto's K without dimension: rate of turn times length over speed, per rudder angle."`
	TimeIndex     float64        `key:"time_index" min:"0.1" max:"10" default:"1" doc:"Nomoto's T without dimension: lengths run while she answers the helm."`
	RudderMax     float64        `key:"rudder_max_deg" unit:"deg" min:"5" max:"70" default:"25" doc:"Largest rudder angle."`
	RudderRate    float64        `key:"rudder_rate_deg_s" unit:"deg/s" min:"0.5" max:"60" default:"6" doc:"How fast the rudder moves."`
	PropellerWalk float64        `key:"propeller_walk_deg" unit:"deg" min:"-10" max:"10" default:"1.5" doc:"Rudder angle that the sideways bite of the propeller is worth at full power with no way on; positive for a right-handed one."`
	SpeedMax      float64        `key:"speed_max_kn" unit:"kn" min:"1" max:"40" default:"10" doc:"Speed at full power through still water, not towing."`
	WindAreaFront float64        `key:"wind_area_front_m2" unit:"m^2" min:"0" max:"2000" default:"9" doc:"Area the wind meets from ahead."`
	WindAreaSide  float64        `key:"wind_area_side_m2" unit:"m^2" min:"0" max:"5000" default:"20" doc:"Area the wind meets from abeam."`
	WindShape     string         `key:"wind_shape" enum:"windshape" default:"tender" doc:"How she stands in the wind, by the kinds of ships in Blendermann (1994)."`
	Block         float64        `key:"block_coefficient" min:"0.2" max:"1" default:"0.45" doc:"Share of the box length by beam by draft that the hull fills; how she moves in waves follows from it."`
	GM            float64        `key:"metacentric_height_m" unit:"m" min:"0.05" max:"5" default:"0.8" doc:"Metacentric height, which sets the period of her roll."`
	Antenna       antennaSection `key:"antenna" doc:"Where the satellite antenna stands, from the vessel's origin."`
	Sheave        sheaveSection  `key:"sheave" doc:"Where the cable leaves the vessel, from the vessel's origin."`
}

type antennaSection struct {
	Forward   float64 `key:"forward_m" unit:"m" min:"-100" max:"100" default:"0.5" doc:"Forward; negative is aft."`
	Starboard float64 `key:"starboard_m" unit:"m" min:"-50" max:"50" default:"0" doc:"To starboard; negative is to port."`
	Up        float64 `key:"up_m" unit:"m" min:"0" max:"50" default:"4.5" doc:"Above the water."`
}

type sheaveSection struct {
	Forward   float64 `key:"forward_m" unit:"m" min:"-100" max:"100" default:"-5.8" doc:"Forward; negative is aft."`
	Starboard float64 `key:"starboard_m" unit:"m" min:"-50" max:"50" default:"0" doc:"To starboard; negative is to port."`
	Up        float64 `key:"up_m" unit:"m" min:"0" max:"20" default:"2.2" doc:"Above the water."`
}

func (v vesselSection) spec() vessel.Spec {
	return vessel.Spec{
		Name: v.Name, Length: v.Length, Beam: v.Beam, Draft: v.Draft, Mass: v.Mass,
		TurningIndex: v.TurningIndex, TimeIndex: v.TimeIndex,
		RudderMax: v.RudderMax * degree, RudderRate: v.RudderRate * degree, PropellerWalk: v.PropellerWalk * degree, SpeedMax: knots(v.SpeedMax),
		Block: v.Block, GM: v.GM,
		WindAreaFront: v.WindAreaFront, WindAreaSide: v.WindAreaSide, Wind: vessel.WindShapes[v.WindShape],
		Antenna: vessel.Offset(v.Antenna), Sheave: vessel.Offset(v.Sheave),
	}
}
