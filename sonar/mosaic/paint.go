package mosaic

import "math"

// Swath is one ping ready to be laid on the ground.
type Swath struct {
	X, Y            float64 // of the fish by the desk, metres
	Heading         float64 // grid bearing, radians
	Altitude        float64 // of the fish, metres
	Bin             float64 // slant range of one sample by the desk, metres
	Port, Starboard []float32
	Reach           float64 // ground range to paint to, metres
}

// Painter lays swaths. It fills the ground between one ping and the next.
type Painter struct {
	mosaic *Mosaic
	last   Swath
	have   bool
	sums   []float64
}

// NewPainter returns a painter for one line.
func NewPainter(m *Mosaic) *Painter { return &Painter{mosaic: m} }

const (
	// step is the distance between values laid across track, in cells: close
	// enough that no cell is missed whatever the heading.
	stepCells = 0.6
	// A gap between pings longer than this is left open: a holiday must show.
	maxGap = 2.0 // metres
	// A turn sharper than this between pings sweeps ground nobody sampled.
	maxTurn = 0.2 // radians
)

// Paint lays a swath and returns the number of values laid.
func (p *Painter) Paint(s Swath) int {
	between := 1
	if p.have {
		gap := math.Hypot(s.X-p.last.X, s.Y-p.last.Y)
		turn := math.Abs(math.Remainder(s.Heading-p.last.Heading, 2*math.Pi))
		// The far end of the swath moves furthest.
		if gap < maxGap && turn < maxTurn {
			between = max(1, int(math.Ceil((gap+turn*s.Reach)/(stepCells*p.mosaic.size))))
		}
	}
	n := 0
	for k := 1; k <= between; k++ {
		f := float64(k) / float64(between)
		x, y, heading := s.X, s.Y, s.Heading
		if k < between {
			x = p.last.X + f*(s.X-p.last.X)
			y = p.last.Y + f*(s.Y-p.last.Y)
			heading = p.last.Heading + f*math.Remainder(s.Heading-p.last.Heading, 2*math.Pi)
		}
		n += p.side(&s, s.Starboard, x, y, heading+math.Pi/2)
		n += p.side(&s, s.Port, x, y, heading-math.Pi/2)
	}
	p.last, p.have = s, true
	p.last.Port, p.last.Starboard = nil, nil
	return n
}

// side lays one side's samples along a bearing: slant to ground range on a
// flat floor at the altitude, each value the mean of the samples that fall in
// its step of ground.
func (p *Painter) side(s *Swath, row []float32, x, y, bearing float64) int {
	ux, uy := math.Sincos(bearing)
	p.prefix(row)
	step := stepCells * p.mosaic.size
	h2 := s.Altitude * s.Altitude
	inv := 1 / s.Bin
	from, n := int(s.Altitude*inv), 0
	for g := step / 2; g < s.Reach; g += step {
		edge := g + step/2
		next := int(math.Sqrt(edge*edge+h2) * inv)
		to := max(next, from+1) // near nadir several steps share a sample
		if to > len(row) {
			break
		}
		v := (p.sums[to] - p.sums[from]) / float64(to-from)
		p.mosaic.put(x+ux*g, y+uy*g, float32(v), quality(g, s.Reach))
		from = next
		n++
	}
	return n
}

// prefix sums the row, so that any mean is one subtraction.
func (p *Painter) prefix(row []float32) {
	p.sums = append(p.sums[:0], 0)
	total := 0.0
	for _, v := range row {
		total += float64(v)
		p.sums = append(p.sums, total)
	}
}

// quality grades a sample by ground range: nothing at nadir, where the ground
// is stretched, best in the middle of the swath, half at its end.
func quality(g, reach float64) float32 {
	u := g / reach
	return float32(min(u/0.3, 1) * (1 - 0.5*max(0, (u-0.5)/0.5)))
}
