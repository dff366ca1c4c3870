package survey

import "math"

// Fix is where the desk believes the fish is.
type Fix struct {
	Time     float64
	X, Y     float64 // metres
	Course   float64 // the track made good, grid bearing, radians
	Heading  float64 // that the swath is laid square to, grid bearing, radians; see [SwathBy]
	Depth    float64 // by the pressure sensor, metres
	Altitude float64 // by the altimeter, metres
	Layback  float64 // aft from the antenna to the sheave and along the cable to the fish, metres
	VesselX  float64 // the antenna by GNSS, carried on between fixes, metres
	VesselY  float64
	Speed    float64 // over ground, m/s
	CableOut float64 // by the counter, metres
	Lead     float64 // of the ground a ping answers for, along the course, metres a metre of slant range; see [GroundAt]
	Fault    string  // why the position cannot be trusted; empty if it can
}

// between interpolates two fixes at a time.
func between(a, b Fix, t float64) Fix {
	if b.Time <= a.Time || t >= b.Time {
		return b
	}
	f := (t - a.Time) / (b.Time - a.Time)
	mix := func(p, q float64) float64 { return p + f*(q-p) }
	out := b
	out.Time = t
	out.X, out.Y = mix(a.X, b.X), mix(a.Y, b.Y)
	turned := func(p, q float64) float64 { return p + f*math.Remainder(q-p, 2*math.Pi) }
	out.Course, out.Heading = turned(a.Course, b.Course), turned(a.Heading, b.Heading)
	out.Depth, out.Altitude = mix(a.Depth, b.Depth), mix(a.Altitude, b.Altitude)
	out.VesselX, out.VesselY = mix(a.VesselX, b.VesselX), mix(a.VesselY, b.VesselY)
	out.Layback, out.Speed, out.CableOut = mix(a.Layback, b.Layback), mix(a.Speed, b.Speed), mix(a.CableOut, b.CableOut)
	out.Lead = mix(a.Lead, b.Lead)
	return out
}
