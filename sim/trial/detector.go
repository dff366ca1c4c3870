package trial

import (
	"math"

	"dryline/sim"
)

// Detector raises what stands out of raw samples of one side: an echo brighter than its
// surroundings with a shadow darker than them behind it.
//
// Intensities of unresolved ground are exponential about their local mean, so that the
// mean M of n of them, in units of that mean, is gamma distributed. The logarithm of the
// likelihood ratio of another mean against 1 is n (M - 1 - ln M): the statistic is that of
// the echo's block, if M > 1.2, and of the shadow's, if M < 1/1.2, added, the greatest over blocks
// of several sizes. The mean of the surroundings
// is taken on the same pings and those about them, nearer and farther in range, a guard left
// out, and at the same range some metres ahead and astern: an echo has to stand over both and
// a shadow under both, so that a ridge or the edge of a bank, which goes on along the track,
// is none. Samples of a pulse hang together and
// sediments have texture, so that the figure is no probability: the threshold is set by
// what the same detector raises on bare ground ([Bare]).
//
// (The one-sided test of a gamma mean is the shadow detector of search texts; the GLRT of
// an exponential's mean is in any text on detection, such as Kay, Fundamentals of
// Statistical Signal Processing II, 1998, from memory.)
type Detector struct {
	Bin     float64 // slant range of a sample, metres
	Advance float64 // along the track from ping to ping, metres
}

// detectorOf is the detector for the record of a session, flown at the speed of its plan.
func detectorOf(s *sim.Session) Detector {
	ex, e := s.Exercise, s.Engine()
	return Detector{Bin: e.Bin(), Advance: max(ex.Plan.Speed*e.Interval(ex.Desk.SoundSpeed), 0.01)}
}

// The sizes of blocks, metres: along the track, across an echo, across a shadow. The
// surroundings reach from the guard out to the reach. Our own choice.
var (
	alongSizes  = [...]float64{0.5, 1, 2}
	echoSizes   = [...]float64{0.25, 0.5, 1}
	shadowSizes = [...]float64{0.6, 1.5, 4}
)

const (
	guard    = 1.5  // metres of range on either side of an echo
	shade    = 4.5  // metres behind it, where its shadow may lie
	about    = 5.0  // metres of range beyond, that the surroundings are taken from
	beside   = 2.0  // metres along the track on either side
	astern   = 1.5  // metres along the track from where on the same range is looked at,
	asternTo = 3.5  // and to where,
	abreast  = 0.5  // this far in range on either side
	stands   = 1.2  // times, over or under, from which a block stands out at all
	darkest  = 0.02 // of the surroundings: less is not believed of a shadow
	brighter = 400  // times the surroundings: more is not counted of an echo
)

// Block is a stretch of the record of one side.
type Block struct {
	rows, cols int
	sum        []float64 // integral image of intensity, (rows+1) x (cols+1)
	bright     []float64 // that of intensity over the brighter of its surroundings, likewise
	dark       []float64 // and over the darker of them
}

// NewBlock takes rows of samples, oldest first, all of one length.
func (d Detector) NewBlock(rows [][]uint16) *Block {
	b := &Block{rows: len(rows)}
	if b.rows == 0 {
		return b
	}
	b.cols = len(rows[0])
	w := b.cols + 1
	b.sum = make([]float64, (b.rows+1)*w)
	for i, row := range rows {
		line := 0.0
		for j, v := range row {
			line += float64(v) * float64(v)
			b.sum[(i+1)*w+j+1] = b.sum[i*w+j+1] + line
		}
	}
	b.bright, b.dark = make([]float64, (b.rows+1)*w), make([]float64, (b.rows+1)*w)
	side := max(int(math.Round(beside/d.Advance)), 1)
	near, far, out := d.cells(guard), d.cells(guard+shade), d.cells(about)
	from, to, half := d.pings(astern), d.pings(asternTo), d.cells(abreast)
	for i := range b.rows {
		i0, i1 := max(i-side, 0), min(i+side+1, b.rows)
		bright, dark := 0.0, 0.0
		for j := range b.cols {
			total, n := 0.0, 0
			for _, span := range [2][2]int{{j - near - out, j - near}, {j + far, j + far + out}} {
				j0, j1 := max(span[0], 0), min(span[1], b.cols)
				if j1 > j0 {
					total += b.box(b.sum, i0, j0, i1, j1)
					n += (i1 - i0) * (j1 - j0)
				}
			}
			more, less := 0.0, 0.0 // of the surroundings
			if n > 0 {
				more = total / float64(n)
				less = more
			}
			total, n = 0, 0
			j0, j1 := max(j-half, 0), min(j+half+1, b.cols)
			for _, span := range [2][2]int{{i - to, i - from}, {i + from, i + to}} {
				if k0, k1 := max(span[0], 0), min(span[1], b.rows); k1 > k0 {
					total += b.box(b.sum, k0, j0, k1, j1)
					n += (k1 - k0) * (j1 - j0)
				}
			}
			if n > 0 {
				along := total / float64(n)
				more, less = max(more, along), min(less, along)
			}
			v := b.box(b.sum, i, j, i+1, j+1)
			e, s := 1.0, 1.0
			if more > 0 {
				e = min(v/more, brighter)
			}
			if less > 0 {
				s = min(v/less, brighter)
			}
			bright, dark = bright+e, dark+s
			b.bright[(i+1)*w+j+1] = b.bright[i*w+j+1] + bright
			b.dark[(i+1)*w+j+1] = b.dark[i*w+j+1] + dark
		}
	}
	return b
}

func (d Detector) pings(metres float64) int { return max(int(math.Round(metres/d.Advance)), 1) }

func (d Detector) cells(metres float64) int { return max(int(math.Round(metres/d.Bin)), 1) }

func (b *Block) box(table []float64, i0, j0, i1, j1 int) float64 {
	w := b.cols + 1
	return table[i1*w+j1] - table[i0*w+j1] - table[i1*w+j0] + table[i0*w+j0]
}

// template is one size of echo and shadow, in pings and samples.
type template struct{ along, echo, shadow int }

func (d Detector) templates() []template {
	var out []template
	for _, a := range alongSizes {
		for _, e := range echoSizes {
			for _, s := range shadowSizes {
				if e > a || s < e {
					continue
				}
				t := template{max(int(math.Round(a/d.Advance)), 2), max(d.cells(e), 2), max(d.cells(s), 2)}
				if len(out) == 0 || out[len(out)-1] != t {
					out = append(out, t)
				}
			}
		}
	}
	return out
}

// at is the statistic of a template with its first ping at i and the near edge of its
// echo at sample j; 0 where it does not fit.
func (b *Block) at(t template, i, j int) float64 {
	if i < 0 || j < 0 || i+t.along > b.rows || j+t.echo+t.shadow > b.cols {
		return 0
	}
	score := 0.0
	n := float64(t.along * t.echo)
	if m := b.box(b.bright, i, j, i+t.along, j+t.echo) / n; m > stands {
		score += n * (m - 1 - math.Log(m))
	}
	n = float64(t.along * t.shadow)
	if m := max(b.box(b.dark, i, j+t.echo, i+t.along, j+t.echo+t.shadow)/n, darkest); m < 1/stands {
		score += n * (m - 1 - math.Log(m))
	}
	return score
}

// Greatest is the greatest statistic of any block whose echo begins within rows i0 to i1
// and samples j0 to j1. It looks at every second sample.
func (d Detector) Greatest(b *Block, i0, j0, i1, j1 int) float64 {
	best := 0.0
	for _, t := range d.templates() {
		for i := max(i0, 0); i < i1; i++ {
			for j := max(j0, 0); j < j1; j += 2 {
				best = max(best, b.at(t, i, j))
			}
		}
	}
	return best
}
