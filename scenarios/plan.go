package scenarios

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"dryline/sim"
	"dryline/sim/exercise"
	"dryline/vessel"
	"dryline/vessel/tow"
)

type planSection struct {
	Order        []string `key:"order" items:"1,512" runes:"21" absent:"the lines in turn, every other one reversed" doc:"Lines in the order they are run; -L2 is line L2 reversed."`
	Speed        float64  `key:"speed_kn" unit:"kn" min:"0.5" max:"15" default:"4" doc:"Speed over ground."`
	CableOut     float64  `key:"cable_out_m" required:"true" unit:"m" min:"0.5" max:"3000" doc:"Cable out at the start."`
	RunIn        float64  `key:"run_in_m" unit:"m" min:"0" max:"2000" default:"100" doc:"Straight run before the start of a line."`
	RunOut       float64  `key:"run_out_m" unit:"m" min:"0" max:"2000" default:"20" doc:"Straight run beyond the end of a line, besides the layback."`
	Lookahead    float64  `key:"lookahead_m" unit:"m" min:"1" max:"500" absent:"twice the vessel's length" doc:"How far ahead on the line the autopilot aims."`
	Turn         string   `key:"turn" enum:"turn" default:"simple" doc:"How to come round from line to line: simple is the shortest way, teardrop swings out first and suits close lines, racetrack bends the same way twice and suits lines further apart."`
	TurnRadius   float64  `key:"turn_radius_m" unit:"m" min:"3" max:"1000" absent:"twice the tightest circle of the vessel" doc:"Radius of the turns."`
	TurnHaul     float64  `key:"turn_haul_percent" unit:"%" min:"0" max:"90" default:"0" doc:"Share of the cable hauled in before a turn, in which the fish sinks; it is paid out again when the vessel is on the next line."`
	Altitude     float64  `key:"altitude_m" unit:"m" min:"0" max:"200" default:"0" doc:"Height of the fish over the floor held by winch; 0 leaves the cable alone."`
	AltitudeBand float64  `key:"altitude_band_m" unit:"m" min:"0.1" max:"50" default:"1" doc:"How far off that height the fish may be before the winch moves."`
	TimeLimit    float64  `key:"time_limit_min" unit:"min" min:"1" max:"600" default:"120" doc:"When the exercise ends, whatever is left."`
}

func (p planSection) plan(c *checker, gear tow.Spec) exercise.Plan {
	plan := exercise.Plan{
		Order: p.runs(c), Speed: knots(p.Speed), CableOut: p.CableOut, RunIn: p.RunIn, RunOut: p.RunOut,
		Lookahead: p.Lookahead, Turn: vessel.Turn(p.Turn), TurnRadius: p.TurnRadius, TurnHaul: p.TurnHaul / 100, Altitude: p.Altitude, AltitudeBand: p.AltitudeBand, TimeLimit: p.TimeLimit * minute,
	}
	if plan.Lookahead == 0 {
		plan.Lookahead = 2 * c.file.Vessel.Length
	}
	if v := c.file.Vessel; plan.TurnRadius == 0 && c.sound("vessel") {
		plan.TurnRadius = 2 * v.Length / (v.TurningIndex * v.RudderMax * degree)
	}
	p.checkSpeed(c)
	p.checkRoom(c, plan.Order)
	p.checkTime(c, plan)
	p.checkCable(c, gear)
	p.checkAltitude(c)
	return plan
}

// runs finds the lines named in the order.
func (p planSection) runs(c *checker) []exercise.Run {
	var runs []exercise.Run
	if len(p.Order) == 0 {
		for i := range c.file.Lines {
			runs = append(runs, exercise.Run{Line: i, Reversed: i%2 == 1})
		}
		return runs
	}
	names := make([]string, len(c.file.Lines))
	for i, l := range c.file.Lines {
		names[i] = l.Name
	}
	for i, written := range p.Order {
		path := fmt.Sprintf("plan.order[%d]", i)
		if !c.sound(path, "lines") {
			continue
		}
		name, reversed := strings.CutPrefix(written, "-")
		line := slices.Index(names, name)
		if line < 0 {
			want := "the name of a line, or - and the name to run it reversed"
			if near := nearest(name, names); near != "" {
				want = near
			}
			c.fault(path, shorten(written), "names no line", want)
			continue
		}
		runs = append(runs, exercise.Run{Line: line, Reversed: reversed})
	}
	return runs
}

func (p planSection) checkSpeed(c *checker) {
	v := c.file.Vessel
	if c.sound("plan.speed_kn", "vessel.speed_max_kn") && p.Speed > v.SpeedMax {
		c.fault("plan.speed_kn", c.number(p.Speed), "is more than the vessel makes", "at most "+c.number(v.SpeedMax)+" kn")
	}
	if c.sound("sea.current_kn", "vessel.speed_max_kn") && c.file.Sea.Current >= v.SpeedMax {
		c.fault("sea.current_kn", c.number(c.file.Sea.Current), "carries the vessel away", "less than "+c.number(v.SpeedMax)+" kn")
	}
}

// checkRoom refuses runs whose straight parts leave the world; the fish must
// clear the end of the line, so that the cable counts as well.
func (p planSection) checkRoom(c *checker, order []exercise.Run) {
	if !c.sound("lines", "seabed.east_m", "seabed.north_m", "plan.run_in_m", "plan.run_out_m", "plan.cable_out_m") {
		return
	}
	s := c.file.Seabed
	outside := func(q [2]float64) bool { return q[0] < 0 || q[0] > s.East || q[1] < 0 || q[1] > s.North }
	in, out := false, false
	for _, run := range order {
		l := c.file.Lines[run.Line]
		if run.Reversed {
			l.From, l.To = l.To, l.From
		}
		if after := p.RunOut + p.CableOut; !out && outside(l.beyond(0, after)) {
			out = true
			c.fault("plan.run_out_m", c.number(p.RunOut), fmt.Sprintf("and the cable take the vessel out of the world after line %s", l.Name), "room beyond the lines")
		}
		if !in && outside(l.beyond(p.RunIn, 0)) {
			in = true
			c.fault("plan.run_in_m", c.number(p.RunIn), fmt.Sprintf("begins outside the world before line %s", l.Name), "room before the lines")
		}
	}
}

// checkTime refuses limits that do not even let the lines themselves be run.
func (p planSection) checkTime(c *checker, plan exercise.Plan) {
	if !c.sound("lines", "plan.order", "plan.speed_kn", "plan.time_limit_min") {
		return
	}
	length := 0.0
	for _, run := range plan.Order {
		length += c.file.Lines[run.Line].length()
	}
	if least := length / plan.Speed; least > plan.TimeLimit {
		c.fault("plan.time_limit_min", c.number(p.TimeLimit), "is too short for the lines alone", "more than "+c.number(math.Ceil(least/minute))+" min")
	}
}

// checkMemory refuses exercises that might take more memory than an exercise may:
// of all that goes into it, the time is what an author can best do with less of.
func (p planSection) checkMemory(c *checker, e *exercise.Exercise) {
	const path = "plan.time_limit_min"
	if !c.sound(path, "seabed", "sonar", "desk") {
		return
	}
	takes := sim.MemoryOf(e, e.Sonar.RangeScale)
	if all := takes.Over(e.Plan.TimeLimit); all > sim.MostMemory {
		c.fault(path, c.number(p.TimeLimit), fmt.Sprintf("may take %.1f GB of memory at this range scale, with so many channels and this mosaic", all/1e9),
			fmt.Sprintf("at most %s min for %g GB", c.number(math.Floor((sim.MostMemory-takes.Fixed)/takes.PerSecond/minute)), sim.MostMemory/1e9))
	}
}

// checkCable refuses cable that is not there, and a fish that would run aground
// wherever it went.
func (p planSection) checkCable(c *checker, gear tow.Spec) {
	const path = "plan.cable_out_m"
	if !c.sound(path, "tow.cable.length_m", "tow.winch.shortest_m") {
		return
	}
	switch {
	case p.CableOut > gear.Cable.Length:
		c.fault(path, c.number(p.CableOut), "is more than all the cable", "at most "+c.number(gear.Cable.Length)+" m")
		return
	case p.CableOut < gear.Winch.Min:
		c.fault(path, c.number(p.CableOut), "is less than the winch allows", "at least "+c.number(gear.Winch.Min)+" m")
		return
	}
	if !c.sound("tow", "vessel.sheave", "plan.speed_kn", "seabed") {
		return
	}
	steady := gear.Steady(knots(p.Speed), p.CableOut, c.file.Vessel.Sheave.Up)
	if floor := c.deepest(); steady.Depth >= floor {
		c.fault(path, c.number(p.CableOut), fmt.Sprintf("puts the fish %s m deep at this speed", c.number(math.Round(steady.Depth*10)/10)),
			"a fish clear of the floor, nowhere deeper than "+c.number(math.Round(floor*10)/10)+" m")
	}
}

func (p planSection) checkAltitude(c *checker) {
	if depth := c.file.Seabed.Depth; c.sound("plan.altitude_m", "seabed.depth_m") && p.Altitude >= depth {
		c.fault("plan.altitude_m", c.number(p.Altitude), "is more than the water is deep", "less than "+c.number(depth)+" m")
	}
}
