package sim

import (
	"fmt"
	"math"
)

// Mishap names what went wrong.
type Mishap string

// The mishaps.
const (
	Grounded   Mishap = "grounded"    // the fish touched the floor
	Struck     Mishap = "struck"      // the fish hit an object
	Overloaded Mishap = "overloaded"  // the cable bore more than its working load
	Slipped    Mishap = "slipped"     // the brake of the winch let go
	Parted     Mishap = "cable_broke" // and the fish is lost: the exercise is over
)

// Happening is a mishap when it began.
type Happening struct {
	Time   float64 // seconds
	What   Mishap
	Object string  // what was struck, by its name in the exercise
	X, Y   float64 // of the fish, metres
	Value  float64 // speed of a grounding or strike, m/s; tension of the others, N
}

// String says it in a sentence.
func (h Happening) String() string {
	switch h.What {
	case Grounded:
		return fmt.Sprintf("the fish touched the floor at %.1f m/s", h.Value)
	case Struck:
		return fmt.Sprintf("the fish hit %s at %.1f m/s", h.Object, h.Value)
	case Overloaded:
		return fmt.Sprintf("the cable bore %.0f N, more than its working load", h.Value)
	case Slipped:
		return fmt.Sprintf("the brake let the cable go at %.0f N", h.Value)
	}
	return fmt.Sprintf("the cable parted at %.0f N and the fish is lost", h.Value)
}

const (
	fishRadius = 0.15 // metres, of the ball that stands for the fish
	knockedOut = 3.0  // seconds without pings after a knock: our own choice
	alarmRests = 10.0 // seconds before an alarm that has stopped sounds again
)

// trouble is what the fish touches and which alarms sound.
type trouble struct {
	deafUntil    float64
	touched      map[uint16]float64 // by number, as in seabed.World.Touch: until when touching it again is the same mishap
	overloadTill float64
	slipTill     float64
	slipped      float64 // metres of cable so far
}

// watchForTrouble notes the mishaps of the tick just stepped.
func (s *Session) watchForTrouble() {
	g, t, now := s.gear, &s.trouble, s.Now()
	note := func(what Mishap, object string, value float64) {
		if s.bare {
			return
		}
		s.Truth.Happenings = append(s.Truth.Happenings, Happening{now, what, object, g.X, g.Y, value})
	}
	object, touched := s.world.Touch(g.X, g.Y, s.weather.surface-g.Depth, fishRadius)
	if touched || g.Grounded {
		t.deafUntil = now + knockedOut
		// What it drags or bounces over is met once, whatever it touches in between.
		if now > t.touched[object] {
			speed := math.Hypot(g.VX, g.VY)
			if object == 0 {
				note(Grounded, "", speed)
			} else {
				note(Struck, s.nameOf(int(object)-1), speed)
			}
		}
		if t.touched == nil {
			t.touched = map[uint16]float64{}
		}
		t.touched[object] = now + alarmRests
	}

	cable := &s.Exercise.Tow.Cable
	if cable.WorkingLoad > 0 && g.Tension > cable.WorkingLoad {
		if now > t.overloadTill {
			note(Overloaded, "", g.Tension)
		}
		t.overloadTill = now + alarmRests
	}
	if g.Slipped > t.slipped {
		if now > t.slipTill {
			note(Slipped, "", g.Tension)
		}
		t.slipped, t.slipTill = g.Slipped, now+alarmRests
	}
	if cable.Breaking > 0 && g.Tension > cable.Breaking {
		note(Parted, "", g.Tension)
		s.Give(Command{Do: Finish}) // cannot fail: Finish needs nothing
	}
}

// nameOf is the name of an object or, numbered after them, of a pipeline.
func (s *Session) nameOf(index int) string {
	spec := &s.Exercise.Seabed
	if n := len(spec.Objects); index >= n {
		return spec.Pipelines[index-n].Name
	}
	return spec.Objects[index].Name
}
