package sim

import (
	"errors"
	"fmt"
	"math"
	"runtime"

	"dryline/seabed"
	"dryline/sim/survey"
	"dryline/sonar"
	"dryline/sonar/recorder"
	"dryline/vessel"
	"dryline/vessel/nav"
	"dryline/vessel/tow"
)

// Tick is the fixed step of the clock, seconds.
const Tick = 0.1

const ticksPerSecond = 10

// Session is one running exercise.
type Session struct {
	Exercise *Exercise
	Seed     uint64
	Desk     *survey.Desk
	Truth    Truth
	Commands []Command // every command so far, in order: the session's log
	Workers  int       // goroutines that make pings; set before the first step

	Attempt Attempt // set before the first step
	Another string  // why this is not the survey that its log was written of, if it is not

	onLine []func(*survey.LineRecord)
	origin int // format of the log it is flown from, if that had no chain
	digest digest

	bare   bool // see InstrumentsOnly
	tick   int64
	done   bool
	ended  string // why, one of the Reasons; empty while it runs
	world  *seabed.World
	hull   vessel.Hull
	helm   helm
	orders vessel.Orders // in force
	gear   *tow.Gear
	shake  *tow.Jitter
	inst   *nav.Instruments

	weather     weather
	motion      *vessel.Motion
	ride        vessel.Attitude
	trouble     trouble
	convergence float64
	reading     nav.Reading
	mate        *mate

	engine   *sonar.Engine
	interval float64 // between pings, seconds
	nextPing float64 // time the next ping falls due, seconds
	number   uint64
	fishRun  float64 // distance the fish has run, metres
	studio   studio
	wake     wake
}

// New sets a session up at the start of its exercise, with the vessel on the
// run-in to the first line.
func New(ex *Exercise, seed uint64) (*Session, error) {
	world := seabed.New(ex.Seabed, seed)
	engine, err := newEngine(ex, world, ex.Sonar.RangeScale, ex.Sonar.Channels, seed)
	if err != nil {
		return nil, err
	}
	var names []string
	var receivers []recorder.Receiver
	for _, c := range ex.Sonar.Channels {
		names, receivers = append(names, c.Name), append(receivers, c.Receiver)
	}
	settings := ex.Desk
	settings.MosaicX, settings.MosaicY = ex.Place.Grid.Whole(settings.MosaicCell)
	desk, err := survey.New(settings, survey.Recorder{
		RangeScale: ex.Sonar.RangeScale, Samples: ex.Sonar.Samples, Nominal: sonar.NominalCounts, Channels: names,
		Receivers: receivers,
	})
	if err != nil {
		return nil, err
	}
	if reach := ex.Sonar.RangeScale; ex.Seabed.East > 0 {
		desk.Mosaic.Within(-reach, -reach, ex.Seabed.East+reach, ex.Seabed.North+reach)
	}
	if len(ex.Lines) == 0 || len(ex.Plan.Order) == 0 {
		return nil, errors.New("sim: an exercise needs a line and a plan to run it")
	}
	s := &Session{
		Exercise: ex, Seed: seed, Desk: desk, engine: engine,
		Workers:     runtime.GOMAXPROCS(0),
		world:       world,
		wake:        newWake(ex),
		inst:        nav.New(ex.Instruments, seed),
		interval:    engine.Interval(ex.Desk.SoundSpeed),
		digest:      newDigest(),
		weather:     newWeather(&ex.Sea, seed),
		convergence: ex.Place.Grid.ConvergenceAt(ex.Seabed.East/2, ex.Seabed.North/2),
	}
	first := ex.Plan.Order[0]
	track := ex.Lines[first.Line].Track(first.Reversed)
	sin, cos := math.Sincos(track.Bearing())
	back := ex.Plan.RunIn + ex.Plan.CableOut
	s.hull = vessel.Hull{Spec: ex.Vessel, Heading: track.Bearing(), Surge: ex.Plan.Speed}
	s.hull.X, s.hull.Y = track.AX-back*sin, track.AY-back*cos
	s.helm = helm{
		pilot: vessel.NewAutopilot(ex.Plan.Lookahead), speed: ex.Plan.Speed, track: track,
		order: Command{Do: SteerLine, Line: ex.Lines[first.Line].Name, Reversed: first.Reversed},
	}
	x, y := s.hull.At(ex.Vessel.Sheave)
	s.gear = tow.New(ex.Tow, ex.Vessel.Sheave.Up, ex.Plan.CableOut, ex.Plan.Speed, x, y, s.hull.Heading)
	s.motion = vessel.NewMotion(vessel.Form{
		Length: ex.Vessel.Length, Beam: ex.Vessel.Beam, Draft: ex.Vessel.Draft, Block: ex.Vessel.Block, GM: ex.Vessel.GM,
	}, s.weather.waves.Components())
	s.shake = tow.NewJitter(ex.Tow.Jitter, seed)
	s.Truth.begin(s)
	return s, nil
}

// AttachMate lets the mate run the exercise's plan: an automatic hand that
// gives the same commands a person could.
func (s *Session) AttachMate() { s.mate = newMate(s.Exercise) }

// OnLine has f called with each line as it is closed, after the desk has taken
// all its pings; those who asked first hear first.
func (s *Session) OnLine(f func(*survey.LineRecord)) { s.onLine = append(s.onLine, f) }

// Refused is the first order of the mate that was refused, with the reason; nil
// if all were carried out. A sound mate is never refused.
func (s *Session) Refused() error {
	if s.mate == nil {
		return nil
	}
	return s.mate.refused
}

// InstrumentsOnly is for who wants nothing of the session but [Session.Reading]: no
// ping is made, and neither the desk nor the truth nor Commands remember anything,
// so that it takes the same memory however long it runs. The vessel, the tow and
// the instruments do as they would. Call it before the first step; such a session
// has no log to write and nothing to debrief.
func (s *Session) InstrumentsOnly() {
	const around = 8 // tiles about the fish: one, or four at a corner, and some in reserve
	s.bare = true
	s.world.Keep(around)
}

// Now is the time of the session, seconds since its start.
func (s *Session) Now() float64 { return float64(s.tick) * Tick }

// Ticks is how many ticks have been stepped.
func (s *Session) Ticks() int64 { return s.tick }

// Done reports whether the exercise is over.
func (s *Session) Done() bool { return s.done }

// Ended says why the session is over: [ReasonFinished] for an exercise run to
// its end, another reason for a part of one; empty while it runs.
func (s *Session) Ended() string { return s.ended }

// Engine returns the sonar, for those who report what it was.
func (s *Session) Engine() *sonar.Engine { return s.engine }

// World returns the true sea floor, for the debrief and the instructor alone.
func (s *Session) World() *seabed.World { return s.world }

// Progress is the share of the plan done, 0..1.
func (s *Session) Progress() float64 {
	if s.done {
		return 1
	}
	if s.mate != nil {
		return s.mate.progress(s)
	}
	return min(s.Now()/s.Exercise.Plan.TimeLimit, 1)
}

// Give carries out a command before the next tick.
func (s *Session) Give(c Command) error {
	if s.done {
		return errors.New("sim: the exercise is over")
	}
	if err := c.check(s.Exercise); err != nil {
		return fmt.Errorf("sim: %w", err)
	}
	c.Tick = s.tick
	if err := s.carryOut(c); err != nil {
		return fmt.Errorf("sim: %s: %w", c.Do, err)
	}
	if !s.bare {
		s.Commands = append(s.Commands, c)
	}
	return nil
}

// carryOut carries out a command that is sound by itself. It does so whole or,
// with an error, not at all.
func (s *Session) carryOut(c Command) error {
	switch c.Do {
	case SteerLine, SteerPoint, SteerHeading, Rudder, Turn:
		s.take(c)
	case Speed:
		s.helm.speed = c.Value
	case Cable:
		s.gear.Ordered = c.Value
	case ZeroCounter:
		s.inst.ZeroCounter(c.Value)
	case Factor, SheaveHeight, TowOffset, TowSide, PositionBy:
		s.adjustDesk(c)
	case Mark, Measure, NameContact, ClassContact, DeleteContact, UndoContact, RedoContact, Lookout:
		return s.workContacts(c)
	case Range:
		return s.setRange(c.Value)
	case Gain, TVG, TVGLoss:
		return s.setReceiver(c)
	case LogOn:
		t := s.Exercise.Lines[s.Exercise.lineIndex(c.Line)].Track(c.Reversed)
		s.tellDesk(event{lineOn: c.Line, track: t})
		s.studio.logging, s.studio.line = true, c
	case LogOff:
		s.tellDesk(event{lineOff: true})
		s.studio.logging = false
	case Finish:
		if s.studio.logging {
			s.tellDesk(event{lineOff: true})
			s.studio.logging = false
		}
		s.done, s.ended = true, ReasonFinished
	}
	return nil
}

// Advance steps n ticks, or fewer if the exercise ends, and returns how many.
// However the ticks are grouped the outcome is the same.
func (s *Session) Advance(n int) int {
	stepped := 0
	for stepped < n && !s.done {
		if s.mate != nil {
			s.mate.act(s)
			if s.done {
				break
			}
		}
		s.step()
		stepped++
		if s.studio.full() {
			s.develop()
		}
	}
	s.develop()
	return stepped
}

// step advances the world by one tick.
func (s *Session) step() {
	ex := s.Exercise
	h := &s.hull
	orders := s.steer(Tick)
	s.orders = orders
	before := s.pose()
	h.PullX, h.PullY = s.gear.PullX, s.gear.PullY
	s.weather.follow(s.Now() + Tick)
	h.Step(Tick, orders, s.weather.Weather)
	s.ride = s.motion.At(s.Now()+Tick, h)

	x, y, up := s.aboard(ex.Vessel.Sheave)
	floor := s.world.HeightAt(s.gear.X, s.gear.Y) - s.weather.surface
	fishX, fishY := s.gear.X, s.gear.Y
	s.gear.SheaveUp = up
	s.gear.Step(Tick, x, y, &s.weather, floor)
	s.fishRun += math.Hypot(s.gear.X-fishX, s.gear.Y-fishY)
	s.tick++
	s.watchForTrouble()

	s.reading = s.inst.Read(s.Now(), Tick, s.measured())
	fix := s.Desk.Navigate(s.reading)
	if s.tick%ticksPerSecond == 0 {
		s.tellDesk(event{note: true, fix: fix, heading: s.reading.Heading})
	}
	s.wake.follow(s)
	s.queuePings(before, s.pose())
	if s.Now() >= ex.Plan.TimeLimit && !s.done {
		s.Give(Command{Do: Finish}) // cannot fail: Finish needs nothing
	}
}

// pose is where the tow truly has the fish, its jitter apart.
func (s *Session) pose() sonar.Pose {
	g := s.gear
	return sonar.Pose{X: g.X, Y: g.Y, Z: s.weather.surface - g.Depth, Surface: s.weather.surface, Heading: g.Yaw, Pitch: g.Pitch, Roll: g.Roll, Run: s.fishRun}
}

// restless adds the jitter of a moment to a pose.
func (s *Session) restless(p sonar.Pose, t float64) sonar.Pose {
	w := s.shake.At(t)
	p.Z = min(p.Z+w.Heave, p.Surface-0.1)
	p.Heading += w.Yaw
	p.Pitch += w.Pitch
	p.Roll += w.Roll
	p.YawRate += w.YawRate
	return p
}
