package scenarios

import (
	"bytes"
	_ "embed"
	"fmt"
	"math"
	"slices"
	"strings"
	"text/template"

	"dryline/seabed/chance"
)

// A Skill is what a set practice trains, and what makes it harder.
type Skill struct {
	Name   string // to ask for
	Says   string
	Trains []string // of a published standard, that it supports practice towards

	hardens []demand
	weights string // of the score, as an exercise file has them
	extra   string // of the score besides
}

// demand is a quantity of a set practice that grows with its difficulty.
type demand = string

const (
	slopeOf   demand = "slope"   // of the floor, percent
	reliefOf  demand = "relief"  // height of the relief, metres
	acrossOf  demand = "across"  // stream across the lines, knots
	windOf    demand = "wind"    // knots
	smallOf   demand = "small"   // factor on the size of what lies there
	buriedOf  demand = "buried"  // percent of its height
	clutterOf demand = "clutter" // cover of cobble, and natural pits
	ripplesOf demand = "ripples" // height, metres
	deskOf    demand = "desk"    // how wrong the desk's figures are, metres along the tow
	layerOf   demand = "layer"   // fall of temperature over the layer, degrees Celsius
	bubblesOf demand = "bubbles" // noise of breaking seas, dB
	troubleOf demand = "trouble" // how much goes wrong, events
	hasteOf   demand = "haste"   // speed of the plan, knots
	strictOf  demand = "strict"  // largest distance off line, metres
	narrowOf  demand = "narrow"  // how narrow the band of heights is, 0 to 1
)

// ends are a demand at the least and at the greatest difficulty: our own choice. What
// a skill is not about goes a quarter of that way.
var ends = map[demand][2]float64{
	slopeOf: {0.1, 2.8}, reliefOf: {0.2, 1.6}, acrossOf: {0, 1}, windOf: {2, 22}, smallOf: {1.7, 0.75}, buriedOf: {0, 45},
	clutterOf: {0, 0.32}, ripplesOf: {0.01, 0.1}, deskOf: {0, 20}, layerOf: {0, 9}, bubblesOf: {0, 16}, troubleOf: {0, 7.4},
	hasteOf: {3.4, 5.4}, strictOf: {9, 4}, narrowOf: {0, 1},
}

// Skills are the skills that practice can be set for.
func Skills() []Skill {
	return []Skill{
		{"height", "Hold the height of the fish over a floor that rises and falls.",
			[]string{"S-5A H4.2f: height above the bed", "S-5B E1.2d: deployment and operation of side scan sonar"},
			[]demand{slopeOf, reliefOf, narrowOf}, "coverage: 20, lines: 10, height: 45, contacts: 15, fish_clear: 10", ""},
		{"pings", "Put enough pings on what is small.",
			[]string{"S-5A H4.2f: speed against sonar parameters", "S-5A H2.3a: resolution"},
			[]demand{hasteOf, smallOf, acrossOf}, "coverage: 20, lines: 10, pings: 40, contacts: 30", "pings_per_metre: 4.5"},
		{"stream", "Keep the fish on its line in a stream across it, and in wind.",
			[]string{"S-5A H4.2f: line planning and running", "S-5B E1.2d: vessel and towed body"},
			[]demand{acrossOf, windOf, strictOf}, "coverage: 30, lines: 15, off_line: 40, contacts: 15", ""},
		{"position", "Find what the desk has wrong about where the fish is.",
			[]string{"S-5A H4.2f: layback and position of the towed body", "S-5B E1.2d: calibration"},
			[]demand{deskOf}, "coverage: 20, lines: 10, contacts: 20, position: 50", "contact_within_m: 5"},
		{"contacts", "Find what somebody left, and reject what nature did.",
			[]string{"S-5A H4.2g: backscatter and reflection; signatures", "S-5B E1.2d: interpret records for target, configuration, noise and distortion"},
			[]demand{smallOf, buriedOf, clutterOf, ripplesOf}, "coverage: 10, lines: 5, height: 5, contacts: 70, dimensions: 10", ""},
		{"record", "Keep a record worth reading in layered, noisy water.",
			[]string{"S-5A H2.3a: propagation, noise", "S-5B E1.2d: noise and distortion"},
			[]demand{layerOf, bubblesOf, windOf}, "coverage: 45, lines: 10, height: 10, contacts: 35", ""},
		{"faults", "See what goes wrong on the watch, and put it right.",
			[]string{"S-5B E1.2d: set up, deploy, operate", "S-5A H4.2f: monitoring of quality"},
			[]demand{troubleOf}, "coverage: 55, lines: 10, off_line: 5, height: 10, contacts: 20", ""},
	}
}

// Hardest is the greatest difficulty of a set practice; the least is 1.
const Hardest = 5.0

//go:embed practiceset.yaml.tmpl
var practiceText string

var practiceTemplate = template.Must(template.New("practice").Funcs(template.FuncMap{
	"f": func(digits int, v float64) string { return fmt.Sprintf("%.*f", digits, v) },
}).Parse(practiceText))

// groundMade holds what a set practice is made of.
type groundMade struct {
	Skill      Skill
	Difficulty float64
	Seed       uint64
	Place      string
	Base       string // sediment
	Depth      float64
	Slope      float64
	Uphill     int // grid bearing that the floor deepens to
	Bearing    float64
	Set        float64 // of the stream
	From       float64 // of the wind
	Patch      [4][2]float64
	Lines      [2][4]float64
	Area       [4][2]float64
	Cable      float64
	Wrong      [2]float64 // of the desk: antenna to tow, factor; added and taken off
	Events     []string
	V          map[demand]float64
	Score      string
	Weights    string
}

// SetPractice writes an exercise file: ground of its own by the seed, as hard as asked
// for in one skill. Difficulty goes from 1 to [Hardest]; the same skill, difficulty and
// seed give the same file.
func SetPractice(skill string, difficulty float64, seed uint64) (name string, file []byte, err error) {
	skills := Skills()
	at := slices.IndexFunc(skills, func(s Skill) bool { return s.Name == skill })
	if at < 0 {
		var all []string
		for _, s := range skills {
			all = append(all, s.Name)
		}
		return "", nil, fmt.Errorf("nothing to practise is called %s (want %s)", shorten(skill), strings.Join(all, ", "))
	}
	if !(difficulty >= 1 && difficulty <= Hardest) {
		return "", nil, fmt.Errorf("difficulty %g is out of range (want 1 to %g)", difficulty, Hardest)
	}
	g := layGround(skills[at], difficulty, seed)
	var out bytes.Buffer
	if err := practiceTemplate.Execute(&out, g); err != nil {
		return "", nil, err
	}
	return fmt.Sprintf("practice-%s-%s-%d", skill, strings.ReplaceAll(fmt.Sprintf("%g", difficulty), ".", "_"), seed), out.Bytes(), nil
}

// layGround draws everything by the seed, each thing from a stream of its own: the ground
// of one seed is the same at every difficulty but for what is harder.
func layGround(skill Skill, difficulty float64, seed uint64) *groundMade {
	draw := func(what string, low, high float64) float64 {
		return low + (high-low)*chance.Stream(seed, "practice/"+what).Float64()
	}
	pick := func(what string, of ...string) string { return of[chance.Stream(seed, "practice/"+what).IntN(len(of))] }
	g := &groundMade{
		Skill: skill, Difficulty: difficulty, Seed: seed, V: map[demand]float64{}, Weights: skill.weights, Score: skill.extra,
		Place:   pick("place", "the outer roads", "off the mill creek", "the long sand", "below the heads", "the north deep", "the wide reach"),
		Base:    pick("base", "fine_sand", "medium_sand", "silt"),
		Depth:   draw("depth", 16, 21),
		Bearing: draw("bearing", -22, 22),
	}
	hard := (difficulty - 1) / (Hardest - 1)
	for d, e := range ends {
		t := hard
		if !slices.Contains(skill.hardens, d) {
			t /= 4
		}
		// A tenth more or less, so that the difficulty does not tell the figures.
		t = min(max(t*draw(string(d), 0.9, 1.1), 0), 1)
		g.V[d] = e[0] + (e[1]-e[0])*t
	}
	if skill.Name != "faults" {
		g.V[troubleOf] = 0
	}
	if skill.Name != "position" {
		g.V[deskOf] = 0
	}
	g.lines(draw)
	along := math.Mod(g.Bearing+360, 360)
	g.Set = math.Mod(along+90+180*math.Round(draw("set", 0, 1)), 360)
	g.From = math.Floor(draw("wind from", 0, 360))
	g.Uphill = int(math.Mod(along+180*math.Round(draw("uphill", 0, 1)), 360))
	g.Slope = g.V[slopeOf]
	g.Depth += 390 * g.Slope / hundred // what it shoals by to the far side
	g.Cable = 1.45 * (g.Depth - 5)
	e := g.V[deskOf]
	g.Wrong = [2]float64{e * (0.5 + 0.2*draw("share", 0, 1)), e / 20 * 0.08}
	g.trouble(draw)
	return g
}

// lines lays two lines through the middle, side by side, and what belongs to them.
func (g *groundMade) lines(draw func(string, float64, float64) float64) {
	const x0, y0, apart, half = 300.0, 390.0, 95.0, 150.0
	sin, cos := math.Sincos(g.Bearing * math.Pi / 180)
	at := func(right, ahead float64) [2]float64 {
		return [2]float64{x0 + right*cos + ahead*sin, y0 - right*sin + ahead*cos}
	}
	for i, side := range []float64{-apart / 2, apart / 2} {
		a, b := at(side, -half), at(side, half)
		g.Lines[i] = [4]float64{a[0], a[1], b[0], b[1]}
	}
	edge := apart/2 + 50
	g.Area = [4][2]float64{at(-edge, -half+15), at(edge, -half+15), at(edge, half-15), at(-edge, half-15)}
	away := draw("patch", -70, 70)
	g.Patch = [4][2]float64{at(-edge, away-60), at(edge, away-70), at(edge, away+70), at(-edge, away+50)}
}

// What the template asks for besides.

// Larger is the greatest factor on the size of what lies there.
func (g *groundMade) Larger() float64 { return 1.3 * g.V[smallOf] }

// Pits are natural ones to the hectare.
func (g *groundMade) Pits() float64 { return 90 * g.V[clutterOf] }

// Warm is the temperature of the water over the layer.
func (g *groundMade) Warm() float64 { return 11.5 + g.V[layerOf] }

// Offset and Factor are what the desk is set to: the usual vessel's and the usual
// factor, wrong by what the difficulty makes of it.
func (g *groundMade) Offset() float64 { return 6.3 + g.Wrong[0] }

func (g *groundMade) Factor() float64 { return 0.97 - g.Wrong[1] }

// Lowest and Highest are the band of heights wanted, percent of the range scale.
func (g *groundMade) Lowest() float64  { return 8 + g.V[narrowOf] }
func (g *groundMade) Highest() float64 { return 18 - 7*g.V[narrowOf] }

// trouble draws what goes wrong, in an order by the seed, spread over both lines.
func (g *groundMade) trouble(draw func(string, float64, float64) float64) {
	kinds := []string{
		"{ kind: gnss_outage, %s, for_s: 45 }",
		"{ kind: dead_channel, %s, for_s: 60 }",
		"{ kind: altimeter_dropout, %s, for_s: 50 }",
		"{ kind: gnss_jump, %s, for_s: 50, jump_m: 30 }",
		"{ kind: sounder, %s, for_s: 45 }",
		"{ kind: dropped_pings, %s, for_s: 40, share_percent: 40 }",
		"{ kind: weak_channel, %s, for_s: 60, loss_db: 18 }",
		"{ kind: counter_slip, %s, for_s: 90, slip_percent: 20 }",
	}
	order := chance.Stream(g.Seed, "practice/events").Perm(len(kinds))
	n := int(g.V[troubleOf])
	for i := range n {
		line := []string{"P1", "P2"}[i%2]
		along := 20 + 220*(float64(i/2)+draw(fmt.Sprintf("event %d", i), 0, 0.6))/float64((n+1)/2)
		g.Events = append(g.Events, fmt.Sprintf(kinds[order[i]], fmt.Sprintf("on_line: %s, along_m: %.0f", line, along)))
	}
}
