package order

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"dryline/sim/exercise"
	"dryline/sim/survey"
	"dryline/sonar/recorder"
)

// Row is one order of the table.
type Row struct {
	Do   Do
	Says string // what it tells the crew, with its fields and their units

	// Desk says that the desk has to have taken every ping sent so far first, so
	// that the outcome does not hang on how the ticks were grouped.
	Desk bool

	Later bool // it may be given when the exercise is over: work at the desk

	limits func(*exercise.Brief) (low, high float64) // of its value, nil where it has none
	check  func(*exercise.Brief, *Command) error
	refuse func(Ship, *Command) error // nil if it is never refused once it is sound
	effect func(Ship, *Command) error
}

// rowOf is a row whose payload is read from a command by read. Nil functions
// check and refuse nothing.
func rowOf[P any](do Do, says string, read func(*Command) P,
	check func(*exercise.Brief, P) error, refuse func(Ship, P) error, effect func(Ship, P) error) Row {
	r := Row{Do: do, Says: says, effect: func(s Ship, c *Command) error { return effect(s, read(c)) }}
	if check != nil {
		r.check = func(b *exercise.Brief, c *Command) error { return check(b, read(c)) }
	}
	if refuse != nil {
		r.refuse = func(s Ship, c *Command) error { return refuse(s, read(c)) }
	}
	return r
}

// atDesk has the desk take every ping first.
func (r Row) atDesk() Row {
	r.Desk = true
	return r
}

// between says what values it may have.
func (r Row) between(limits func(*exercise.Brief) (low, high float64)) Row {
	r.limits = limits
	return r
}

// Table has every order, in the order of the documentation.
var Table = slices.Concat(watchRows, deskRows)

// watchRows are the orders of the watch.
var watchRows = []Row{
	helm(SteerLine, "autopilot: along Line, Reversed or not", lineIsThere),
	helm(SteerPoint, "autopilot: straight for (X, Y), metres", nil),
	helm(SteerHeading, "autopilot: hold the grid bearing Value, radians", nil),
	helm(Turn, "autopilot: round by Pattern to the run-in of Line, then along it", turnIsOne),
	helm(Rudder, "by hand: Value, radians, starboard positive", func(_ *exercise.Brief, c *Command) error {
		return within(c.Value, -math.Pi/2, math.Pi/2)
	}),

	number(Speed, "over ground: Value, m/s", fixed(0, 15), Ship.SetSpeed),
	number(Cable, "winch: to Value metres of cable out", func(b *exercise.Brief) (float64, float64) { return 0, b.Tow.Cable.Length }, Ship.SetCable),
	number(ZeroCounter, "cable counter: show Value metres", func(b *exercise.Brief) (float64, float64) { return -10, b.Tow.Cable.Length }, Ship.ZeroCounter),

	setting(Factor, "desk: the catenary factor is Value", 0.3, 1, func(s *survey.Settings) *float64 { return &s.CatenaryFactor }),
	setting(SheaveHeight, "desk: the sheave is Value metres above the water", 0, 20, func(s *survey.Settings) *float64 { return &s.SheaveHeight }),
	setting(TowOffset, "desk: the sheave is Value metres aft of the antenna", -200, 200, func(s *survey.Settings) *float64 { return &s.AntennaToTow }),
	setting(TowSide, "desk: the sheave is Value metres to starboard of the antenna", -20, 20, func(s *survey.Settings) *float64 { return &s.TowToStarboard }),
	rowOf(PositionBy, "desk: place the fish by Method", method, methodIsOne, nil, placeBy),

	mobilised(SoundSpeed, "desk and sonar: sound goes at Value m/s", survey.KnobSoundSpeed, func(s *survey.Settings) *float64 { return &s.SoundSpeed }),
	mobilised(MosaicCell, "desk: the cells of the mosaic are Value metres", survey.KnobCell, func(s *survey.Settings) *float64 { return &s.MosaicCell }),
	rowOf(MosaicChannel, "desk: channel Text is painted; before the first tick", whole, paintedIsThere, refusePainted, paint),

	rowOf(LogOn, "open Line, Reversed or not", whole, lineIsThere, nil, openLine),
	rowOf(LogOff, "close it", whole, nil, nil, closeLine),

	rowOf(Range, "sonar: to a range scale of Value metres; not while a line is logged", value, rangeIsOne, Ship.RefuseRange, setRange).between(rangeLimits).atDesk(),
	receiver(Gain, "sonar: channel Text to Value dB about its nominal gain; not while a line is logged", -60, 60, func(r *recorder.Receiver) *float64 { return &r.Gain }),
	receiver(TVG, "sonar: channel Text to Value log10(R) of time-varying gain; not while a line is logged", 0, 60, func(r *recorder.Receiver) *float64 { return &r.TVGSpreading }),
	receiver(TVGLoss, "sonar: channel Text to a time-varying gain for an absorption of Value dB/km; not while a line is logged", 0, 1000, func(r *recorder.Receiver) *float64 { return &r.TVGAbsorption }),

	contact(Mark, "a contact at (X, Y), metres, seen in Ping if given", isNear, func(d *survey.Desk, c *Command, now float64) error {
		_, err := d.Mark(c.X, c.Y, c.Ping, now)
		return err
	}),
	contact(Measure, "of contact Number, the length, width or shadow that Text says: from (X, Y) to (X2, Y2), metres, in Ping if given, on a picture with pixels of Value metres if given", measuredOn, func(d *survey.Desk, c *Command, _ float64) error {
		return d.Measure(c.Number, survey.Extent(c.Text), c.X, c.Y, c.X2, c.Y2, c.Ping, c.Value)
	}),
	contact(NameContact, "contact Number is called Text", nil, func(d *survey.Desk, c *Command, _ float64) error { return d.Rename(c.Number, c.Text) }),
	contact(ClassContact, "contact Number is of the class Text", nil, func(d *survey.Desk, c *Command, _ float64) error {
		return d.Classify(c.Number, survey.Class(c.Text))
	}),
	contact(SightContact, "contact Number was seen at (X, Y), metres, in Ping, on another pass", isNear, func(d *survey.Desk, c *Command, _ float64) error {
		return d.Sight(c.Number, c.X, c.Y, c.Ping)
	}),
	contact(DescribeContact, "contact Number looks as Text says", textIsSound, func(d *survey.Desk, c *Command, _ float64) error { return d.Describe(c.Number, c.Text) }),
	contact(RateContact, "contact Number is of its class with a confidence of Value, 0 to 1", nil, func(d *survey.Desk, c *Command, _ float64) error { return d.Rate(c.Number, c.Value) }),
	contact(ContactAction, "what comes of contact Number, as Text says (none, investigate, re-run or dismiss), for Reason", reasonIsSound, func(d *survey.Desk, c *Command, _ float64) error {
		return d.Decide(c.Number, survey.Action(c.Text), c.Reason)
	}),
	contact(RemarkContact, "on contact Number there is Text to say", textIsSound, func(d *survey.Desk, c *Command, _ float64) error { return d.Remark(c.Number, c.Text) }),
	contact(DeleteContact, "contact Number is none", nil, func(d *survey.Desk, c *Command, _ float64) error { return d.Delete(c.Number) }),
	contact(UndoContact, "take back the last of the above", nil, func(d *survey.Desk, _ *Command, _ float64) error { return d.Undo() }),
	contact(RedoContact, "make again the last taken back", nil, func(d *survey.Desk, _ *Command, _ float64) error { return d.Redo() }),
	rowOf(Lookout, "the desk marks contacts itself at the end of a line: Value 1, or 0 not", value, zeroOrOne, nil, keepLookout).atDesk(),

	rowOf(Say, "the helmsman or the winch man: Text in plain words, read back and carried out a while later; belay drops it", spoken, saysSense, nil,
		func(s Ship, text string) error {
			s.Say(text)
			return nil
		}),
	rowOf(CallTraffic, "call the master of the vessel Text early, so that she keeps clear of the tow", spoken, nil, Ship.RefuseCall,
		func(s Ship, name string) error {
			s.Call(name)
			return nil
		}),
	rowOf(Rub, "a hand rubs the transducers of the fish on side Number, 1 port, 2 starboard, with the fish alongside",
		func(c *Command) exercise.Beam { return exercise.Beam(c.Number) }, beamIsOne,
		func(s Ship, _ exercise.Beam) error { return s.RefuseAlongside() },
		func(s Ship, side exercise.Beam) error {
			s.Rub(side)
			return nil
		}),
	rowOf(Mend, "see to the plugs and leads of the fish, alongside; it takes a minute and a half", whole, nil,
		func(s Ship, _ *Command) error { return s.RefuseAlongside() },
		func(s Ship, _ *Command) error {
			s.Mend()
			return nil
		}),
	rowOf(Event, "an instructor has the event Text happen, as large as Value in the engine's unit of its kind, for Value2 seconds or, if that is 0, to the end, on side Number: 1 port, 2 starboard, 0 either", event, eventIsOne, nil,
		func(s Ship, e exercise.Event) error {
			s.Happen(e)
			return nil
		}),

	rowOf(Finish, "the exercise is over", whole, nil, nil, finish),
}

// rows finds a row by its name.
var rows = func() map[Do]*Row {
	m := map[Do]*Row{}
	for i := range Table {
		m[Table[i].Do] = &Table[i]
	}
	return m
}()

// Check reports what is wrong with a command by itself, apart from its tick.
func (c *Command) Check(b *exercise.Brief) error {
	for _, v := range []float64{c.X, c.Y, c.X2, c.Y2, c.Value, c.Value2} {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return fmt.Errorf("%s: a number is not finite", c.Do)
		}
	}
	r := rows[c.Do]
	switch {
	case c.Do == "":
		return errors.New("a command without \"do\"")
	case r == nil:
		return fmt.Errorf("no command is called %q", c.Do)
	case r.check == nil:
		return nil
	}
	if err := r.check(b, c); err != nil {
		return fmt.Errorf("%s: %w", c.Do, err)
	}
	return nil
}

// Refuse says why a sound command would not be carried out now, nil if it would.
// It changes nothing.
func (c *Command) Refuse(s Ship) error {
	r := rows[c.Do]
	if r.refuse == nil {
		return nil
	}
	if r.Desk {
		s.Develop()
	}
	if err := r.refuse(s, c); err != nil {
		return fmt.Errorf("%s: %w", c.Do, err)
	}
	return nil
}

// CarryOut carries a sound command out, whole or, with an error, not at all.
func (c *Command) CarryOut(s Ship) error {
	if err := c.Refuse(s); err != nil {
		return err
	}
	r := rows[c.Do]
	if r.Desk {
		s.Develop()
	}
	if err := r.effect(s, c); err != nil {
		return fmt.Errorf("%s: %w", c.Do, err)
	}
	return nil
}
