package scenarios

import (
	"fmt"

	"dryline/vessel/tow"
)

type towSection struct {
	Cable cableSection `key:"cable" doc:"The tow cable."`
	Fish  fishSection  `key:"fish" doc:"The towed body."`
	Winch winchSection `key:"winch" doc:"The winch."`

	Jitter jitterSection `key:"unrest" doc:"How the fish moves besides what waves, tow and fins make of it, as standard deviations; left out, it does not."`
}

type jitterSection struct {
	Heave  float64 `key:"heave_m" unit:"m" min:"0" max:"2" default:"0" doc:"Up and down."`
	Pitch  float64 `key:"pitch_deg" unit:"deg" min:"0" max:"15" default:"0" doc:"Nose up and down."`
	Roll   float64 `key:"roll_deg" unit:"deg" min:"0" max:"30" default:"0" doc:"From side to side."`
	Yaw    float64 `key:"yaw_deg" unit:"deg" min:"0" max:"15" default:"0" doc:"Heading about the course."`
	Period float64 `key:"period_s" unit:"s" min:"0.5" max:"30" default:"5" doc:"Mean period."`
}

type cableSection struct {
	Kind       string  `key:"kind" presets:"cable" default:"soft" doc:"Kind of cable: soft of 10.5 mm for short tows inshore, armoured of 8.2 mm (400 m) or 17.3 mm (1200 m) for depth. Keys given beside it change it."`
	Diameter   float64 `key:"diameter_mm" unit:"mm" min:"2" max:"60" default:"10.5" doc:"Diameter."`
	Weight     float64 `key:"weight_n_m" unit:"N/m" min:"0" max:"100" default:"0.6" doc:"Weight in water of a metre."`
	Normal     float64 `key:"normal_drag" min:"0.1" max:"5" default:"1.3" doc:"Drag coefficient across the cable, on its diameter."`
	Tangential float64 `key:"tangential_drag" min:"0" max:"0.2" default:"0.01" doc:"Drag coefficient along the cable, on its wetted surface."`
	Length     float64 `key:"length_m" unit:"m" min:"5" max:"3000" default:"120" doc:"Length on the drum."`
	Working    float64 `key:"working_load_n" unit:"N" min:"0" max:"1000000" default:"2500" doc:"Tension above which an alarm sounds; 0 for none."`
	Breaking   float64 `key:"breaking_load_n" unit:"N" min:"0" max:"5000000" default:"10000" doc:"Tension at which it parts; 0 for never."`
}

type fishSection struct {
	Kind     string  `key:"kind" presets:"fish" default:"inshore" doc:"Kind of towed body: light, inshore, heavy for deep water, or with a wing that holds it down. Keys given beside it change it."`
	Weight   float64 `key:"weight_n" unit:"N" min:"1" max:"50000" default:"260" doc:"Weight in water, less lift."`
	DragArea float64 `key:"drag_area_m2" unit:"m^2" min:"0.0001" max:"5" default:"0.022" doc:"Drag coefficient times area."`
	Mass     float64 `key:"mass_kg" unit:"kg" min:"0" max:"20000" default:"40" doc:"Mass in air; at least what its weight in water makes."`
	Pitch    float64 `key:"pitch_deg" unit:"deg" min:"-20" max:"20" default:"1" doc:"Trim at the speed of the plan, nose up positive."`

	Depressor  float64 `key:"depressor_m2" unit:"m^2" min:"0" max:"10" default:"0" doc:"Lift coefficient times area of a wing that pulls it down."`
	Length     float64 `key:"length_m" unit:"m" min:"0" max:"10" default:"1.3" doc:"Length; 0 is a body that lies along the flow at its trim and does not swing."`
	FinArea    float64 `key:"fin_area_m2" unit:"m^2" min:"0" max:"3" default:"0.05" doc:"Area of the pair of fins that turns it into the flow."`
	TowForward float64 `key:"tow_forward_m" unit:"m" min:"-2" max:"2" default:"0.01" doc:"Tow point forward of the middle; negative is aft."`
	TowAbove   float64 `key:"tow_above_m" unit:"m" min:"0" max:"2" default:"0.12" doc:"Tow point above the middle."`
}

type winchSection struct {
	Kind     string  `key:"kind" presets:"winch" default:"motor" doc:"Kind of winch: a motor, or a crank turned by hand. Keys given beside it change it."`
	Rate     float64 `key:"rate_m_s" unit:"m/s" min:"0.01" max:"5" default:"0.4" doc:"How fast it pays out and hauls."`
	Shortest float64 `key:"shortest_m" unit:"m" min:"0.5" max:"100" default:"2" doc:"Least cable out, the fish at the sheave."`
	Pull     float64 `key:"pull_n" unit:"N" min:"0" max:"1000000" default:"2500" doc:"Tension against which it hauls no more; 0 for none."`
	Power    float64 `key:"power_w" unit:"W" min:"0" max:"1000000" default:"750" doc:"Power it hauls with; 0 for any."`
	Brake    float64 `key:"brake_n" unit:"N" min:"0" max:"1000000" default:"5000" doc:"Tension at which the brake slips; 0 for never."`
}

func (t towSection) spec(c *checker) tow.Spec {
	const shortest, length = "tow.winch.shortest_m", "tow.cable.length_m"
	if c.sound(shortest, length) && t.Winch.Shortest >= t.Cable.Length {
		c.fault(shortest, c.number(t.Winch.Shortest), "is more than all the cable", "less than "+c.number(t.Cable.Length)+" m")
	}
	// A wing on a fish too light to carry one throws it about, beyond what the steps
	// of the motion follow: tried with gear of all kinds, twice this broke them.
	const wing, mass = "tow.fish.depressor_m2", "tow.fish.mass_kg"
	const mostWing, gravity = 0.01, 9.81 // m^2 for each kilogram; m/s^2
	if heavy := max(t.Fish.Mass, t.Fish.Weight/gravity); c.sound(wing, mass, "tow.fish.weight_n") && t.Fish.Depressor > mostWing*heavy {
		c.fault(wing, c.number(t.Fish.Depressor), "is more wing than so light a fish carries", fmt.Sprintf("at most a hundredth of its mass in kg, %.3g m^2", mostWing*heavy))
	}
	return tow.Spec{
		Cable: tow.Cable{
			Diameter: t.Cable.Diameter / kilo, Weight: t.Cable.Weight,
			Normal: t.Cable.Normal, Tangential: t.Cable.Tangential, Length: t.Cable.Length,
			WorkingLoad: t.Cable.Working, Breaking: t.Cable.Breaking,
		},
		Fish: tow.Fish{
			Weight: t.Fish.Weight, DragArea: t.Fish.DragArea, Mass: t.Fish.Mass, Pitch: t.Fish.Pitch * degree,
			Depressor: t.Fish.Depressor, Length: t.Fish.Length, FinArea: t.Fish.FinArea,
			TowForward: t.Fish.TowForward, TowAbove: t.Fish.TowAbove,
		},
		Winch: tow.Winch{
			Rate: t.Winch.Rate, Min: t.Winch.Shortest, Pull: t.Winch.Pull, Power: t.Winch.Power, Brake: t.Winch.Brake,
		},
		Jitter: tow.JitterSpec{
			Heave: t.Jitter.Heave, Pitch: t.Jitter.Pitch * degree, Roll: t.Jitter.Roll * degree,
			Yaw: t.Jitter.Yaw * degree, Period: t.Jitter.Period,
		},
	}
}
