package sim

import (
	"dryline/sonar/recorder"
	"dryline/sonar/waterfall"
	"fmt"
	"math"
	"runtime"

	"dryline/seabed"
	"dryline/sim/exercise"
	"dryline/sim/hand"
	"dryline/sim/order"
	"dryline/sim/passage"
	"dryline/sim/record"
	"dryline/sim/survey"
	"dryline/sonar"
	"dryline/vessel/nav"
)

// Tick is the fixed step of the clock, seconds.
const Tick = passage.Tick

const ticksPerSecond = 10

// Session is one running exercise: a passage, the pings sent from it, and the
// surveyor's desk that takes them.
type Session struct {
	Exercise *exercise.Exercise
	Brief    *exercise.Brief
	Seeds    exercise.Seeds
	Passage  *passage.Passage
	Desk     *survey.Desk
	Commands []order.Command // every command so far, in order: the session's log
	Workers  int             // goroutines that make pings, the session's own among them; set before the first step

	Attempt order.Attempt // set before the first step
	Another string        // why this is not the survey that its log was written of, if it is not

	world     *seabed.World
	unchained bool // it is flown from a log without a chain
	digest    digest
	observers []Observer
	shown     shown
	labelled  bool // one of them wants labels
	mate      *hand.Mate
	advice    *advice

	wanted   func(number uint64, pose *sonar.Pose) bool // see [Session.Sparse]; nil for every ping
	logged   string                                     // line that is logged, in a sparse session
	sonar    sonarSet
	queue    queue
	wake     wake
	ahead    *ahead
	recorded Recorded          // while it is flown again, or nil
	kept     *record.Store     // of this flight, or nil
	prepared *survey.Worked    // see [Session.Prepare]
	priors   []waterfall.Prior // by channel
}

// sonarSet is the sonar as it is set.
type sonarSet struct {
	engine   *sonar.Engine
	interval float64 // between pings, seconds
	nextPing float64 // time the next ping falls due, seconds
	number   uint64
	troubles troubles
}

// New sets a session up at the start of its exercise, with every seed derived
// from one.
func New(ex *exercise.Exercise, seed uint64) (*Session, error) {
	return NewSeeded(ex, exercise.SeedsOf(seed))
}

// NewSeeded sets a session up with seeds of its own for each cause of chance.
func NewSeeded(ex *exercise.Exercise, seeds exercise.Seeds) (*Session, error) {
	ex, err := ex.Settle(seeds)
	if err != nil {
		return nil, err
	}
	return NewOver(NewWorld(ex, seeds), ex, seeds)
}

// NewWorld makes the sea floor of an exercise that is settled ([exercise.Exercise.Settle]).
// Sessions may share one: it is the same to all of them, whatever they ask of it.
func NewWorld(ex *exercise.Exercise, seeds exercise.Seeds) *seabed.World {
	return seabed.New(ex.Seabed, seeds.Ground)
}

// NewOver sets a session up over a sea floor that is ready, the one of the same
// exercise, settled.
func NewOver(world *seabed.World, ex *exercise.Exercise, seeds exercise.Seeds) (*Session, error) {
	ex = ex.AsGiven() // lines are added to it
	p, err := passage.New(ex, world, seeds)
	if err != nil {
		return nil, fmt.Errorf("sim: %w", err)
	}
	engine, err := newEngine(ex, world, ex.Sonar.RangeScale, ex.Sonar.Channels, seeds.Sonar)
	if err != nil {
		return nil, err
	}
	priors, err := priorsOf(engine)
	if err != nil {
		return nil, err
	}
	desk, err := newDesk(ex, priors)
	if err != nil {
		return nil, err
	}
	s := &Session{
		Exercise: ex, Brief: ex.Briefed(seeds), Seeds: seeds, Passage: p, Desk: desk, world: world,
		Workers: runtime.GOMAXPROCS(0),
		wake:    newWake(ex), ahead: new(ahead),
		digest: newDigest(),
		priors: priors,
		sonar:  sonarSet{engine: engine, interval: engine.Interval(ex.Desk.SoundSpeed)},
	}
	p.Under(ship{s.Passage, s}, func(c order.Command) {
		s.Commands = append(s.Commands, c)
		s.tellOrder(c)
	})
	p.OnMishap(s.tellMishap)
	p.OnEvent(s.sonar.troubles.hear)
	return s, nil
}

// newDesk sets up the desk of an exercise.
func newDesk(ex *exercise.Exercise, priors []waterfall.Prior) (*survey.Desk, error) {
	var names []string
	var receivers []recorder.Receiver
	for _, c := range ex.Sonar.Channels {
		names, receivers = append(names, c.Name), append(receivers, c.Receiver)
	}
	desk, err := survey.New(anchored(ex, ex.Desk), survey.Recorder{
		RangeScale: ex.Sonar.RangeScale, Samples: ex.Sonar.Samples, Nominal: sonar.NominalCounts, Channels: names,
		Receivers: receivers, Beams: beamsOf(ex),
	}, priors...)
	if err != nil {
		return nil, err
	}
	if reach := ex.Sonar.RangeScale; ex.Seabed.East > 0 {
		desk.Within(-reach, -reach, ex.Seabed.East+reach, ex.Seabed.North+reach)
	}
	return desk, nil
}

// beamsOf are the widths along the track of the channels by the papers, radians: line
// arrays without taper, by the desk's sound speed.
func beamsOf(ex *exercise.Exercise) (beams []float64) {
	for _, c := range ex.Sonar.Channels {
		beams = append(beams, 0.886*ex.Desk.SoundSpeed/(c.Frequency*c.ArrayLength))
	}
	return beams
}

// anchored has the cells of a mosaic meet where those of every other of that size do.
func anchored(ex *exercise.Exercise, s survey.Settings) survey.Settings {
	s.MosaicX, s.MosaicY = ex.Place.Grid.Whole(s.MosaicCell)
	return s
}

// AttachMate lets the mate run the exercise's plan: an automatic hand that
// gives the same commands a person could.
func (s *Session) AttachMate() {
	s.mate = hand.NewMate(s.Brief)
	s.Passage.SetHand(s.mate)
}

// Refused is the first order of the mate that was refused, with the reason; nil
// if all were carried out. A sound mate is never refused.
func (s *Session) Refused() error {
	if s.mate == nil {
		return nil
	}
	return s.mate.Refused()
}

// Prior foretells the counts of a channel over ordinary ground, by the sonar's papers
// and the water.
func (s *Session) Prior(channel int) waterfall.Prior { return s.priors[channel] }

// Now is the time of the session, seconds since its start.
func (s *Session) Now() float64 { return s.Passage.Now() }

// Ticks is how many ticks have been stepped.
func (s *Session) Ticks() int64 { return s.Passage.Tick() }

// Done reports whether the exercise is over.
func (s *Session) Done() bool { return s.Passage.Done() }

// Ended says why the session is over: [order.ReasonFinished] for an exercise run
// to its end, another reason for a part of one; empty while it runs.
func (s *Session) Ended() string { return s.Passage.Ended() }

// Reading returns the instruments as they showed at the last tick.
func (s *Session) Reading() nav.Reading { return s.Passage.Reading() }

// Bridge returns the bridge as the crew sees it now. It is a copy: the session may go on.
func (s *Session) Bridge() passage.Bridge {
	b := s.Passage.Bridge()
	b.Lookout, b.RangeScale = s.Desk.Lookout(), s.Desk.Recorder.RangeScale
	return b
}

// Scene is the truth of the moment; see [passage.Scene] for who may see it.
func (s *Session) Scene() passage.Scene { return s.Passage.Scene() }

// Engine returns the sonar, for those who report what it was.
func (s *Session) Engine() *sonar.Engine { return s.sonar.engine }

// World returns the true sea floor, for the debrief and the instructor alone.
func (s *Session) World() *seabed.World { return s.world }

// Progress is the share of the plan done, 0..1.
func (s *Session) Progress() float64 {
	if s.Done() {
		return 1
	}
	if s.mate != nil {
		return s.mate.Progress(s.Passage)
	}
	return min(s.Now()/s.Exercise.Plan.TimeLimit, 1)
}

// Give carries out a command before the next tick.
func (s *Session) Give(c order.Command) error { return s.Passage.Give(c) }

// Refusal is why [Session.Give] would not carry out a command now, nil if it
// would. It changes nothing.
func (s *Session) Refusal(c order.Command) error { return s.Passage.Refusal(c) }

// Advance steps n ticks, or fewer if the exercise ends, and returns how many.
// However the ticks are grouped the outcome is the same.
func (s *Session) Advance(n int) int {
	stepped := 0
	for stepped < n && s.Passage.Step() {
		s.takeIn()
		stepped++
		if s.queue.full() {
			s.develop()
		}
	}
	s.develop()
	return stepped
}

// takeIn queues what the tick just stepped brought for the desk.
func (s *Session) takeIn() {
	p := s.Passage
	s.tellReading()
	if p.Tick()%ticksPerSecond == 0 {
		r, fix := p.Reading(), p.Fix()
		crab := math.Remainder(float64(r.GridHeading())-fix.Course, 2*math.Pi)
		s.queue.add(event{note: true, fix: fix, heading: r.Heading, crab: crab})
		s.lookOut()
	}
	s.wake.follow(p)
	s.queuePings()
	s.ail()
	p.TimeUp()
}

// Close ends the session where it is, for a reason: an open line is closed, as
// if the log had been switched off. It is no command and leaves none in the
// log. A session that is over stays as it ended, unless its log was cut off:
// what came after may be missing.
func (s *Session) Close(reason string) {
	defer s.develop() // an order that ended it may have left pings to be made
	if s.Done() {
		if reason == order.ReasonTruncated {
			s.Passage.End(reason)
		}
		return
	}
	if _, logging := s.Passage.Logging(); logging {
		ship{s.Passage, s}.CloseLine()
	}
	s.Passage.End(reason)
}
