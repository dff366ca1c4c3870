package debrief

import (
	"math"

	"dryline/sim"
	"dryline/sim/survey"
)

// marks tells where on the true floor the echoes came from that contacts were
// marked on.
type marks struct {
	session *sim.Session
	pings   map[uint64]*sim.TruePing
}

func newMarks(s *sim.Session, lines []logged) *marks {
	m := &marks{s, map[uint64]*sim.TruePing{}}
	for i := range lines {
		for j, t := range lines[i].truth {
			if t != nil {
				m.pings[lines[i].Pings[j].Number] = t
			}
		}
	}
	return m
}

// place is where the echo at a contact's place on the record came from; ok is false
// for one that is on no logged ping.
func (m *marks) place(c *survey.Contact) (x, y float64, ok bool) {
	t := m.pings[c.Ping]
	if t == nil || !(c.Range > 0) {
		return 0, 0, false
	}
	turn := math.Pi / 2
	if c.Side == "port" {
		turn = -turn
	}
	stretch := m.session.Engine().SoundSpeed() / m.session.Exercise.Desk.SoundSpeed
	return trueGround(m.session, t, turn, stretch*math.Hypot(c.Range, c.Altitude))
}
