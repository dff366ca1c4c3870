package sonar

import "math"

// fan is the set of rays across the main lobe of the widest channel.
type fan struct {
	spacing float64 // radians
}

// lobeShare is how far the fan reaches on each side of the axis, in two-way
// half-power widths of the widest channel: out to about -12 dB two-way.
const lobeShare = 1.0

func (e *Engine) newFan() fan {
	widest := 0.0
	for _, t := range e.channels {
		widest = max(widest, t.array.TwoWayHalfPowerWidth(t.wavelength))
	}
	return fan{spacing: 2 * lobeShare * widest / float64(e.spec.Rays)}
}

// weigh sets the angles of the rays (ahead of the axis positive) and each
// channel's weight on them. The fan is shifted by a share of its spacing,
// drawn anew for every ping, so that the rays of many pings sample the lobe
// evenly. The weights of a channel add up to its equivalent rectangular
// two-way width: a uniform floor then returns exactly what the sonar equation
// says.
func (f *fan) weigh(ws *Workspace, channels []*tuned, shift float64) {
	rays := len(ws.angles)
	for m := range rays {
		ws.angles[m] = (float64(m) - float64(rays-1)/2 + shift) * f.spacing
	}
	for c, t := range channels {
		sum, peak := 0.0, 0.0
		for m, a := range ws.angles {
			w := t.array.TwoWay(a, t.wavelength)
			ws.lanes[c].weights[m] = w
			sum += w
			peak = max(peak, w)
		}
		for m := range rays {
			ws.inLobe[m] = ws.inLobe[m] && c > 0 || ws.lanes[c].weights[m] >= 0.5*peak
			ws.lanes[c].weights[m] *= t.width / sum
		}
	}
}

// bearingAcross is the bearing from the fish of a ray that lies angle ahead of
// the beam axis on a side.
func bearingAcross(heading, angle float64, side Side) float64 {
	if side == Port {
		return heading - math.Pi/2 + angle
	}
	return heading + math.Pi/2 - angle
}
