package survey

import "math"

// Sized is a length with one standard deviation, metres.
type Sized struct {
	Metres, Sigma float64
	Known         bool
}

// Dimensions are the sizes of a contact; those nobody and nothing measured are not
// known.
type Dimensions struct{ Length, Width, Shadow, Height Sized }

// edges is how many resolution cells the edge of an echo is told to (our own choice).
const edges = 2.0

// What the lookout's own sizes are good for beside a hand's: it tells an edge to a cell
// and a half, and a box that lies askew has two faces lit, of which its length may be
// either or both. As found over boxes of known size at all headings and ranges
// (TestSizesAgainstTheTruth in sim/debrief).
const (
	lookoutEdge  = 0.3  // metres
	lookoutFaces = 0.08 // of the length
)

// Dimensions are the sizes of a contact with their uncertainty.
//
// The end of a measure is told to two resolution cells, evenly, which is their width
// over sqrt(12): along the track a cell is the beam's width there or the way between
// pings, whichever is more; across it a sample on the ground. A hand puts it on a picture
// besides, to a pixel either way: its size over sqrt(3). A length has two ends;
// what was taken on a line goes by the ping it was taken on. A height follows from
// H = h S/T with the fish h up, the shadow S long and its tip T off,
//
//	sigma_H^2 = (S/T sigma_h)^2 + (h (T-S)/T^2)^2 sigma_near^2 + ... ~ (S/T sigma_h)^2 + (h/T sigma_S)^2
//
// (first-order propagation; the second term is a little too large), sigma_h a hundredth
// of h beside a sample. Of n passes it is the mean: sigma over sqrt(n), and no less than
// the passes' own scatter tells. A floor that slopes is in none of that but the scatter.
func (d *Desk) Dimensions(c *Contact) Dimensions {
	var out Dimensions
	var p *PingRecord
	var line *LineRecord
	if at := d.FirstPing(c); at != nil {
		line, p = d.logged(at.Number)
	}
	set := func(s *Sized, what Extent, metres float64) {
		if metres <= 0 {
			return
		}
		*s = Sized{Metres: metres, Known: true, Sigma: d.measured(line, p, c, nil)}
		if !c.ByHand && !c.Measured { // which of two faces is the length is for the eye to say
			s.Sigma = math.Hypot(s.Sigma, math.Hypot(lookoutEdge, lookoutFaces*metres))
		}
		for i := range c.Measures {
			if m := &c.Measures[i]; m.What == what {
				l, at := d.logged(m.Ping)
				s.Sigma = d.measured(l, at, c, m)
			}
		}
	}
	set(&out.Length, Length, c.Length)
	set(&out.Width, Width, c.Width)
	set(&out.Shadow, Shadow, c.Shadow)
	if c.Height > 0 {
		out.Height = Sized{Metres: c.Height, Known: true, Sigma: d.heightSigma(line, p, c, out.Shadow.Sigma)}
	}
	return out
}

// measured is one standard deviation of a measure, or with none of one the lookout took.
func (d *Desk) measured(line *LineRecord, p *PingRecord, c *Contact, m *Measure) float64 {
	along, across := lookCell, lookCell
	if p != nil {
		x, y := c.X, c.Y
		if m != nil {
			x, y = (m.X+m.X2)/2, (m.Y+m.Y2)/2
		}
		_, right := p.offset(x, y)
		along, across = d.resolution(line, p, math.Hypot(right, p.Height))
		if m == nil {
			along, across = max(along, lookCell), max(across, lookCell)
		}
	}
	share := 0.5 // of the measure along the track, squared: unknown
	if m != nil && p != nil {
		sin, cos := math.Sincos(p.Fix.Heading)
		a := ((m.X2-m.X)*sin + (m.Y2-m.Y)*cos) / m.Metres
		share = a * a
	}
	end := edges * math.Sqrt((share*along*along+(1-share)*across*across)/12)
	if m != nil {
		end = math.Hypot(end, m.Pixel/math.Sqrt(3))
	}
	return math.Sqrt2 * end
}

// resolution is the size of a resolution cell at a slant range of a ping, metres along
// the track and across it on the ground.
func (d *Desk) resolution(line *LineRecord, p *PingRecord, slant float64) (along, across float64) {
	if n := len(d.Recorder.Beams); n > 0 {
		along = slant * d.Recorder.Beams[min(d.Settings.MosaicChannel, n-1)]
	}
	if line != nil && len(line.Pings) > 1 {
		first, last := &line.Pings[0].Fix, &line.Pings[len(line.Pings)-1].Fix
		along = max(along, math.Hypot(last.X-first.X, last.Y-first.Y)/float64(len(line.Pings)-1))
	}
	across = d.Recorder.Bin()
	if ground := math.Sqrt(max(slant*slant-p.Height*p.Height, 0)); ground > 0 {
		across *= slant / ground
	}
	return along, across
}

func (d *Desk) heightSigma(line *LineRecord, p *PingRecord, c *Contact, shadow float64) float64 {
	if p == nil {
		return math.Max(0.2*c.Height, 0.1) // nothing is known of how it was lit: our own choice
	}
	heights := c.Heights()
	_, right := p.offset(c.X, c.Y)
	tip := math.Abs(right) + c.Shadow
	if line != nil && tip > 0.92*GroundReach(line.RangeScale, p.Height) {
		return c.Height / 2 // the shadow ends where the record does, or noise fills it: it is as high at least
	}
	one := math.Hypot(c.Shadow/tip*math.Hypot(0.01*p.Height, d.Recorder.Bin()), p.Height/tip*shadow)
	n := float64(max(len(heights), 1))
	sigma := one / math.Sqrt(n)
	if len(heights) > 1 {
		scatter := 0.0
		for _, h := range heights {
			scatter += (h - c.Height) * (h - c.Height)
		}
		sigma = max(sigma, math.Sqrt(scatter/(n-1)/n))
	}
	return sigma
}

// Depth is the depth over the top of a contact: an estimate, and never a least depth,
// which another system has to find (IHO S-44 6.1.0, 3.4).
type Depth struct {
	Sized
	Reduced bool // to the datum; if not it is below the water as it stood
}

// DepthOver estimates the depth over the top of a contact: depth and height of the fish
// at its ping, less the height of the contact, less the tide if somebody entered it. The
// floor under the contact is taken to lie as deep as the one under the fish.
//
// Standard deviations, our own choice: of the fish's depth half a hundredth and 0.1 m,
// of its height a hundredth, of the tide 0.1 m, of the water if no tide was entered none,
// as it stood so.
func (d *Desk) DepthOver(c *Contact) Depth {
	p := d.FirstPing(c)
	if p == nil || p.Height <= 0 {
		return Depth{}
	}
	tide, reduced := d.Review.Knob(KnobTide)
	size := d.Dimensions(c).Height
	out := Depth{Reduced: reduced}
	out.Metres, out.Known = p.Fix.Depth+p.Height-size.Metres-tide, true
	squares := math.Pow(0.005*p.Fix.Depth, 2) + 0.1*0.1 + math.Pow(0.01*p.Height, 2) + size.Sigma*size.Sigma
	if reduced {
		squares += 0.1 * 0.1
	}
	out.Sigma = math.Sqrt(squares)
	return out
}
