package order_test

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"dryline/sim"
	"dryline/sim/exercise"
	"dryline/sim/order"
	"dryline/sim/simtest"
)

// helmed is the small exercise with a helmsman.
func helmed(t testing.TB, mishears float64) *exercise.Exercise {
	ex := simtest.Small(t)
	ex.Help.Helmsman, ex.Help.Mishears = true, mishears
	return ex
}

// Orders as the IMO phrases have them (Resolution A.918(22), from memory) and as people
// say them; what is read back says the same, spoken again.
func TestWhatIsUnderstood(t *testing.T) {
	b := helmed(t, 0).Brief()
	for text, want := range map[string]order.Spoken{
		"steer zero nine five":         {Phrase: order.SaySteer, Figure: 95},
		"Steer 095.":                   {Phrase: order.SaySteer, Figure: 95},
		"steer three five niner":       {Phrase: order.SaySteer, Figure: 359},
		"port ten":                     {Phrase: order.SayPort, Figure: 10},
		"starboard twenty five":        {Phrase: order.SayStarboard, Figure: 25},
		"starboard one five degrees":   {Phrase: order.SayStarboard, Figure: 15},
		"midships":                     {Phrase: order.SayMidships},
		"steady":                       {Phrase: order.SaySteady},
		"steady as she goes":           {Phrase: order.SaySteady},
		"come up to line l2":           {Phrase: order.SayComeUp, Line: "L2"},
		"come up to line L1 reversed":  {Phrase: order.SayComeUp, Line: "L1", Reversed: true},
		"slow to four knots":           {Phrase: order.SayMake, Figure: 4},
		"make four point five knots":   {Phrase: order.SayMake, Figure: 4.5},
		"slow to 3.5":                  {Phrase: order.SayMake, Figure: 3.5},
		"stop the engine":              {Phrase: order.SayStop},
		"haul in five":                 {Phrase: order.SayHaul, Figure: 5},
		"pay out one hundred metres":   {Phrase: order.SayPayOut, Figure: 100},
		"stop the winch":               {Phrase: order.SayAvast},
		"  belay   that ":              {Phrase: order.SayBelay},
		"pay out fifty-five metres":    {Phrase: order.SayPayOut, Figure: 55},
		"pay out twelve point five m.": {},
	} {
		got, err := order.Hear(b, text)
		if want.Phrase == "" {
			if err == nil {
				t.Errorf("%q is understood as %+v", text, got)
			}
			continue
		}
		if err != nil || got != want {
			t.Errorf("%q: got %+v, %v, want %+v", text, got, err, want)
		}
		if again, err := order.Hear(b, got.String()); err != nil || again != got {
			t.Errorf("%q is read back as %q, which is %+v, %v", text, got, again, err)
		}
	}
	for _, text := range []string{"", "fly", "steer", "steer ninety five", "steer four zero zero", "steer nine five", "port", "port ninety", "starboard forty", "come up to line Z",
		"slow to forty knots", "haul in", "haul in zero", "pay out nine hundred", "belay now", "midships please", strings.Repeat("steady ", 40), "make minus two", "haul in 1e9", "haul in ..."} {
		if got, err := order.Hear(b, text); err == nil {
			t.Errorf("%q is understood as %+v", text, got)
		} else if strings.Contains(err.Error(), "\n") {
			t.Errorf("%q: the error takes more than a line", text)
		}
	}
	for _, example := range order.Understood() {
		if _, err := order.Hear(b, strings.Replace(example, "line A", "line L1", 1)); err != nil {
			t.Errorf("the example %q: %v", example, err)
		}
	}
}

// What is misheard is another order that could have been given; what has nothing to
// mishear is heard right.
func TestWhatIsMisheard(t *testing.T) {
	b := helmed(t, 0).Brief()
	for _, text := range []string{"steer zero nine five", "steer one one one", "steer zero five zero", "port ten", "starboard five", "port thirty five", "come up to line L1", "make four knots", "make nine knots", "haul in fifteen", "pay out one hundred"} {
		said, err := order.Hear(b, text)
		if err != nil {
			t.Fatal(err)
		}
		for _, chance := range []float64{0, 0.4, 0.6, 0.999} {
			wrong := said.Misheard(b, chance)
			if again, err := order.Hear(b, wrong.String()); wrong == said || err != nil || again != wrong {
				t.Errorf("%q is taken for %q (%v)", text, wrong, err)
			}
		}
	}
	for _, text := range []string{"steady", "midships", "belay", "stop the winch"} {
		if said, _ := order.Hear(b, text); said.Misheard(b, 0.5) != said {
			t.Errorf("%q is misheard", text)
		}
	}
}

// FuzzWatchOrders gives whatever a file says while the watch goes on. What is asked
// whether it would be refused is answered as giving it comes to, and nothing makes a
// number that is not one.
func FuzzWatchOrders(f *testing.F) {
	for _, seed := range []string{
		`{"do":"say","text":"steer zero nine five"}` + "\n" + `{"do":"say","text":"belay"}`,
		`{"do":"say","text":"haul in fifteen metres"}` + "\n" + `{"do":"say","text":"come up to line L2 reversed"}`,
		`{"do":"event","text":"squall","value":20,"value2":5}` + "\n" + `{"do":"event","text":"dead_channel","number":1}`,
		`{"do":"event","text":"gnss_jump","value":40}` + "\n" + `{"do":"event","text":"winch_jam"}` + "\n" + `{"do":"cable","value":60}`,
		`{"do":"event","text":"counter_reset","value":-5}` + "\n" + `{"do":"event","text":"engine_failure","value2":1}`,
		`{"do":"call_traffic","text":"Ferry"}` + "\n" + `{"do":"event","text":"dropped_pings","value":1}` + "\n" + `{"do":"event","text":"sounder","value":150}`,
		`{"do":"event","text":"weak_channel","value":60,"number":2}` + "\n" + `{"do":"event","text":"swapped_channels","value2":0.1}`,
	} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		ex := helmed(tb{}, 0.5)
		ex.Snags = []exercise.Snag{{Name: "pot", X: 100, Y: 160, Line: 18, Breaks: 9000}}
		ex.Traffic = []exercise.Sail{{Name: "Ferry", X: 300, Y: 150, Course: 4.7, Speed: 4, Draught: 3}}
		s, err := sim.New(ex, 1)
		if err != nil {
			t.Fatal(err)
		}
		n := 0
		for line := range strings.Lines(string(data)) {
			var c order.Command
			if n++; n > 12 || json.Unmarshal([]byte(line), &c) != nil {
				break
			}
			says := s.Refusal(c)
			err := s.Give(c)
			if (says == nil) != (err == nil) || says != nil && says.Error() != err.Error() {
				t.Fatalf("%+v: asked %v, given %v", c, says, err)
			}
			if err != nil && strings.Contains(err.Error(), "\n") {
				t.Fatalf("%+v: the error takes more than a line: %q", c, err)
			}
			s.Advance(8)
		}
		s.Advance(80)
		sc := s.Scene()
		for _, v := range []float64{sc.X, sc.Y, sc.FishX, sc.FishY, sc.FishZ, sc.Tension, sc.WindX, s.Reading().CableOut, s.Reading().X} {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				t.Fatalf("%+v", sc)
			}
		}
	})
}
