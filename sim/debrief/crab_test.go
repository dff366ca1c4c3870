package debrief

import (
	"math"
	"strings"
	"testing"

	"dryline/sim/mark"
	"dryline/sim/survey"
	"dryline/vessel/nav"
	"dryline/vessel/sea"
)

// In a cross current the fish swims askew to the course made good, and a swath laid
// square to the course has its far ends ahead on one side and astern on the other:
// by 2 g sin(a/2) at a ground range g for a crab angle a (geometry). Laid by the
// fish's compass the far ends are off by the compass's own error at most. The debrief
// names the cause.
func TestCrossCurrent(t *testing.T) {
	laid := func(by survey.SwathBy) Report {
		ex := oneLine(small(t))
		current, err := sea.NewProfile([]sea.Current{{Speed: 0.37, Set: math.Pi / 2}})
		if err != nil {
			t.Fatal(err)
		}
		ex.Sea.Current = current
		ex.Desk.Swath = by
		ex.Instruments.Compass = nav.CompassSpec{Errors: nav.Errors{Bias: 0.5 * math.Pi / 180}}
		return report(run(t, ex))
	}
	course, fish := laid(survey.SwathByCourse), laid(survey.SwathByFish)
	crab := math.Abs(course.Position.Askew.Mean)
	if want := math.Atan2(0.37, 2.1) * 180 / math.Pi; math.Abs(crab-want) > 1.5 {
		t.Errorf("the fish swims %.1f degrees askew, want about %.1f", crab, want)
	}
	height := course.Lines[0].Altitude.Mean / 100 * 50
	reach := survey.GroundReach(50, height)
	want := 2 * reach * math.Sin(crab/2*math.Pi/180)
	apart := math.Abs(course.Position.PortFull.Along.Mean - course.Position.StarboardFull.Along.Mean)
	if math.Abs(apart-2*want) > 0.1*2*want {
		t.Errorf("the far ends are %.1f m apart along the track, want %.1f", apart, 2*want)
	}
	if why := item(t, course, mark.Position).Why; !strings.Contains(why, "Crab") {
		t.Errorf("laid by the course: %q does not name the crab", why)
	}
	bias := reach * 0.5 * math.Pi / 180
	left := math.Abs(fish.Position.PortFull.Along.Mean-fish.Position.StarboardFull.Along.Mean) / 2
	if left > bias*1.1 {
		t.Errorf("laid by the compass the far ends are %.2f m off, want its own error of %.2f m at most", left, bias)
	}
	if why := item(t, fish, mark.Position).Why; strings.Contains(why, "Crab") {
		t.Errorf("laid by the compass: %q", why)
	}
}

// An object marked where it is on the record is found, though the desk lays the mark
// further off it than marks may lie.
func TestAMarkIsJudgedByItsPlaceOnTheRecord(t *testing.T) {
	ex := oneLine(small(t))
	current, err := sea.NewProfile([]sea.Current{{Speed: 0.6, Set: math.Pi / 2}})
	if err != nil {
		t.Fatal(err)
	}
	ex.Sea.Current = current
	ex.Seabed.Objects[0].At.X = 142
	ex.Score.ContactWithin = 8
	s := run(t, ex)
	for i := range s.Desk.Contacts { // somebody takes up what the lookout found
		s.Desk.Contacts[i].Class = "debris"
	}
	r := report(s)
	block := r.Targets[0]
	if block.Contact == nil || block.Distance == nil {
		t.Fatalf("the block 42 m off the line is not found: %+v, other marks %+v", block, r.FalseContacts)
	}
	if *block.Distance < 8 {
		t.Errorf("the mark is laid %.1f m off, want the crab to throw it further than 8 m", *block.Distance)
	}
}
