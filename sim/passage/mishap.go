package passage

import (
	"fmt"
	"math"

	"dryline/sim/order"
)

// Kind names what went wrong.
type Kind string

// The kinds of mishaps.
const (
	Grounded   Kind = "grounded"    // the fish touched the floor
	Struck     Kind = "struck"      // the fish hit an object
	Overloaded Kind = "overloaded"  // the cable bore more than its working load
	Slipped    Kind = "slipped"     // the brake of the winch let go
	Parted     Kind = "cable_broke" // and the fish is lost: the exercise is over
)

// Mishap is something that went wrong, when it began.
type Mishap struct {
	Time   float64 // seconds
	What   Kind
	Object string  // what was struck, by its name in the exercise
	X, Y   float64 // of the fish, metres
	Value  float64 // speed of a grounding or strike, m/s; tension of the others, N
}

// String says it in a sentence.
func (h Mishap) String() string {
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
	aground      float64 // seconds it has touched the floor or an object
}

// watchForTrouble notes the mishaps of the tick just stepped.
func (p *Passage) watchForTrouble() {
	g, t, now := p.gear, &p.trouble, p.Now()
	note := func(what Kind, object string, value float64) {
		m := Mishap{now, what, object, g.X, g.Y, value}
		p.mishaps = append(p.mishaps, m)
		if p.missed != nil {
			p.missed(m)
		}
	}
	object, touched := p.floor.Touch(g.X, g.Y, p.weather.surface-g.Depth, fishRadius)
	if touched || g.Grounded {
		t.aground += Tick
		t.deafUntil = now + knockedOut
		// What it drags or bounces over is met once, whatever it touches in between.
		if now > t.touched[object] {
			speed := math.Hypot(g.VX, g.VY)
			if object == 0 {
				note(Grounded, "", speed)
			} else {
				note(Struck, p.nameOf(int(object)-1), speed)
			}
		}
		if t.touched == nil {
			t.touched = map[uint16]float64{}
		}
		t.touched[object] = now + alarmRests
	}

	cable := &p.ex.Tow.Cable
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
		p.Give(order.Command{Do: order.Finish}) // cannot fail: Finish needs nothing
	}
}

// Aground is how long the fish has touched the floor or objects, seconds in all.
func (p *Passage) Aground() float64 { return p.trouble.aground }

// nameOf is the name of an object or, numbered after them, of a pipeline.
func (p *Passage) nameOf(index int) string {
	spec := &p.ex.Seabed
	if n := len(spec.Objects); index >= n {
		return spec.Pipelines[index-n].Name
	}
	return spec.Objects[index].Name
}
