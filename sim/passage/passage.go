package passage

import (
	"errors"
	"math"

	"dryline/sim/exercise"
	"dryline/sim/order"
	"dryline/sim/survey"
	"dryline/sonar"
	"dryline/vessel"
	"dryline/vessel/nav"
	"dryline/vessel/tow"
)

// Tick is the fixed step of the clock, seconds.
const Tick = 0.1

// Floor is the true sea floor as a tow meets it.
type Floor interface {
	// HeightAt is the height of the floor or what stands on it, metres.
	HeightAt(x, y float64) float64
	// Touch reports whether a ball touches the floor, object 0, or something on it,
	// numbered from 1.
	Touch(x, y, z, radius float64) (object uint16, touched bool)
}

// Hand gives orders on its own, such as the mate who runs a plan. It acts before
// each tick.
type Hand interface{ Act(Deck) }

// Deck shows a hand on deck what there is to see, instruments and the desk's reckoning, and
// where it gives its orders.
type Deck interface {
	Tick() int64
	Now() float64 // seconds
	Reading() nav.Reading
	Fix() survey.Fix
	Steering() order.Command         // the helm keeps to
	Ordered() (speed, cable float64) // m/s over ground, metres out
	Give(order.Command) error
}

// Passage is a vessel with her tow under way.
type Passage struct {
	ex    *exercise.Exercise
	brief *exercise.Brief
	floor Floor
	ship  order.Ship          // orders take effect on it
	given func(order.Command) // told of each order that was carried out, or nil
	hand  Hand                // or nil

	tick  int64
	done  bool
	ended string // why, one of the reasons of package order; empty while it runs

	hull    vessel.Hull
	helm    helm
	orders  vessel.Orders // in force
	gear    *tow.Gear
	jitter  *tow.Jitter
	inst    *nav.Instruments
	weather weather
	motion  *vessel.Motion
	ride    vessel.Attitude

	navigator   *survey.Navigator
	reading     nav.Reading
	convergence float64
	logging     order.Command // the order to log a line, while it is logged

	events  occurrences
	mended  float64 // when plugs and leads have been seen to, seconds; 0 for never
	sails   []*sail
	crew    helmsman
	trouble trouble
	mishaps []Mishap
	missed  func(Mishap) // told of each mishap, or nil

	fishRun float64    // distance the fish has run, metres
	before  sonar.Pose // of the fish at the beginning of the last tick
	after   sonar.Pose // and at its end
}

// New sets a passage up at the start of an exercise, with the vessel on the
// run-in to the first line of its plan.
func New(ex *exercise.Exercise, floor Floor, seeds exercise.Seeds) (*Passage, error) {
	if len(ex.Lines) == 0 || len(ex.Plan.Order) == 0 {
		return nil, errors.New("an exercise needs a line and a plan to run it")
	}
	ex = ex.AsGiven() // lines are added to it
	p := &Passage{
		ex: ex, brief: ex.Brief(), floor: floor,
		inst:        nav.New(ex.Instruments, seeds.Weather),
		weather:     newWeather(&ex.Sea, seeds.Weather),
		navigator:   survey.NewNavigator(ex.Desk),
		events:      newOccurrences(ex.Events, seeds.Weather),
		convergence: ex.Place.Grid.ConvergenceAt(ex.Seabed.East/2, ex.Seabed.North/2),
	}
	p.ship, p.sails, p.crew = alone{p}, newSails(ex), newHelmsman(ex.Help, seeds.Weather)
	first := ex.Plan.Order[0]
	track := ex.Lines[first.Line].Track(first.Reversed)
	sin, cos := math.Sincos(track.Bearing())
	back := ex.Plan.RunIn + ex.Plan.CableOut
	p.hull = vessel.Hull{Spec: ex.Vessel, Heading: track.Bearing(), Surge: ex.Plan.Speed}
	p.hull.X, p.hull.Y = track.AX-back*sin, track.AY-back*cos
	p.helm = helm{
		pilot: vessel.NewAutopilot(ex.Plan.Lookahead), speed: ex.Plan.Speed, track: track,
		order: order.Command{Do: order.SteerLine, Line: ex.Lines[first.Line].Name, Reversed: first.Reversed},
	}
	x, y := p.hull.At(ex.Vessel.Sheave)
	p.gear = tow.New(ex.Tow, ex.Vessel.Sheave.Up, ex.Plan.CableOut, ex.Plan.Speed, x, y, p.hull.Heading)
	p.motion = vessel.NewMotion(vessel.Form{
		Length: ex.Vessel.Length, Beam: ex.Vessel.Beam, Draft: ex.Vessel.Draft, Block: ex.Vessel.Block, GM: ex.Vessel.GM,
	}, p.weather.waves.Components())
	p.jitter = tow.NewJitter(ex.Tow.Jitter, seeds.Weather)
	p.after = p.pose()
	return p, nil
}

// Under has orders take effect on a ship that has more than the passage, and
// given told of each that was carried out.
func (p *Passage) Under(ship order.Ship, given func(order.Command)) { p.ship, p.given = ship, given }

// OnMishap has f told of each mishap when it begins.
func (p *Passage) OnMishap(f func(Mishap)) { p.missed = f }

// SetHand puts somebody on deck who gives orders on their own.
func (p *Passage) SetHand(h Hand) { p.hand = h }

// Now is the time, seconds since the start.
func (p *Passage) Now() float64 { return float64(p.tick) * Tick }

// Tick is how many ticks have been stepped.
func (p *Passage) Tick() int64 { return p.tick }

// Done reports whether the exercise is over.
func (p *Passage) Done() bool { return p.done }

// Ended says why it is over; empty while it runs.
func (p *Passage) Ended() string { return p.ended }

// End ends the passage where it is, for a reason.
func (p *Passage) End(reason string) { p.done, p.ended = true, reason }

// Reading returns the instruments as they showed at the last tick.
func (p *Passage) Reading() nav.Reading { return p.reading }

// Fix is where the desk believes the fish is.
func (p *Passage) Fix() survey.Fix { return p.navigator.FixAt(p.Now()) }

// FixAt is where the desk believes the fish was at a moment of the last tick.
func (p *Passage) FixAt(t float64) survey.Fix { return p.navigator.FixAt(t) }

// Steering is the order that the helm keeps to.
func (p *Passage) Steering() order.Command { return p.helm.order }

// Ordered is the speed over ground that was ordered, m/s, and the cable out,
// metres.
func (p *Passage) Ordered() (speed, cable float64) { return p.helm.speed, p.gear.Ordered }

// Logging is the line that is logged, by the order to log it; ok is false if none
// is.
func (p *Passage) Logging() (line order.Command, ok bool) {
	return p.logging, p.logging.Do == order.LogOn
}

// Mishaps are those so far, in order. They are not to be changed.
func (p *Passage) Mishaps() []Mishap { return p.mishaps }

var errOver = errors.New("the exercise is over")

// Give carries out a command before the next tick, or work of the desk when there is
// none any more.
func (p *Passage) Give(c order.Command) error {
	if p.done && !c.Later() {
		return errOver
	}
	if err := c.Check(p.brief); err != nil {
		return err
	}
	c.Tick = p.tick
	if err := c.CarryOut(p.ship); err != nil {
		return err
	}
	if p.given != nil {
		p.given(c)
	}
	return nil
}

// Refusal is why [Passage.Give] would not carry out a command now, nil if it
// would. It changes nothing, so that an order can be written down before it takes
// effect and is in no log if it is refused.
func (p *Passage) Refusal(c order.Command) error {
	if p.done && !c.Later() {
		return errOver
	}
	if err := c.Check(p.brief); err != nil {
		return err
	}
	return c.Refuse(p.ship)
}

// Advance flies n ticks, or fewer if the exercise ends, and returns how many. It is
// for a passage alone: who sends pings from it steps it by [Passage.Step].
func (p *Passage) Advance(n int) int {
	for i := range n {
		if !p.Step() {
			return i
		}
		p.TimeUp()
	}
	return n
}

// Step lets the hand on deck act and steps one tick. It reports whether it
// stepped: the hand may have ended the exercise.
func (p *Passage) Step() bool {
	if p.done {
		return false
	}
	if p.hand != nil {
		p.hand.Act(p)
		if p.done {
			return false
		}
	}
	p.step()
	return true
}

// TimeUp ends the exercise if its time has run out. It comes after what the tick
// brought was taken in.
func (p *Passage) TimeUp() {
	if p.Now() >= p.ex.Plan.TimeLimit && !p.done {
		p.Give(order.Command{Do: order.Finish}) // cannot fail: Finish needs nothing
	}
}

// step advances the world by one tick.
func (p *Passage) step() {
	ex := p.ex
	h := &p.hull
	p.befall()
	p.heed()
	p.orders = p.steer(Tick)
	p.before = p.pose()
	h.PullX, h.PullY = p.gear.PullX, p.gear.PullY
	p.weather.follow(p.Now()+Tick, &p.events)
	h.Step(Tick, p.orders, p.weather.Weather)
	p.ride = p.motion.At(p.Now()+Tick, h)

	x, y, up := h.RidingAt(ex.Vessel.Sheave, p.ride)
	floor := p.floor.HeightAt(p.gear.X, p.gear.Y) - p.weather.surface
	fishX, fishY := p.gear.X, p.gear.Y
	p.gear.SheaveUp = up
	p.gear.Step(Tick, x, y, &p.weather, floor)
	p.fishRun += math.Hypot(p.gear.X-fishX, p.gear.Y-fishY)
	p.tick++
	p.sailOn()
	p.watchForTrouble()

	p.reading = p.inst.Read(p.Now(), Tick, p.exposure())
	p.navigator.Navigate(p.reading)
	p.after = p.pose()
}

// pose is where the tow truly has the fish, its jitter apart.
func (p *Passage) pose() sonar.Pose {
	g := p.gear
	return sonar.Pose{X: g.X, Y: g.Y, Z: p.weather.surface - g.Depth, Surface: p.weather.surface, Heading: g.Yaw, Pitch: g.Pitch, Roll: g.Roll, Run: p.fishRun}
}

// jittered adds the jitter of a moment to a pose.
func (p *Passage) jittered(at sonar.Pose, t float64) sonar.Pose {
	w := p.jitter.At(t)
	at.Z = min(at.Z+w.Heave, at.Surface-0.1)
	at.Heading += w.Yaw
	at.Pitch += w.Pitch
	at.Roll += w.Roll
	at.YawRate += w.YawRate
	return at
}

// PoseAt is where the fish truly was at a moment of the last tick.
func (p *Passage) PoseAt(t float64) sonar.Pose {
	f := (t - (p.Now() - Tick)) / Tick
	before, after := &p.before, &p.after
	mix := func(a, b float64) float64 { return a + f*(b-a) }
	turn := math.Remainder(after.Heading-before.Heading, 2*math.Pi)
	sin, cos := math.Sincos(before.Heading + f*turn)
	return p.jittered(sonar.Pose{
		Speed: ((after.X-before.X)*sin + (after.Y-before.Y)*cos) / Tick,
		X:     mix(before.X, after.X), Y: mix(before.Y, after.Y), Z: mix(before.Z, after.Z),
		Heading: before.Heading + f*turn, YawRate: turn / Tick,
		Pitch: mix(before.Pitch, after.Pitch), Roll: mix(before.Roll, after.Roll),
		Surface: after.Surface, Time: t, Run: mix(before.Run, after.Run),
	}, t)
}

// Stern is where the stern truly is and how fast she goes ahead, for the water
// that the propeller stirs, metres and m/s.
func (p *Passage) Stern() (x, y, ahead float64) {
	x, y = p.hull.At(p.ex.Vessel.Sheave)
	return x, y, p.hull.Surge
}

// SurfaceCurrent is the current at the surface, m/s to the east and north.
func (p *Passage) SurfaceCurrent() (east, north float64) {
	return p.weather.CurrentX, p.weather.CurrentY
}

// Deaf reports whether the fish, knocked, sends nothing up at a time, seconds.
func (p *Passage) Deaf(t float64) bool { return t < p.trouble.deafUntil }
