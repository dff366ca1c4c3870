package plan

import (
	"errors"
	"math"
	"testing"
)

// cliff rises from one depth to another at an easting, over some metres.
type cliff struct{ deep, shoal, at, over float64 }

func (c cliff) DepthAt(x, _ float64) (float64, bool) {
	t := min(max((x-c.at)/c.over, 0), 1)
	return c.deep + t*(c.shoal-c.deep), true
}

// On flat ground the fish keeps its height all along. Where the floor rises by 14 m in 20 it cannot: at 2.06 m/s
// and 0.4 m of cable a second the winch hauls less than four metres of cable over the rise, and the fish rises by no more than
// that, so that it comes out no higher than 10 - 14 + 4 m over the floor. Below the rise and far beyond it nothing is at risk.
func TestPlacesAtRisk(t *testing.T) {
	s := plain(800, 300)
	s.Auto, s.Bearing = false, math.Pi/2
	p, err := Make(s)
	if err != nil {
		t.Fatal(err)
	}
	lines := 0
	for _, q := range p.Places {
		if !q.Turn {
			lines++
			if math.Abs(q.Height-s.Height) > 0.1 || q.Risk != NoRisk || math.Abs(q.Depth-q.Fish-q.Height) > 1e-9 {
				t.Fatalf("on flat ground %+v", q)
			}
		}
	}
	if want := p.LineLength / 8; math.Abs(float64(lines)-want) > float64(len(p.Lines)) {
		t.Errorf("%d places on %.0f m of lines, want about %.0f", lines, p.LineLength, want)
	}

	s = plain(800, 300)
	s.Auto, s.Bearing = false, math.Pi/2
	s.Ground = cliff{34, 20, 400, 20}
	if p, err = Make(s); err != nil {
		t.Fatal(err)
	}
	risky := 0
	for _, q := range p.Places {
		if q.Turn {
			continue
		}
		up := p.Lines[q.Line].B.X > p.Lines[q.Line].A.X // runs up the rise
		switch {
		case q.Risk != NoRisk:
			risky++
			if !up || q.At.X < 400 || q.Risk != Rising {
				t.Errorf("at risk: %+v, running up %v", q, up)
			}
		case up && q.At.X > 418 && q.At.X < 427:
			t.Errorf("on top of the rise nothing is at risk: %+v", q)
		}
		if up && math.Abs(q.At.X-422) < 5 && q.Height > 0.5 {
			t.Errorf("the fish is %.1f m over the top of the rise, want none", q.Height)
		}
	}
	if risky == 0 {
		t.Error("nothing is at risk")
	}
}

// In turns the places are those the check of sinking has: none is lower than the least.
func TestPlacesInTurns(t *testing.T) {
	s := plain(600, 500)
	s.TurnRadius = 30
	p, err := Make(s)
	if err != nil {
		t.Fatal(err)
	}
	least := math.Inf(1)
	for _, q := range p.Places {
		if q.Turn {
			least = min(least, q.Height)
			if (q.Height < 0.5*s.Height) != (q.Risk == Sinking) {
				t.Errorf("%+v", q)
			}
		}
	}
	if math.IsInf(least, 1) || least < p.TurnLow-1e-9 || p.TurnLow < 0.5*s.Height && math.Abs(least-p.TurnLow) > 1e-9 {
		t.Errorf("least height in turns %.3f m, by the check %.3f", least, p.TurnLow)
	}
}

// Work that is called off ends with why, soon.
func TestPlanIsCalledOff(t *testing.T) {
	off, n := errors.New("off"), 0
	s := plain(800, 400)
	s.Step = func() error {
		if n++; n > 5 {
			return off
		}
		return nil
	}
	if _, err := Make(s); !errors.Is(err, off) || n > 7 {
		t.Errorf("after %d pieces: %v", n, err)
	}
}

// The order asked for is the order run: neighbours one after the other, or two rows apart.
func TestOrderAskedFor(t *testing.T) {
	for _, apart := range []int{1, 2} {
		s := plain(600, 1200)
		s.Auto, s.Bearing, s.Apart = false, math.Pi/2, apart
		p, err := Make(s)
		if err != nil {
			t.Fatal(err)
		}
		for i := 1; i < len(p.Lines); i++ {
			d := math.Abs(p.Lines[i].A.Y-p.Lines[i-1].A.Y) / p.Spacing
			if p.Pattern != apart || apart == 1 && math.Abs(d-1) > 1e-6 || d < 0.9 {
				t.Errorf("%d apart: pattern %d, line %d lies %.1f rows from the one before", apart, p.Pattern, i, d)
			}
		}
	}
}
