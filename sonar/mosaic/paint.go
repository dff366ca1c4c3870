package mosaic

import "math"

// Swath is one ping ready to be laid on the ground.
type Swath struct {
	X, Y            float64 // of the fish as the ping was sent, by the desk, metres
	LeadX, LeadY    float64 // that the ground it answers for lies ahead, metres a metre of slant range
	Heading         float64 // grid bearing, radians
	Altitude        float64 // of the fish, metres
	Bin             float64 // slant range of one sample by the desk, metres
	Port, Starboard []float32
	Reach           float64 // ground range to paint to, metres
}

// Painter lays swaths. The ground between one ping and the next goes to the nearer of
// the two.
type Painter struct {
	mosaic     *Mosaic
	last, next laid
	have       bool
}

// laid is a swath with the sums of its rows, so that any mean is one subtraction.
type laid struct {
	Swath
	sums [2][]float64 // port, starboard
	across
}

func (l *laid) take(s Swath, step float64) {
	l.Swath = s
	l.across.lay(&s, step)
	l.Port, l.Starboard = nil, nil // good for the call alone
	for side, row := range [2][]float32{s.Port, s.Starboard} {
		sums, total := append(l.sums[side][:0], 0), 0.0
		for _, v := range row {
			total += float64(v)
			sums = append(sums, total)
		}
		l.sums[side] = sums
	}
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

// Paint lays a swath, and the ground between it and the one before, and returns the
// number of values laid.
func (p *Painter) Paint(s Swath) int {
	p.next.take(s, stepCells*p.mosaic.size)
	from, to := &p.last, &p.next
	between := 1
	if p.have {
		gap := math.Hypot(to.X-from.X, to.Y-from.Y)
		turn := math.Abs(math.Remainder(to.Heading-from.Heading, 2*math.Pi))
		// The far end of the swath moves furthest.
		if gap < maxGap && turn < maxTurn {
			between = max(1, int(math.Ceil((gap+turn*to.Reach)/(stepCells*p.mosaic.size))))
		}
	}
	n := 0
	for k := 1; k <= between; k++ {
		f := float64(k) / float64(between)
		x, y, heading := to.X, to.Y, to.Heading
		row := to
		if k < between {
			x = from.X + f*(to.X-from.X)
			y = from.Y + f*(to.Y-from.Y)
			heading = from.Heading + f*math.Remainder(to.Heading-from.Heading, 2*math.Pi)
			if f < 0.5 {
				row = from
			}
		}
		n += p.side(row, 1, x, y, heading+math.Pi/2)
		n += p.side(row, 0, x, y, heading-math.Pi/2)
	}
	p.last, p.next, p.have = p.next, p.last, true
	return n
}

// side lays one side's samples along a bearing, each value the mean of the samples that
// fall in its step of ground.
func (p *Painter) side(s *laid, side int, x, y, bearing float64) int {
	ux, uy := math.Sincos(bearing)
	sums := s.sums[side]
	from, n := s.nadir, 0
	slants, samples, qualities := s.slant[:len(s.ground)], s.sample[:len(s.ground)], s.quality[:len(s.ground)]
	for i, g := range s.ground {
		next := samples[i]
		to := max(next, from+1) // near nadir several steps share a sample
		if to >= len(sums) {
			break
		}
		v := (sums[to] - sums[from]) / float64(to-from)
		slant := slants[i]
		p.mosaic.put(x+s.LeadX*slant+ux*g, y+s.LeadY*slant+uy*g, float32(v), qualities[i])
		from = next
		n++
	}
	return n
}
