package survey

import (
	"math"

	"dryline/vessel/nav"
)

// Fix is where the desk believes the fish is.
type Fix struct {
	Time     float64
	X, Y     float64 // metres
	Heading  float64 // of the fish: the track made good, grid bearing, radians
	Depth    float64 // by the pressure sensor, metres
	Altitude float64 // by the altimeter, metres
	Layback  float64 // from the antenna, metres
	VesselX  float64 // by GNSS, metres
	VesselY  float64
	Speed    float64 // over ground, m/s
	CableOut float64 // by the counter, metres
	Fault    string  // why the position cannot be trusted; empty if it can
}

// navigator lays the fish astern of the vessel.
//
// The fish follows the track, not the heading: it is placed along the track
// made good, the layback from the antenna back along it, where the track is
// taken over Settings.CourseTime. The heading of the swath is the course made
// good too (NOAA Field Procedures Manual, 4.3.2.1.3: course made good beats
// the heading when the crab is large; do not trust a fish compass).
type navigator struct {
	settings Settings
	track    []nav.Reading // the last CourseTime seconds
}

func (n *navigator) update(r nav.Reading) Fix {
	n.track = append(n.track, r)
	keep := 0
	for keep < len(n.track)-2 && n.track[keep+1].Time <= r.Time-n.settings.CourseTime {
		keep++
	}
	n.track = append(n.track[:0], n.track[keep:]...)

	f := Fix{
		Time: r.Time, Depth: r.FishDepth, Altitude: r.FishAltitude,
		VesselX: r.X, VesselY: r.Y, Speed: r.SpeedOverGround, CableOut: r.CableOut,
	}
	old := n.track[0]
	dx, dy := r.X-old.X, r.Y-old.Y
	if math.Hypot(dx, dy) < 0.05*n.settings.CourseTime {
		f.Fault = "no way on: the track made good is unknown"
	}
	f.Heading = math.Atan2(dx, dy)
	s := &n.settings
	layback, err := Layback(r.CableOut, r.FishDepth, s.SheaveHeight, s.CatenaryFactor, s.AntennaToTow)
	if err != nil {
		// Not NaN and not silence: hang the fish straight below and say so.
		layback, f.Fault = s.AntennaToTow, err.Error()
	}
	f.Layback = layback
	f.X = r.X - layback*math.Sin(f.Heading)
	f.Y = r.Y - layback*math.Cos(f.Heading)
	return f
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
	out.Heading = a.Heading + f*math.Remainder(b.Heading-a.Heading, 2*math.Pi)
	out.Depth, out.Altitude = mix(a.Depth, b.Depth), mix(a.Altitude, b.Altitude)
	out.VesselX, out.VesselY = mix(a.VesselX, b.VesselX), mix(a.VesselY, b.VesselY)
	out.Layback, out.Speed, out.CableOut = mix(a.Layback, b.Layback), mix(a.Speed, b.Speed), mix(a.CableOut, b.CableOut)
	return out
}
