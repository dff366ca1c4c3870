package trial

import (
	"context"
	"math"
	"slices"
	"sync"

	"dryline/seabed"
	"dryline/sim"
	"dryline/sim/exercise"
	"dryline/sonar"
	"dryline/vessel/nav/geodesy"
)

// alarmCell is the side of the cells in which alarms on bare ground are counted, metres:
// what is raised twice in one is one alarm. Our own choice, about what one thing takes up.
const alarmCell = 4.0

// Bare counts what the detector raised on bare ground.
type Bare struct {
	Area      float64   `json:"searched_km2"`
	Threshold float64   `json:"threshold"`
	Wanted    float64   `json:"false_alarms_per_km2"`
	Curve     []AlarmAt `json:"curve"` // false alarms by threshold
}

// AlarmAt is how many false alarms a threshold gives.
type AlarmAt struct {
	Threshold float64 `json:"threshold"`
	PerKM2    float64 `json:"per_km2"`
}

// Search flies a plan over ground with nothing on it, with seeds of its own, until so many
// square kilometres of swath were searched, and sets the threshold by what the detector
// raised there. Ground under the fish and beyond what the height carries is no part of it.
func Search(ctx context.Context, ex *exercise.Exercise, seed func(i int) uint64, area, perKM2 float64) (*Bare, error) {
	bare := *ex
	bare.Seabed.Objects, bare.Seabed.Pipelines, bare.Placed, bare.Elsewhere = nil, nil, nil, nil
	var peaks []float64
	searched := 0.0
	for i := 0; searched < area*1e6; i++ {
		s, err := sim.New(&bare, seed(i))
		if err != nil {
			return nil, err
		}
		s.Sparse(func(uint64, *sonar.Pose) bool {
			_, logging := s.Passage.Logging()
			return logging
		})
		p := newSearch(s)
		s.Observe(sim.Observer{Truth: true, Ping: p.ping, Open: func(string, geodesy.Track) { p.finish() }})
		s.AttachMate()
		before := searched
		for !s.Done() && searched+p.searched < area*1e6 {
			if err := ctx.Err(); err != nil {
				return nil, err
			}
			s.Advance(300)
		}
		p.finish()
		searched += p.searched
		peaks = append(peaks, p.peaks...)
		if searched == before {
			break // nothing of it is logged: there is nothing to search
		}
	}
	slices.Sort(peaks)
	slices.Reverse(peaks)
	b := &Bare{Area: math.Round(searched/1e3) / 1e3, Wanted: perKM2}
	at := func(per float64) float64 { // the threshold that leaves so many
		n := int(per * searched / 1e6)
		if n >= len(peaks) {
			return 0
		}
		return peaks[n]
	}
	b.Threshold = tenth(at(perKM2))
	for _, per := range []float64{200, 100, 50, 20, 10, 5, 2, 1} {
		b.Curve = append(b.Curve, AlarmAt{tenth(at(per)), per})
	}
	return b, nil
}

// search runs the detector over the record of a session as it comes in.
type search struct {
	s        *sim.Session
	det      Detector
	channel  int
	reach    *reach
	rows     [2][][]uint16
	height   []float64
	runs     []float64
	searched float64 // square metres
	peaks    []float64
}

// searchRows is how many pings are searched at once.
const searchRows = 160

func newSearch(s *sim.Session) *search {
	channel := s.Exercise.Desk.MosaicChannel
	return &search{s: s, channel: channel, det: detectorOf(s), reach: newReach(s, channel)}
}

func (p *search) ping(q *sim.Ping) {
	if q.Line == "" || q.Lost || blank(q.Port[p.channel]) {
		return
	}
	pose := &q.Truth.Pose
	p.rows[0] = append(p.rows[0], slices.Clone(q.Port[p.channel]))
	p.rows[1] = append(p.rows[1], slices.Clone(q.Starboard[p.channel]))
	p.height = append(p.height, pose.Z-p.s.World().HeightAt(pose.X, pose.Y))
	p.runs = append(p.runs, pose.Run)
	if len(p.height) == searchRows {
		p.finish()
	}
}

// blank reports a row that never reached the recorder: nobody takes it for a shadow.
func blank(row []uint16) bool {
	for _, v := range row {
		if v > 0 {
			return false
		}
	}
	return true
}

// finish searches what has come in.
func (p *search) finish() {
	n := len(p.height)
	if n < 20 {
		p.rows, p.height, p.runs = [2][][]uint16{}, nil, nil
		return
	}
	high, low := slices.Max(p.height), slices.Min(p.height)
	from, to := int((high+2)/p.det.Bin), int((p.reach.at(low)-1)/p.det.Bin)
	if from < to {
		ground := func(sample int) float64 {
			slant := float64(sample) * p.det.Bin
			return math.Sqrt(max(slant*slant-high*high, 0))
		}
		way := p.runs[n-1] - p.runs[0]
		p.searched += 2 * way * (ground(to) - ground(from))
		alongCells := max(int(alarmCell/max(way/float64(n), 1e-3)), 1)
		acrossCells := max(int(alarmCell/p.det.Bin), 1)
		var peaks [2][]float64
		var group sync.WaitGroup
		for side := range p.rows {
			group.Go(func() {
				b := p.det.NewBlock(p.rows[side])
				for i := 0; i < n; i += alongCells {
					for j := from; j < to; j += acrossCells {
						peaks[side] = append(peaks[side], p.det.Greatest(b, i, j, min(i+alongCells, n), min(j+acrossCells, to)))
					}
				}
			})
		}
		group.Wait()
		p.peaks = append(append(p.peaks, peaks[0]...), peaks[1]...)
	}
	p.rows, p.height, p.runs = [2][][]uint16{}, nil, nil
}

// areaOf is where targets lie: that of the spec, or the plan's own, or the strip of its
// lines.
func areaOf(spec *Spec, ex *exercise.Exercise) []seabed.Point {
	if len(spec.Area) > 0 {
		return spec.Area
	}
	if len(ex.Score.Area) > 0 {
		return ex.Score.Area
	}
	reach := ex.Sonar.RangeScale / 2
	x0, y0, x1, y1 := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, l := range ex.Lines {
		x0, y0 = min(x0, l.A.X, l.B.X), min(y0, l.A.Y, l.B.Y)
		x1, y1 = max(x1, l.A.X, l.B.X), max(y1, l.A.Y, l.B.Y)
	}
	if x1-x0 < y1-y0 {
		x0, x1 = x0-reach, x1+reach
	} else {
		y0, y1 = y0-reach, y1+reach
	}
	return []seabed.Point{{X: x0, Y: y0}, {X: x1, Y: y0}, {X: x1, Y: y1}, {X: x0, Y: y1}}
}
