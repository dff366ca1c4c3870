package crew

import (
	"math"
	"testing"
	"time"

	"dryline/sim/order"
)

// With the log off for twenty seconds of a line, what the crew says was passed and not seen is the way made
// meanwhile, by the pings on either side of it, times the ground that is nearest to the line: 160 - 47.5 to
// 207.5 m east, for its lines lie 95 m apart. It is there before the line is closed.
func TestGroundNotSeenWhileTheLogWasOff(t *testing.T) {
	c := man(session(t)).start(false)
	at := time.Now()
	c.SetNow(func() time.Time { at = at.Add(time.Second); return at }) // so that it is looked through each time
	to := func(tick int64) {
		for c.View().Tick < tick {
			c.Pass(0.1, time.Hour)
		}
	}
	to(500)
	c.Give(order.Command{Do: order.LogOn, Line: "A"})
	to(700)
	if u := c.View().Unseen; u == nil || u.Holidays != 0 {
		t.Errorf("on the way there is %+v, want nothing", u)
	}
	c.Give(order.Command{Do: order.LogOff})
	to(900)
	c.Give(order.Command{Do: order.LogOn, Line: "A"})
	to(1100)
	u := c.View().Unseen
	c.Give(order.Command{Do: order.LogOff})
	to(1101)
	last := c.View().Unseen
	lines := c.session.Desk.Lines
	if len(lines) != 2 || u == nil || last == nil {
		t.Fatalf("%d lines, %v, %v", len(lines), u, last)
	}
	before, after := &lines[0].Pings[len(lines[0].Pings)-1], &lines[1].Pings[0]
	want := 95 * math.Abs(after.Fix.Y-before.Fix.Y)
	for _, u := range []*Unseen{u, last} {
		if u.Holidays != 1 || math.Abs(u.SquareMetres-want) > 0.08*want {
			t.Errorf("%d holidays of %.0f m2, want one of %.0f", u.Holidays, u.SquareMetres, want)
		}
		rows := 0.0
		for _, r := range u.Rows[0] {
			rows += (r.East - r.West) * c.unseen.live.Cell()
		}
		if math.Abs(rows-u.SquareMetres) > 1 {
			t.Errorf("its rows are %.0f m2 of %.0f", rows, u.SquareMetres)
		}
	}
}
