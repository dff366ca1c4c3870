package passage

import "math"

// Scene is the true state of everything, for an instructor or for help that an
// exercise allows; nothing of it may reach the desk or the coach. Places are on
// the grid, metres, heights over the mean level of the water. It is a copy: the
// session may go on.
type Scene struct {
	Time float64 // seconds

	X, Y, Heading      float64 // of the vessel's origin, metres; grid bearing, radians
	Heave, Pitch, Roll float64 // of the vessel in the waves: metres, bow up and starboard down positive, radians
	Sheave             [3]float64

	Cable   [][3]float64 // from the fish to the sheave
	Tension float64      // at the sheave, N

	FishX, FishY, FishZ float64
	FishHeading         float64 // grid bearing, radians
	FishPitch, FishRoll float64 // nose up and starboard down positive, radians
	FishAltitude        float64 // over the floor or what stands on it, metres
	Level               float64 // of the water without waves: the tide, metres
	WindX, WindY        float64 // where the wind blows to, m/s
	CurrentX, CurrentY  float64 // at the surface, where it flows to, m/s
	surface, floor      func(x, y float64) float64
}

// CableOut is how much cable truly is out, metres, whatever the counter shows.
func (p *Passage) CableOut() float64 { return p.gear.CableOut }

// Surface is the height of the water, waves and all, at a point, metres.
func (s *Scene) Surface(x, y float64) float64 { return s.surface(x, y) }

// Floor is the height of the floor or what stands on it at a point, metres. It
// may be asked while the session goes on: the world can be read by many at once.
func (s *Scene) Floor(x, y float64) float64 { return s.floor(x, y) }

// Scene returns the truth of the moment; see [Scene] for who may see it.
func (p *Passage) Scene() Scene {
	w, g, now := &p.weather, p.gear, p.Now()
	level, waves := w.surface, w.waves
	fish := p.jittered(p.pose(), now)
	x, y, z := p.hull.RidingAt(p.ex.Vessel.Sheave, p.ride)
	out := Scene{
		Time: now, X: p.hull.X, Y: p.hull.Y, Heading: p.hull.Heading,
		Heave: p.ride.Heave, Pitch: p.ride.Pitch, Roll: p.ride.Roll,
		Sheave: [3]float64{x, y, z + level}, Tension: g.Tension, Cable: g.Curve(nil),
		FishX: fish.X, FishY: fish.Y, FishZ: fish.Z, FishHeading: fish.Heading, FishPitch: fish.Pitch, FishRoll: fish.Roll,
		FishAltitude: fish.Z - p.floor.HeightAt(fish.X, fish.Y), Level: level,
		WindX: w.WindX, WindY: w.WindY, CurrentX: w.CurrentX, CurrentY: w.CurrentY,
		surface: func(x, y float64) float64 { return level + waves.Elevation(x, y, now) },
		floor:   p.floor.HeightAt,
	}
	for i := range out.Cable {
		out.Cable[i][2] += level // the tow is reckoned from the water it is in
	}
	return out
}

// Crests are the heights of the waves along the vessel as her crew sees them, metres over still
// water: the first so far ahead of her origin, each of the others a step farther astern. dst gives how many and
// has them after.
func (p *Passage) Crests(dst []float64, ahead, step float64) {
	sin, cos := math.Sincos(p.hull.Heading)
	for i := range dst {
		forward := ahead - float64(i)*step
		dst[i] = p.weather.waves.Elevation(p.hull.X+forward*sin, p.hull.Y+forward*cos, p.Now())
	}
}
