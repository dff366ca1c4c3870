package passage

import (
	"fmt"
	"math"

	"dryline/seabed/chance"
	"dryline/sim/exercise"
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
	Snagged    Kind = "snagged"     // the tow caught a line from the floor to the surface
	ComeFree   Kind = "come_free"   // of it, slack
	TornFree   Kind = "torn_free"   // of it, by force
	Damaged    Kind = "fish_damaged"
	// Another vessel came too near.
	CloseQuarters Kind = "close_quarters"
	Ruined        Kind = "fish_ruined" // it sends nothing any more
)

// Mishap is something that went wrong, when it began.
type Mishap struct {
	Time   float64 // seconds
	What   Kind
	Object string  // what was struck or fouled, or who cut the cable, by its name in the exercise
	X, Y   float64 // of the fish, metres
	Value  float64 // speed of a grounding or strike, m/s; damage, 0 to 1; distance of another vessel, metres; tension of the others, N
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
	case Snagged:
		return fmt.Sprintf("the tow fouled the line of %s", h.Object)
	case ComeFree:
		return fmt.Sprintf("the tow came free of the line of %s", h.Object)
	case TornFree:
		return fmt.Sprintf("the tow was torn free of the line of %s at %.0f N", h.Object, h.Value)
	case CloseQuarters:
		return fmt.Sprintf("%s came within %.0f m", h.Object, h.Value)
	case Damaged:
		return "the fish is damaged: pings are lost"
	case Ruined:
		return "the fish is ruined and sends nothing any more"
	}
	if h.Object != "" {
		return fmt.Sprintf("%s cut the cable and the fish is lost", h.Object)
	}
	return fmt.Sprintf("the cable parted at %.0f N and the fish is lost", h.Value)
}

const (
	fishRadius = 0.15 // metres, of the ball that stands for the fish
	knockedOut = 3.0  // seconds without pings after a knock: our own choice
	alarmRests = 10.0 // seconds before an alarm that has stopped sounds again
	damaged    = 0.1  // of what ruins it, from where on a fish loses pings: our own choice
)

// trouble remembers what the fish touches and which alarms sound.
type trouble struct {
	deafUntil    float64
	touched      map[uint16]float64 // by number, as in seabed.World.Touch: until when touching it again is the same mishap
	overloadTill float64
	slipTill     float64
	slipped      float64 // metres of cable so far
	aground      float64 // seconds it has touched the floor or an object, or was held by a line
	damage       float64 // of the fish, 0 to 1
	fouled       *fouling
	passed       []*exercise.Snag // that fouled the tow and do so no more
}

// note notes a mishap that begins.
func (p *Passage) note(what Kind, object string, value float64) {
	m := Mishap{p.Now(), what, object, p.gear.X, p.gear.Y, value}
	p.mishaps = append(p.mishaps, m)
	if p.missed != nil {
		p.missed(m)
	}
}

// watchForTrouble notes the mishaps of the tick just stepped.
func (p *Passage) watchForTrouble() {
	g, t, now := p.gear, &p.trouble, p.Now()
	note := p.note
	p.foul()
	object, touched := p.floor.Touch(g.X, g.Y, p.weather.surface-g.Depth, fishRadius)
	if touched || g.Grounded {
		t.aground += Tick
		t.deafUntil = now + knockedOut
		p.harm(math.Hypot(g.VX, g.VY) * Tick / dragsFor)
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

// Mute reports whether a damaged fish loses the ping of a number: the share of its
// damage, each by itself.
func (p *Passage) Mute(ping uint64) bool {
	if p.trouble.damage < damaged {
		return false
	}
	draw := chance.Mix(chance.Seed(p.events.seed, "fish/damage") ^ chance.Mix(ping))
	return p.trouble.damage >= 1 || float64(draw>>11)/(1<<53) < p.trouble.damage
}

// Damage is that of the fish, 0 to 1 for one that is ruined.
func (p *Passage) Damage() float64 { return p.trouble.damage }

// nameOf is the name of an object or, numbered after them, of a pipeline.
func (p *Passage) nameOf(index int) string {
	spec := &p.ex.Seabed
	if n := len(spec.Objects); index >= n {
		return spec.Pipelines[index-n].Name
	}
	return spec.Objects[index].Name
}
