package sonar

import (
	"errors"
	"math"

	"dryline/seabed/chance"
	"dryline/sonar/acoustics"
)

// Pose is where the fish is at the moment of a ping.
type Pose struct {
	X, Y, Z float64 // on the grid, metres; Z is 0 at the mean level of the water
	Surface float64 // height of the water over its mean level, metres
	Heading float64 // grid bearing, radians
	Pitch   float64 // nose up positive, radians
	Roll    float64 // starboard side down positive, radians
	YawRate float64 // to starboard, radians per second
	Speed   float64 // ahead, over the ground, m/s
	Time    float64 // of the ping, seconds since the start of the exercise
	Run     float64 // distance the fish has run, metres

	Wake [2][Crossings]Crossing // by side: the vessel's own wake about the fish
}

// Depth is how deep the fish is, metres.
func (p *Pose) Depth() float64 { return p.Surface - p.Z }

// Side of the fish.
type Side int

// The sides.
const (
	Port Side = iota
	Starboard
)

// String returns "port" or "starboard".
func (s Side) String() string {
	if s == Port {
		return "port"
	}
	return "starboard"
}

// Engine makes the samples of pings. It is not changed by making them and may
// be shared by goroutines, each with a [Workspace] of its own.
type Engine struct {
	// SpeckleOff and NoiseOff leave out the chance in the record, for
	// comparisons with a closed form; NoiseOff also the sonar's own pulse and what
	// drifts in the water.
	SpeckleOff, NoiseOff bool

	spec        Spec
	sea         Sea
	soundSpeed  float64 // true, m/s
	bin         float64 // true slant range of one sample, metres
	recorderBin float64 // what the recorder takes it for, metres
	channels    []*tuned
	fan         fan
	textures    *textures
	remainders  *remainders
	seed        uint64
	hiss        uint64  // seed of the noise
	listening   float64 // time a ping is listened to, seconds
	spoilers    spoilers
	surface     *surfaceEcho // for labels

	boosts []float64 // of the echo of each object, see Strengthen

	profile profile
}

// NewEngine tunes a sonar to the water. recorderSpeed is the sound speed set
// in the recorder, which turns the range scale into a listening time:
// T = 2 range scale / recorderSpeed.
func NewEngine(spec Spec, sea Sea, recorderSpeed float64, seed uint64) (*Engine, error) {
	if len(spec.Channels) == 0 || spec.Samples < 2 || spec.RangeScale <= 0 || recorderSpeed <= 0 {
		return nil, errors.New("sonar: needs a channel, two samples, a range scale and a sound speed")
	}
	c, err := acoustics.SoundSpeed(sea.SoundSpeed, sea.Temperature, sea.Salinity, sea.Depth)
	if err != nil {
		return nil, err
	}
	e := &Engine{
		spec: spec, sea: sea, soundSpeed: c,
		recorderBin: spec.RangeScale / float64(spec.Samples),
		bin:         spec.RangeScale / float64(spec.Samples) * c / recorderSpeed,
		seed:        chance.Seed(seed, "sonar/speckle"),
		hiss:        chance.Seed(seed, "sonar/noise"),
	}
	if e.profile, err = newProfile(sea.Cast); err != nil {
		return nil, err
	}
	for _, channel := range spec.Channels {
		t, err := e.tune(channel)
		if err != nil {
			return nil, err
		}
		e.channels = append(e.channels, t)
	}
	e.fan, e.textures, e.remainders = e.newFan(), newTextures(), newRemainders(spec.Step)
	e.listening = 2 * spec.RangeScale / recorderSpeed
	e.spoilers, e.surface = e.newSpoilers(seed), e.newSurfaceEcho()
	return e, nil
}

// Strengthen gives every object an echo so many dB over its material's, by the
// object's number less one; objects beyond the list have their material's.
func (e *Engine) Strengthen(objects []float64) {
	e.boosts = nil
	for _, level := range objects {
		e.boosts = append(e.boosts, acoustics.FromDecibels(level))
	}
}

// boost is the factor on the echo of an object, by its number.
func (e *Engine) boost(object uint16) float64 {
	if i := int(object) - 1; i >= 0 && i < len(e.boosts) {
		return e.boosts[i]
	}
	return 1
}

// Spec returns the settings the engine was made with.
func (e *Engine) Spec() Spec { return e.spec }

// Faults returns what ails the channels.
func (e *Engine) Faults() Faults { return e.spec.Effects.Faults }

// SoundSpeed is the true sound speed, m/s.
func (e *Engine) SoundSpeed() float64 { return e.soundSpeed }

// Bin is the true slant range of one sample, metres.
func (e *Engine) Bin() float64 { return e.bin }

// Interval is the time between pings, seconds: one ping in the water at a time.
func (e *Engine) Interval(recorderSpeed float64) float64 {
	return acoustics.PingInterval(e.spec.RangeScale, recorderSpeed)
}

// Echo is the record of one side of one ping.
type Echo struct {
	Samples [][]uint16 // by channel, counts
	Lit     []uint16   // truth: objects in the main lobe and lit, index plus one
	Labels  []Label    // truth: by sample; nil unless asked for, see [Engine.NewLabelledEcho]
	Across  Across     // truth: along what the ground ranges of labels lie; filled in with them
}

// NewEcho returns an Echo of the right size for the engine.
func (e *Engine) NewEcho() Echo {
	echo := Echo{Lit: make([]uint16, 0, 16)}
	for range e.channels {
		echo.Samples = append(echo.Samples, make([]uint16, e.spec.Samples))
	}
	return echo
}

// Clear makes the echo that of a ping that never came up the cable.
func (e *Echo) Clear() {
	for _, row := range e.Samples {
		clear(row)
	}
	e.Lit = e.Lit[:0]
	clear(e.Labels)
	e.Across = Across{}
}

// Ping fills dst with one side's echo of the ping of that number. The pose is the
// fish's as the ping is sent; what comes back from slant range R is heard from
// where it has gone in 2R/c, and between the two lies the ground it answers for:
// abreast of where the fish is at R/c. Left out: other motion within the ping,
// but for what yaw costs the level.
func (e *Engine) Ping(ws *Workspace, dst *Echo, floor Floor, pose Pose, side Side, number uint64) {
	if e.spoilers.drops.lost(number) {
		dst.blank()
		return
	}
	faults := &e.spec.Effects.Faults
	side = faults.hears(side)
	if e.spoilers.crossTalk > 0 {
		e.overhear(ws, floor, pose, side)
	}
	dst.Lit = dst.Lit[:0]
	ws.label(dst)
	e.sound(ws, dst, floor, &pose, side)
	for c, t := range e.channels {
		t.beam.turned(ws.left, &pose, side, t.oneWay, e.soundSpeed)
		ws.gather(c, t.propagate)
		if e.NoiseOff {
			clear(ws.stray)
		} else {
			if c == 0 {
				ws.reachWater(t.beam, pose.Depth(), ws.altitude)
			}
			t.quiet.hear(ws.stray, ws.radians, ws.reach)
		}
		if c == 0 && ws.labels != nil {
			e.settle(ws, dst.Labels, &pose, side, number)
		}
		if e.spoilers.crossTalk > 0 {
			ws.talkAcross(c, e.spoilers.crossTalk)
		}
		if len(e.spoilers.list) > 0 {
			e.spoil(ws, c, pose, side, number)
		}
		faults.ail(ws, side)
		e.receive(dst.Samples[c], ws, c, side, pose, number)
	}
	if faults.Dead[side] { // nothing is seen on it
		dst.Lit = dst.Lit[:0]
		clear(dst.Labels)
	}
}

// sound gathers what the floor of one side answers in the lanes of the workspace, and in
// dst, unless it is nil, the objects seen.
func (e *Engine) sound(ws *Workspace, dst *Echo, floor Floor, pose *Pose, side Side) {
	ws.begin(e, floor, *pose)
	// A fish that pitches looks ahead or astern: the plane across its axis meets
	// the floor that far from the point below it.
	shift := ws.altitude * math.Tan(pose.Pitch)
	sin, cos := math.Sincos(pose.Heading)
	x, y := pose.X+shift*sin, pose.Y+shift*cos
	roll := pose.Roll
	if side == Port {
		roll = -roll
	}
	ws.tilt(e, roll)
	ws.refraction = ws.refractions.of(e, pose.Depth())
	look := gaze{x: x, y: y, z: pose.Z, sin: sin, cos: cos, heading: pose.Heading, ahead: pose.Speed / e.soundSpeed, side: side}
	if dst != nil && ws.labels != nil {
		dst.Across = Across{X: x, Y: y, Bearing: bearingAcross(look.heading, look.ahead, side)}
	}
	furnished, _ := floor.(Furnished)
	if furnished != nil {
		ws.strips.lay(e, furnished, &look)
	}
	if ws.even != nil {
		ground, on := floor.(EvenGround)
		if ws.even.begin(on); on {
			for m := range e.fan.place {
				e.soundEvenly(ws, dst, ground, m, &look)
			}
			return
		}
	}
	for m, place := range e.fan.place {
		s := &ws.section
		px, py, ux, uy := look.along(&e.fan, place)
		if furnished != nil {
			furnished.TraceGround(s, px, py, ux, uy)
		} else {
			floor.Trace(s, px, py, ux, uy)
		}
		ws.aim(e, m, s.Drawn)
		through := e.spoilers.water.veil(ws, e.bin, px, py, pose.Z, ux, uy)
		seen := dst
		if math.Abs(place) > 0.5 { // outside the main lobe
			seen = nil
		}
		hidden := e.walkRaised(ws, s, seen, 0, math.Inf(-1), pose.Z)
		e.walk(ws, s, seen, 0, belowFish(s, pose.Z), pose.Z, hidden, through)
		if furnished != nil {
			e.walkStrips(ws, furnished, dst, m, &look, through)
		}
	}
}
