package vessel

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Whatever the headings, each word that can be laid ends where it should.
func TestPathsArrive(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		place := rapid.Float64Range(-300, 300)
		bearing := rapid.Float64Range(-math.Pi, math.Pi)
		from := Waypoint{place.Draw(t, "x"), place.Draw(t, "y"), bearing.Draw(t, "from")}
		to := Waypoint{place.Draw(t, "x2"), place.Draw(t, "y2"), bearing.Draw(t, "to")}
		radius := rapid.Float64Range(5, 120).Draw(t, "radius")
		for _, word := range words[Simple] {
			p, ok := lay(word, from, to, radius)
			if !ok {
				continue
			}
			end, _ := p.At(p.Length())
			off := math.Hypot(end.X-to.X, end.Y-to.Y)
			turn := math.Abs(math.Remainder(end.Bearing-to.Bearing, 2*math.Pi))
			if off > 1e-5*radius || turn > 1e-6 {
				t.Fatalf("%v ends %.3g m and %.3g rad off", word, off, turn)
			}
		}
		simple := PlanTurn(Simple, from, to, radius)
		for _, turn := range Turns() {
			if p := PlanTurn(turn, from, to, radius); p.Length() < simple.Length()-1e-9 {
				t.Fatalf("%s is %.3f m, shorter than the shortest, %.3f m", turn, p.Length(), simple.Length())
			}
		}
	})
}

// Lengths that plane geometry gives (exact mathematics; the bulb of a reversal
// on the spot is 7/3 pi R, three equal circles that touch).
func TestTurnLengths(t *testing.T) {
	const r = 40.0
	north, south := 0.0, math.Pi
	for _, test := range []struct {
		name string
		turn Turn
		to   Waypoint
		want float64
	}{
		{"straight on", Simple, Waypoint{0, 100, north}, 100},
		{"lines two radii apart", Simple, Waypoint{2 * r, 0, south}, math.Pi * r},
		{"lines three radii apart", Racetrack, Waypoint{3 * r, 0, south}, math.Pi*r + r},
		{"back on the same line", Teardrop, Waypoint{0, 0, south}, 7.0 / 3 * math.Pi * r},
		// The outer circles' centres are 3 r apart and the middle one touches both.
		{"lines one radius apart", Teardrop, Waypoint{r, 0, south}, (math.Pi + 4*math.Acos(0.75)) * r},
	} {
		p := PlanTurn(test.turn, Waypoint{0, 0, north}, test.to, r)
		if got := p.Length(); math.Abs(got-test.want) > 1e-6*r {
			t.Errorf("%s: got %.4f m, want %.4f", test.name, got, test.want)
		}
	}
}

// The autopilot keeps a vessel near the path she was told to turn on, and
// brings her out on its heading.
func TestPilotFollowsAPath(t *testing.T) {
	for _, turn := range Turns() {
		h := Hull{Spec: launch(), Surge: 2}
		h.Spec.RudderRate = 10 * deg
		p := PlanTurn(turn, Waypoint{0, 0, 0}, Waypoint{60, -20, math.Pi}, 40)
		var pilot Autopilot
		round := Round{Path: p}
		worst := 0.0
		for range 4000 {
			k, tt := h.Nomoto()
			rudder, done := pilot.Around(&round, Helm{X: h.X, Y: h.Y, Heading: h.Heading, YawRate: h.YawRate, SpeedOverGround: math.Hypot(h.VX, h.VY)}, k, tt)
			if done {
				break
			}
			h.Surge = 2
			h.Step(0.1, Orders{Rudder: rudder}, Weather{})
			at, _ := p.At(round.Along)
			worst = max(worst, math.Hypot(at.X-h.X, at.Y-h.Y))
		}
		if round.Along < p.Length()-1 {
			t.Fatalf("%s: she got %.0f m along %.0f", turn, round.Along, p.Length())
		}
		if off := math.Abs(math.Remainder(h.Heading-math.Pi, 2*math.Pi)); worst > 5 || off > 0.2 {
			t.Errorf("%s: %.1f m off the path at worst and %.2f rad off at its end", turn, worst, off)
		}
	}
}
