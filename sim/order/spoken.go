package order

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"dryline/seabed/units"
	"dryline/sim/exercise"
)

// Phrase names what an order spoken to the helmsman or the winch man tells them.
type Phrase string

// The phrases, as they are read back. Wheel orders are those of the IMO Standard Marine
// Communication Phrases (Resolution A.918(22), A2/1, from memory): all are repeated
// back, and the figures of a course are spoken one by one.
const (
	SaySteer     Phrase = "steer"
	SayPort      Phrase = "port"
	SayStarboard Phrase = "starboard"
	SayMidships  Phrase = "midships"
	SaySteady    Phrase = "steady"
	SayComeUp    Phrase = "come up to line"
	SayMake      Phrase = "make"
	SayStop      Phrase = "stop the engine"
	SayHaul      Phrase = "haul in"
	SayPayOut    Phrase = "pay out"
	SayAvast     Phrase = "stop the winch"
	SayBelay     Phrase = "belay"
)

// takes says what follows a phrase.
type takes int

const (
	takesNothing takes = iota
	takesCourse        // degrees true
	takesWheel         // degrees of rudder
	takesKnots
	takesMetres
	takesLine
)

// phrases are the openings that are understood, those that begin like others first.
var phrases = []struct {
	opens string
	means Phrase
	takes takes
	shown string // in what is understood; empty for another way to say the same
}{
	{"steady as she goes", SaySteady, takesNothing, ""},
	{"steady", SaySteady, takesNothing, "steady"},
	{"steer course", SaySteer, takesCourse, ""},
	{"steer", SaySteer, takesCourse, "steer zero nine five"},
	{"port", SayPort, takesWheel, "port ten"},
	{"starboard", SayStarboard, takesWheel, "starboard ten"},
	{"midships", SayMidships, takesNothing, "midships"},
	{"come up to line", SayComeUp, takesLine, "come up to line A"},
	{"come to line", SayComeUp, takesLine, ""},
	{"slow to", SayMake, takesKnots, "slow to four knots"},
	{"speed up to", SayMake, takesKnots, ""},
	{"make", SayMake, takesKnots, "make four knots"},
	{"stop the engine", SayStop, takesNothing, "stop the engine"},
	{"stop engine", SayStop, takesNothing, ""},
	{"haul in", SayHaul, takesMetres, "haul in five"},
	{"pay out", SayPayOut, takesMetres, "pay out five"},
	{"stop the winch", SayAvast, takesNothing, "stop the winch"},
	{"stop winch", SayAvast, takesNothing, ""},
	{"belay that", SayBelay, takesNothing, ""},
	{"belay", SayBelay, takesNothing, "belay"},
}

// Spoken is an order in plain words, understood.
type Spoken struct {
	Phrase   Phrase
	Figure   float64 // degrees, knots or metres
	Line     string
	Reversed bool
}

// Understood are the orders that can be spoken, an example each.
func Understood() (examples []string) {
	for _, p := range phrases {
		if p.shown != "" {
			examples = append(examples, p.shown)
		}
	}
	return examples
}

func spoken(c *Command) string { return c.Text }

// saysSense refuses what nobody is there to hear, or is not understood.
func saysSense(b *exercise.Brief, text string) error {
	if !b.Help.Helmsman {
		return errors.New("there is no helmsman in this exercise")
	}
	_, err := Hear(b, text)
	return err
}

// Hear makes out an order in plain words; the error says what would be understood.
func Hear(b *exercise.Brief, text string) (Spoken, error) {
	const longest = 80
	if len(text) > longest {
		return Spoken{}, fmt.Errorf("it is too long to be heard (want at most %d characters)", longest)
	}
	words := strings.Fields(strings.ToLower(strings.Trim(strings.TrimSpace(text), ".!")))
	for _, p := range phrases {
		opens := strings.Fields(p.opens)
		if len(words) < len(opens) || !slices.Equal(words[:len(opens)], opens) {
			continue
		}
		s := Spoken{Phrase: p.means}
		err := s.hearRest(b, p.takes, words[len(opens):])
		return s, err
	}
	return Spoken{}, fmt.Errorf("%q is not understood (want such as: %s)", text, strings.Join(Understood(), ", "))
}

// hearRest makes out what follows a phrase.
func (s *Spoken) hearRest(b *exercise.Brief, t takes, rest []string) error {
	unit := func(of ...string) {
		if n := len(rest); n > 1 && slices.Contains(of, rest[n-1]) {
			rest = rest[:n-1]
		}
	}
	least, most := 0.0, 0.0
	switch t {
	case takesNothing:
		if len(rest) > 0 {
			return fmt.Errorf("after %q nothing is understood", s.Phrase)
		}
		return nil
	case takesLine:
		return s.hearLine(b, rest)
	case takesCourse:
		unit("degrees")
		if len(rest) == 3 || len(rest) == 1 && len(rest[0]) == 3 { // figures one by one
			most = 359
		} else {
			return errors.New("a course is three figures, such as steer zero nine five")
		}
	case takesWheel:
		unit("degrees")
		most = 35
	case takesKnots:
		unit("knots", "knot")
		most = math.Round(units.InKnots(b.Vessel.SpeedMax)*10) / 10
	case takesMetres:
		unit("metres", "metre")
		least, most = 1, b.Tow.Cable.Length
	}
	v, ok := figure(rest)
	if !ok {
		return fmt.Errorf("%q is no figure that is understood", strings.Join(rest, " "))
	}
	if t == takesCourse && v != math.Trunc(v) {
		return errors.New("a course is whole degrees")
	}
	s.Figure = v
	return within(v, least, most)
}

func (s *Spoken) hearLine(b *exercise.Brief, rest []string) error {
	if n := len(rest); n > 1 && rest[n-1] == "reversed" {
		s.Reversed, rest = true, rest[:n-1]
	}
	name := strings.Join(rest, " ")
	for _, l := range b.All() {
		if strings.EqualFold(strings.Join(strings.Fields(l.Name), " "), name) {
			s.Line = l.Name
			return nil
		}
	}
	return fmt.Errorf("no line is called %q", name)
}

// String is the order as it is read back.
func (s Spoken) String() string {
	switch s.Phrase {
	case SaySteer:
		return fmt.Sprintf("steer %s", oneByOne(fmt.Sprintf("%03.0f", s.Figure)))
	case SayPort, SayStarboard:
		return fmt.Sprintf("%s %s", s.Phrase, inWords(s.Figure))
	case SayMake:
		return fmt.Sprintf("make %s knots", inWords(s.Figure))
	case SayHaul, SayPayOut:
		return fmt.Sprintf("%s %s metres", s.Phrase, inWords(s.Figure))
	case SayComeUp:
		if s.Reversed {
			return fmt.Sprintf("%s %s reversed", s.Phrase, s.Line)
		}
		return fmt.Sprintf("%s %s", s.Phrase, s.Line)
	}
	return string(s.Phrase)
}

// Misheard returns what it may be taken for, by a number from 0 to 1; the same where there is
// nothing to take for something else. Five and nine sound alike, which is why the radio
// says niner; so do fifteen and fifty; figures of a course change places; and a line is
// taken for the next.
func (s Spoken) Misheard(b *exercise.Brief, chance float64) Spoken {
	was := s.Figure
	switch s.Phrase {
	case SaySteer:
		d := []byte(fmt.Sprintf("%03.0f", s.Figure))
		if chance < 0.5 && d[1] != d[2] {
			d[1], d[2] = d[2], d[1]
		} else {
			d = []byte(strings.NewReplacer("5", "9", "9", "5").Replace(string(d)))
		}
		if v, _ := figure([]string{string(d)}); v < 360 && v != was {
			s.Figure = v
		} else {
			s.Figure = math.Mod(was+100, 360)
		}
	case SayPort, SayStarboard:
		if chance < 0.5 {
			s.Phrase = map[Phrase]Phrase{SayPort: SayStarboard, SayStarboard: SayPort}[s.Phrase]
			break
		}
		s.Figure = likeIt(was, 35)
	case SayMake:
		s.Figure = likeIt(was, units.InKnots(b.Vessel.SpeedMax))
	case SayHaul, SayPayOut:
		s.Figure = likeIt(was, b.Tow.Cable.Length)
	case SayComeUp:
		all := b.All()
		i := slices.IndexFunc(all, func(l exercise.Line) bool { return l.Name == s.Line })
		s.Line = all[(i+1)%len(all)].Name
	}
	return s
}

// likeIt is a figure that sounds like another, at most so much.
func likeIt(v, most float64) float64 {
	like := v + 1
	switch n := math.Trunc(v); {
	case n == 5 || n == 9:
		like = v + (14 - 2*n)
	case n >= 13 && n <= 19:
		like = v + (n-10)*10 - n
	case n >= 30 && n <= 90 && math.Mod(n, 10) == 0:
		like = v + n/10 + 10 - n
	}
	if like > most {
		like = max(v-1, 0)
	}
	return like
}
