package sim

import (
	"errors"
	"fmt"
	"math"
	"slices"

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
	LogOn        Do = "log_on"        // open Line, Reversed or not
	LogOff       Do = "log_off"       // close it
	Finish       Do = "finish"        // the exercise is over
)

// Command is one order, given before the tick of that number is stepped.
type Command struct {
	Tick     int64  `json:"tick"`
	Do       Do     `json:"do"`
	Line     string `json:"line,omitempty"`
	Reversed bool   `json:"reversed,omitempty"`

	Pattern vessel.Turn `json:"pattern,omitempty"`

	X     float64 `json:"x_m,omitempty"`
	Y     float64 `json:"y_m,omitempty"`
	Value float64 `json:"value,omitempty"`
}

// check reports what is wrong with a command, apart from its tick.
func (c Command) check(ex *Exercise) error {
	for _, v := range []float64{c.X, c.Y, c.Value} {
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
		if c.Value < 0 || c.Value > 15 {
			return fmt.Errorf("speed: %g m/s is out of range (want 0 to 15)", c.Value)
		}
	case Cable:
		if c.Value < 0 || c.Value > ex.Tow.Cable.Length {
			return fmt.Errorf("cable: %g m is out of range (want 0 to %g)", c.Value, ex.Tow.Cable.Length)
		}
	case Rudder:
		if math.Abs(c.Value) > math.Pi/2 {
			return fmt.Errorf("rudder: %g rad is out of range (want -1.57 to 1.57)", c.Value)
		}
	case Turn:
		if ex.lineIndex(c.Line) < 0 {
			return fmt.Errorf("turn: no line is called %q", c.Line)
		}
		if !slices.Contains(vessel.Turns(), c.Pattern) {
			return fmt.Errorf("turn: %q is no way round (want one of %v)", c.Pattern, vessel.Turns())
		}
	case SteerPoint, SteerHeading, LogOff, Finish:
	case "":
		return errors.New("a command without \"do\"")
	default:
		return fmt.Errorf("no command is called %q", c.Do)
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
