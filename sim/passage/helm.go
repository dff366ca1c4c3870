package passage

import (
	"math"

	"dryline/sim/order"
	"dryline/vessel"
	"dryline/vessel/nav"
	"dryline/vessel/nav/geodesy"
)

// helm is who steers and what they were told last.
type helm struct {
	pilot vessel.Autopilot
	order order.Command
	speed float64 // wanted over ground, m/s
	track geodesy.Track
	round vessel.Round
}

// way is the rest of the turn being steered, a point every few metres.
func (h *helm) way() [][2]float64 {
	if h.order.Do != order.Turn {
		return nil
	}
	const stride = 4.0 // metres
	var points [][2]float64
	for along := h.round.Along; ; along += stride {
		p, _ := h.round.Path.At(min(along, h.round.Path.Length()))
		points = append(points, [2]float64{p.X, p.Y})
		if along >= h.round.Path.Length() {
			return points
		}
	}
}

// take gives the helm a steering order.
func (p *Passage) take(c order.Command) {
	h := &p.helm
	h.order = c
	switch c.Do {
	case order.SteerLine:
		track := p.trackOf(c)
		if track != h.track {
			h.pilot.Reset()
		}
		h.track = track
	case order.Turn:
		at := p.seen()
		h.round = vessel.Round{Path: vessel.PlanTurn(c.Pattern,
			vessel.Waypoint{X: at.X, Y: at.Y, Bearing: p.course()}, p.entry(c), p.ex.Plan.TurnRadius)}
	}
}

func (p *Passage) trackOf(c order.Command) geodesy.Track {
	line, _ := p.ex.Line(c.Line) // an order to steer along none is not sound
	return line.Track(c.Reversed)
}

// entry is where the run-in of a line begins: as far back as the fish trails,
// and the run-in more, so that it is straight when it comes to the line.
func (p *Passage) entry(c order.Command) vessel.Waypoint {
	track := p.trackOf(c)
	sin, cos := math.Sincos(track.Bearing())
	back := p.ex.Plan.RunIn + p.Fix().Layback
	return vessel.Waypoint{X: track.AX - back*sin, Y: track.AY - back*cos, Bearing: track.Bearing()}
}

// seen returns what the helm sees: instruments, and before any were read the berth.
// Without a fix she is carried on by course and speed, without a heading the
// course over ground stands in for it.
func (p *Passage) seen() vessel.Helm {
	if p.tick == 0 {
		h := &p.hull
		return vessel.Helm{X: h.X, Y: h.Y, Heading: h.Heading, SpeedOverGround: h.Surge}
	}
	r := &p.reading
	at := vessel.Helm{Heading: float64(r.GridHeading()), YawRate: r.RateOfTurn, SpeedOverGround: r.SpeedOverGround}
	at.X, at.Y = r.CarriedOn()
	if !r.Valid.Has(nav.Heading) {
		at.Heading = float64(r.GridCourse())
	}
	if !r.Valid.Has(nav.RateOfTurn) {
		at.YawRate = 0
	}
	return at
}

// course is the grid bearing she makes good, or her heading with no way on.
func (p *Passage) course() float64 {
	at := p.seen()
	if p.tick == 0 || at.SpeedOverGround < 0.3 {
		return at.Heading
	}
	return float64(p.reading.GridCourse())
}

// steer returns the orders to the rudder and the engine for a tick.
func (p *Passage) steer(dt float64) vessel.Orders {
	h, at := &p.helm, p.seen()
	k, t := p.hull.Nomoto()
	var orders vessel.Orders
	if !p.engineOut() {
		orders.Thrust = h.pilot.Engine(dt, h.speed, p.ex.Vessel.SpeedMax, at)
	}
	if h.order.Do == order.Turn {
		rudder, done := h.pilot.Around(&h.round, at, k, t)
		orders.Rudder = rudder
		if done { // and along the line
			p.take(order.Command{Do: order.SteerLine, Line: h.order.Line, Reversed: h.order.Reversed})
		}
	}
	switch h.order.Do {
	case order.SteerLine:
		orders.Rudder = h.pilot.Steer(dt, h.track, at, k, t)
	case order.SteerPoint:
		orders.Rudder = h.pilot.Hold(math.Atan2(h.order.X-at.X, h.order.Y-at.Y), at, k, t)
	case order.SteerHeading:
		orders.Rudder = h.pilot.Hold(h.order.Value, at, k, t)
	case order.Rudder:
		orders.Rudder = h.order.Value
	}
	return orders
}
