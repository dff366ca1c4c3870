package sim

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"dryline/sim/survey"
	"dryline/vessel"
)

// Do names what a command tells the crew.
type Do string

// The commands.
const (
	SteerLine    Do = "steer_line"    // autopilot: along Line, Reversed or not
	SteerPoint   Do = "steer_point"   // autopilot: straight for (X, Y)
	SteerHeading Do = "steer_heading" // autopilot: hold the grid bearing Value, radians
	Turn         Do = "turn"          // autopilot: round by Pattern to the run-in of Line, then along it
	Rudder       Do = "rudder"        // by hand: Value, radians, starboard positive
	Speed        Do = "speed"         // over ground: Value, m/s
	Cable        Do = "cable"         // winch: to Value metres of cable out
	ZeroCounter  Do = "zero_counter"  // cable counter: show Value metres
	Factor       Do = "factor"        // desk: the catenary factor is Value
	SheaveHeight Do = "sheave_height" // desk: the sheave is Value metres above the water
	TowOffset    Do = "tow_offset"    // desk: the sheave is Value metres aft of the antenna
	TowSide      Do = "tow_side"      // desk: the sheave is Value metres to starboard of the antenna
	PositionBy   Do = "position_by"   // desk: place the fish by Method
	LogOn        Do = "log_on"        // open Line, Reversed or not
	LogOff       Do = "log_off"       // close it
	Range        Do = "range"         // sonar: to a range scale of Value metres; not while a line is logged
	Gain         Do = "gain"          // sonar: channel Text to Value dB about its nominal gain; not while a line is logged
	TVG          Do = "tvg"           // sonar: channel Text to Value log10(R) of time-varying gain, likewise
	TVGLoss      Do = "tvg_loss"      // sonar: channel Text to a time-varying gain for an absorption of Value dB/km, likewise
	Finish       Do = "finish"        // the exercise is over

	Mark          Do = "mark"           // a contact at (X, Y), seen in Ping if given
	Measure       Do = "measure"        // of contact Number, the length, width or shadow that Text says: from (X, Y) to (X2, Y2), in Ping if given
	NameContact   Do = "name_contact"   // contact Number is called Text
	ClassContact  Do = "class_contact"  // contact Number is of the class Text
	DeleteContact Do = "delete_contact" // contact Number is none
	UndoContact   Do = "undo_contact"   // take back the last of the above
	RedoContact   Do = "redo_contact"   // make again the last taken back
	Lookout       Do = "lookout"        // the desk marks contacts itself at the end of a line: Value 1, or 0 not
)

// Command is one order, given before the tick of that number is stepped.
type Command struct {
	Tick     int64  `json:"tick"`
	Do       Do     `json:"do"`
	Line     string `json:"line,omitempty"`
	Reversed bool   `json:"reversed,omitempty"`

	Pattern vessel.Turn     `json:"pattern,omitempty"`
	Method  survey.Position `json:"method,omitempty"`

	X     float64 `json:"x_m,omitempty"`
	Y     float64 `json:"y_m,omitempty"`
	Value float64 `json:"value,omitempty"`

	X2     float64 `json:"x2_m,omitempty"`
	Y2     float64 `json:"y2_m,omitempty"`
	Number int     `json:"number,omitempty"` // of a contact
	Text   string  `json:"text,omitempty"`
	Ping   uint64  `json:"ping,omitempty"`
}

// check reports what is wrong with a command, apart from its tick.
func (c Command) check(ex *Exercise) error {
	for _, v := range []float64{c.X, c.Y, c.X2, c.Y2, c.Value} {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return fmt.Errorf("%s: a number is not finite", c.Do)
		}
	}
	switch c.Do {
	case SteerLine, LogOn:
		if ex.lineIndex(c.Line) < 0 {
			return fmt.Errorf("%s: no line is called %q", c.Do, c.Line)
		}
	case Speed:
		return within(c, 0, 15)
	case Cable:
		return within(c, 0, ex.Tow.Cable.Length)
	case Rudder:
		return within(c, -math.Pi/2, math.Pi/2)
	case Turn:
		if ex.lineIndex(c.Line) < 0 {
			return fmt.Errorf("turn: no line is called %q", c.Line)
		}
		if !slices.Contains(vessel.Turns(), c.Pattern) {
			return fmt.Errorf("turn: %q is no way round (want one of %v)", c.Pattern, vessel.Turns())
		}
	case ZeroCounter:
		return within(c, -10, ex.Tow.Cable.Length)
	case Factor:
		return within(c, 0.3, 1)
	case SheaveHeight:
		return within(c, 0, 20)
	case TowOffset:
		return within(c, -200, 200)
	case TowSide:
		return within(c, -20, 20)
	case PositionBy:
		if !slices.Contains(survey.Positions(), c.Method) {
			return fmt.Errorf("position_by: %q is no method (want one of %v)", c.Method, survey.Positions())
		}
		if c.Method.NeedsBeacon() && !ex.Instruments.Beacon.Fitted {
			return fmt.Errorf("position_by: %s needs a beacon, and none is fitted", c.Method)
		}
	case Range:
		return c.checkRange(ex)
	case Gain, TVG, TVGLoss:
		return c.checkReceiver(ex)
	case Mark, Measure:
		return c.checkGround()
	case Lookout:
		if c.Value != 0 && c.Value != 1 {
			return fmt.Errorf("lookout: %g is neither 0 nor 1", c.Value)
		}
	case SteerPoint, SteerHeading, LogOff, Finish:
	case NameContact, ClassContact, DeleteContact, UndoContact, RedoContact:
	case "":
		return errors.New("a command without \"do\"")
	default:
		return fmt.Errorf("no command is called %q", c.Do)
	}
	return nil
}

// within refuses a value out of range, in the unit of its command.
func within(c Command, low, high float64) error {
	if c.Value < low || c.Value > high {
		return fmt.Errorf("%s: %g is out of range (want %.4g to %.4g)", c.Do, c.Value, low, high)
	}
	return nil
}

// lineIndex returns the index of the line of that name, or -1.
func (ex *Exercise) lineIndex(name string) int {
	for i := range ex.Lines {
		if ex.Lines[i].Name == name {
			return i
		}
	}
	return -1
}
