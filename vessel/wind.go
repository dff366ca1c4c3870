package vessel

import "math"

// WindShape is how a hull of some kind stands in the wind.
type WindShape struct {
	Transverse float64 // CDt, drag coefficient from abeam
	Bow, Stern float64 // CDl,AF, from ahead and from astern, on the frontal area
	Cross      float64 // delta, cross-force parameter
}

// Wind shapes of W. Blendermann, "Parameter identification of wind loads on
// ships", J. Wind Eng. Ind. Aerodyn. 51, 339-351 (1994), table.
var (
	ResearchVessel = WindShape{0.85, 0.55, 0.65, 0.60}
	SpeedBoat      = WindShape{0.90, 0.55, 0.60, 0.60}
	FishingVessel  = WindShape{0.95, 0.70, 0.70, 0.40}
	Tender         = WindShape{0.85, 0.55, 0.55, 0.65}
	SupplyVessel   = WindShape{0.90, 0.55, 0.80, 0.55}
)

// WindShapes are the shapes by the name used in exercise files.
var WindShapes = map[string]WindShape{
	"research_vessel": ResearchVessel, "speed_boat": SpeedBoat, "fishing_vessel": FishingVessel,
	"tender": Tender, "supply_vessel": SupplyVessel,
}

// Force returns the push of the wind forward and to starboard, newtons. speed
// is that of the relative wind in m/s and from its direction off the bow in
// radians, 0 for wind from ahead, positive from starboard; front and side are
// the areas above the water in m^2.
//
//	CX = -CDl cos(g)/D ,  CY = CDt sin(g)/D
//	D  = 1 - delta/2 (1 - CDl AF/AL / CDt) sin^2(2g)
//	X  = rho/2 V^2 CX AF ,  Y = rho/2 V^2 CY AL
//
// (Blendermann 1994; here Y is towards the side the wind blows to, so wind from
// starboard pushes to port.) The yawing moment is left out: the autopilot holds
// it with a little rudder.
func (w WindShape) Force(speed, from, front, side float64) (forward, starboard float64) {
	if front <= 0 || side <= 0 {
		return 0, 0
	}
	ahead := w.Bow
	if math.Cos(from) < 0 {
		ahead = w.Stern
	}
	longitudinal := ahead * front / side
	sin2 := math.Sin(2 * from)
	d := 1 - w.Cross/2*(1-longitudinal/w.Transverse)*sin2*sin2
	q := 0.5 * airDensity * speed * speed
	forward = -q * ahead * math.Cos(from) / d * front
	starboard = -q * w.Transverse * math.Sin(from) / d * side
	return forward, starboard
}
