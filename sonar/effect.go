package sonar

import (
	"math"

	"dryline/seabed"
	"dryline/sonar/acoustics"
	"dryline/sonar/lanes"
)

// effect spoils a record in one physical way. Its methods may be called by
// several goroutines at once and depend on nothing but their arguments.
type effect interface {
	// add changes the intensity of one channel and side of a ping.
	add(a *arrival)
}

// spoilers is everything switched on.
type spoilers struct {
	list  []effect
	water water
	drops drops

	crossTalk float64 // share of the other side's intensity, see overhear

	absorption []float64 // of intensity by channel, 1/m
}

// arrival is the sound that reaches the receiver, before noise, speckle and gain.
type arrival struct {
	engine    *Engine
	channel   *tuned
	index     int // of the channel
	side      Side
	number    uint64
	pose      Pose
	altitude  float64      // of the fish above the floor below it, metres
	floor     seabed.Class // below it
	vertical  []float32    // two-way pattern by sine of the angle below horizontal, see patternAt
	intensity []float32    // of echoes, per bin, linear re 1 uPa^2
	stray     []float32    // of what comes in beside the echoes, likewise
	rings     []float32    // scratch of sheet
}

// newSpoilers builds the effects in the order the sound meets them: those that add
// echoes, those that stand in their way, those that come in at the receiver.
func (e *Engine) newSpoilers(seed uint64) spoilers {
	fx := &e.spec.Effects
	s := spoilers{water: newWater(fx, seed), drops: newDrops(fx.Drops, seed)}
	if fx.CrossTalk < 0 {
		s.crossTalk = acoustics.FromDecibels(fx.CrossTalk)
	}
	for _, t := range e.channels {
		// The channels have been tuned with the same water: it cannot fail.
		loss, _ := acoustics.Absorption(e.sea.Absorption, t.spec.Frequency, e.sea.Temperature, e.sea.Salinity, e.sea.Depth, e.sea.PH)
		s.absorption = append(s.absorption, loss/1000*math.Ln10/10)
	}
	if fx.SecondBottom {
		s.list = append(s.list, e.newSecondBottom())
	}
	if fx.SurfaceGhosts {
		s.list = append(s.list, e.newGhosts())
	}
	if len(s.water.schools) > 0 {
		s.list = append(s.list, schoolEcho(s.water.schools))
	}
	for i := range fx.Seeps {
		s.list = append(s.list, newColumn(&fx.Seeps[i], fx.CurrentX, fx.CurrentY, seed, i))
	}
	for i := range fx.Springs {
		s.list = append(s.list, &plume{fx.Springs[i], fx.CurrentX, fx.CurrentY})
	}
	for i := range fx.Layers {
		s.list = append(s.list, (*scatteringLayer)(&fx.Layers[i]))
	}
	if fx.SurfaceEcho {
		s.list = append(s.list, e.newSurfaceEcho())
	}
	if fx.Bubbles.On {
		s.list = append(s.list, e.newBubbles(fx.Bubbles))
	}
	if fx.Wake.Attenuation > 0 {
		s.list = append(s.list, (*wake)(&fx.Wake))
	}
	for i := range fx.Sounders {
		s.list = append(s.list, (*interference)(&fx.Sounders[i]))
	}
	if fx.Hum.Level > 0 {
		s.list = append(s.list, newHum(fx.Hum))
	}
	return s
}

// spoil lets every effect have its way with one channel.
func (e *Engine) spoil(ws *Workspace, channel int, pose Pose, side Side, number uint64) {
	ws.arrival = arrival{
		engine: e, channel: e.channels[channel], index: channel, side: side, number: number,
		pose: pose, altitude: ws.altitude, floor: ws.section.Class[0],
		vertical: ws.lanes[channel].vertical, intensity: ws.energy, stray: ws.stray, rings: ws.rings,
	}
	for _, fx := range e.spoilers.list {
		fx.add(&ws.arrival)
	}
}

// patternAt is the two-way vertical pattern at a sine of the angle below
// horizontal.
func (a *arrival) patternAt(sine float64) float64 {
	return float64(a.vertical[min(max(int((sine+1)*(dipSteps/2)), 0), dipSteps-1)])
}

// absorbed is the share of intensity left after a length of water, metres.
func (a *arrival) absorbed(length float64) float64 {
	return math.Exp(-a.engine.spoilers.absorption[a.index] * length)
}

// lobeEdge bounds how far ahead of where the fish sent its ping the beam reaches
// at a slant range, metres.
func (a *arrival) lobeEdge(r float64) float64 {
	segments := a.channel.beam.segments
	at := segments[min(int(a.bins(r))>>segmentShift, len(segments)-1)]
	return beamSteps/at.perMetre + math.Abs(a.travel(r))
}

// travel is how far the fish has gone by the time sound has come to a slant range:
// about there lies what it hears of it, see [Engine.Ping].
func (a *arrival) travel(r float64) float64 { return a.pose.Speed * r / a.engine.soundSpeed }

// bins turns metres of slant range into bins.
func (a *arrival) bins(r float64) float64 { return r / a.engine.bin }

// target adds the echo of a small body of backscattering cross-section sigma,
// m^2, that lies along ahead of the fish, metres, at slant range r, with the
// sine of its angle below horizontal: the sonar equation for a point,
//
//	EL = SL - 2 TL + TS + beam pattern
func (a *arrival) target(sigma, along, r, sine float64) {
	k := int(a.bins(r))
	if k >= len(a.intensity) || r <= 0 {
		return
	}
	beam := a.channel.beam.at(along-a.travel(r), k)
	a.intensity[k] += float32(sigma*beam*a.patternAt(sine)) * a.channel.propagate[k]
}

// sheet adds the echo of a level sheet that lies up metres above the fish
// (negative: below). strength is of a square metre by the sine of the grazing
// angle, in strengthSteps steps; a nil strength is that everywhere. Within the
// beam the ring between two slant ranges has, for each radian, the area
//
//	R dg ,   g = sqrt(R^2 - up^2)
//
// and with an optical depth tau between it and the fish, it loses
// 2 tau/sin(gamma) there and back. Past the first bins the ring changes slowly and is shared out evenly over
// some bins at a time.
func (a *arrival) sheet(up float64, strength []float32, that float32, tau float64) {
	const exact, stride = 48, lanes.RingBins
	first, end := int(math.Abs(up)/a.engine.bin), len(a.intensity)
	rings := rings{a: a, up: up, strength: strength, that: that, tau: tau, width: float32(a.channel.width)}
	k := first
	for ; k < min(first+exact, end); k++ {
		a.intensity[k] += rings.next(k, 1) * a.channel.propagate[k]
	}
	if whole := max(end-k, 0) / stride; whole > 0 {
		each := a.rings[:whole]
		rings.strides(each, k)
		lanes.AddRings(a.intensity[k:], a.channel.propagate[k:], each)
		k += whole * stride
	}
	if n := end - k; n > 0 {
		each := rings.next(k, n)
		for ; k < end; k++ {
			a.intensity[k] += each * a.channel.propagate[k]
		}
	}
}

// rings go outwards over a sheet.
type rings struct {
	a        *arrival
	up       float64
	strength []float32
	that     float32
	tau      float64
	width    float32
	before   float64 // g at the near edge of the next
}

// next returns what each of n bins from bin k on hears of the ring they make up together, before its way.
func (o *rings) next(k, n int) float32 {
	bin, up := o.a.engine.bin, o.up
	r := float64(k+n) * bin
	g := math.Sqrt(max(r*r-up*up, 0))
	middle := max((float64(k)+float64(n)/2)*bin, math.Abs(up))
	sine := up / middle
	s := o.that
	if o.strength != nil {
		s = o.strength[min(int(math.Abs(sine)*strengthSteps), strengthSteps-1)]
	}
	if o.tau > 0 {
		s *= float32(math.Exp(-2 * o.tau * middle / math.Abs(up)))
	}
	area := middle * (g - o.before)
	o.before = g
	return o.width * float32(area/float64(n)*o.a.patternAt(-sine)) * s
}

// strides is next for whole strides from bin k on, all beyond the sheet's nearest point.
func (o *rings) strides(each []float32, k int) {
	const stride = lanes.RingBins
	bin, up, width, before := o.a.engine.bin, o.up, o.width, o.before
	square, at := up*up, float64(k)
	for i := range each {
		r := (at + stride) * bin
		g := math.Sqrt(r*r - square)
		middle := (at + stride/2) * bin
		sine := up / middle
		s := o.that
		if o.strength != nil {
			s = o.strength[min(int(math.Abs(sine)*strengthSteps), strengthSteps-1)]
		}
		if o.tau > 0 {
			s *= float32(math.Exp(-2 * o.tau * middle / math.Abs(up)))
		}
		const share = 1. / stride // exact
		each[i] = width * float32(middle*(g-before)*share*o.a.patternAt(-sine)) * s
		before = g
		at += stride
	}
	o.before = before
}

// ahead and across are the components of a place, east and north of the fish,
// along its heading and out to the side that looks.
func (a *arrival) ahead(dx, dy float64) (along, across float64) {
	sin, cos := math.Sincos(a.pose.Heading)
	along = dx*sin + dy*cos
	across = dx*cos - dy*sin
	if a.side == Port {
		across = -across
	}
	return along, across
}
