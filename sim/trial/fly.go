package trial

import (
	"context"
	"math"
	"slices"

	"dryline/seabed"
	"dryline/seabed/units"
	"dryline/sim"
	"dryline/sim/exercise"
	"dryline/sim/order"
	"dryline/sim/passage"
	"dryline/sonar"
	"dryline/vessel/nav/geodesy"
)

// Outcome tells what came of one run of one plan.
type Outcome struct {
	Plan int    `json:"plan"`
	Run  int    `json:"run"`
	Seed uint64 `json:"seed"`

	Time     float64 `json:"time_s"`
	Logged   float64 `json:"logged_s"`
	Distance float64 `json:"distance_m"` // of the fish
	Whole    bool    `json:"whole"`      // the plan was run to its end
	Touched  bool    `json:"touched"`    // the fish touched floor or object, or was lost

	Once  float64 `json:"coverage_once"` // shares of the area that count
	Twice float64 `json:"coverage_twice"`

	InBand   float64 `json:"height_in_band"`    // share of the logged pings
	PerMetre float64 `json:"pings_per_metre"`   // of the logged way, mean
	Off      float64 `json:"position_error_m"`  // of the fish by the desk, 95th percentile
	Pings    int     `json:"pings_made"`        // of all that fell due
	Seen     []Sight `json:"targets,omitempty"` // by the run's objects
}

// Sight is how one target was looked at.
type Sight struct {
	Target int    `json:"target"` // entry of the spec
	Looks  []Look `json:"looks,omitempty"`
}

// Look is one pass of a line that could show a target.
type Look struct {
	Lateral float64 `json:"lateral_m"` // from the fish's way to its middle, over the ground; port negative
	Aspect  float64 `json:"aspect_deg"`
	Pings   int     `json:"pings"`   // that lit it
	Score   float64 `json:"score"`   // the detector's greatest about its place
	Samples float64 `json:"samples"` // of slant range across echo or shadow, the longer
}

// fits reports whether a run can have had the look at a range scale.
func (l *Look) fits(scale float64) bool {
	for _, v := range [...]float64{float64(l.Pings), l.Score, l.Samples} {
		if v < 0 || v > mostFigure {
			return false
		}
	}
	return math.Abs(l.Lateral) <= scale+1 && l.Aspect >= 0 && l.Aspect <= 90
}

// Half of the window about a target that pings are made in, beyond its own half length:
// room for the surroundings, metres along the track.
const (
	room      = 4.0
	elsewhere = 1.2 // metres about its place that a detection counts as its
)

// Fly flies one run of a plan's exercise, its targets already in it: the last of its
// objects, in the order of the run. It stops early when the context is done.
func Fly(ctx context.Context, ex *exercise.Exercise, run *Run, area []seabed.Point) (*Outcome, error) {
	s, err := sim.New(ex, ex.Seed)
	if err != nil {
		return nil, err
	}
	s.Workers = 1
	ex = s.Exercise // what lies there is settled
	objects := ex.Seabed.Objects
	first := slices.IndexFunc(objects, func(o seabed.Object) bool { return len(run.Objects) > 0 && o.Name == run.Objects[0].Name })
	w := newWatch(s, run, max(first, 0))
	s.Sparse(w.wanted)
	s.Observe(sim.Observer{Truth: true, Ping: w.ping, Open: w.open})
	s.AttachMate()
	for !s.Done() {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		s.Advance(600)
	}
	if err := s.Refused(); err != nil {
		return nil, err
	}
	return w.outcome(area), nil
}

func touched(mishaps []passage.Mishap) bool {
	return slices.ContainsFunc(mishaps, func(m passage.Mishap) bool {
		return m.What == passage.Grounded || m.What == passage.Struck || m.What == passage.Parted || m.What == passage.Ruined
	})
}

// watch gathers one run.
type watch struct {
	s       *sim.Session
	run     *Run
	targets []seabed.Object
	index   int // of the first of them among the objects
	det     Detector
	channel int

	tracks []*track
	looks  []map[int]*gathered // by target, by track
	made   int
}

// gathered holds what is kept of one pass of a line by a target.
type gathered struct {
	rows    [][]uint16
	along   []float64 // of the target ahead of the fish at each
	from    int       // sample that the rows begin at
	lateral float64   // at the nearest
	nearest float64
	height  float64 // of the fish over the floor there
	heading float64
	lit     int
}

func newWatch(s *sim.Session, run *Run, first int) *watch {
	ex := s.Exercise
	w := &watch{s: s, run: run, index: first, channel: ex.Desk.MosaicChannel}
	w.targets = ex.Seabed.Objects[first : first+len(run.Objects)]
	w.looks = make([]map[int]*gathered, len(w.targets))
	for i := range w.looks {
		w.looks[i] = map[int]*gathered{}
	}
	w.det = detectorOf(s)
	return w
}

// bearingOf is where a target lies from a fish: ahead and to starboard, metres.
func bearingOf(o *seabed.Object, pose *sonar.Pose) (ahead, right float64) {
	sin, cos := math.Sincos(pose.Heading)
	dx, dy := o.At.X-pose.X, o.At.Y-pose.Y
	return dx*sin + dy*cos, dx*cos - dy*sin
}

// wanted picks the pings that can show a target or its shadow.
func (w *watch) wanted(_ uint64, pose *sonar.Pose) bool {
	if _, logging := w.s.Passage.Logging(); !logging {
		return false
	}
	for i := range w.targets {
		ahead, right := bearingOf(&w.targets[i], pose)
		if math.Abs(ahead) < w.window(i) && math.Abs(right) < w.s.Exercise.Sonar.RangeScale {
			return true
		}
	}
	return false
}

func (w *watch) window(i int) float64 {
	o := &w.targets[i]
	return max(o.Length, o.Width)/2 + room
}

func (w *watch) open(line string, t geodesy.Track) {
	w.tracks = append(w.tracks, &track{line: line, bearing: t.Bearing()})
}

func (w *watch) ping(p *sim.Ping) {
	if p.Line == "" || len(w.tracks) == 0 {
		return
	}
	pose := &p.Truth.Pose
	t := w.tracks[len(w.tracks)-1]
	t.pings = append(t.pings, fall{
		time: pose.Time, x: pose.X, y: pose.Y, heading: pose.Heading, run: pose.Run,
		altitude: pose.Z - w.s.World().HeightAt(pose.X, pose.Y),
		off:      math.Hypot(p.Fix.X-pose.X, p.Fix.Y-pose.Y), faulty: p.Fix.Fault != "" || p.Lost,
	})
	if p.Port == nil || p.Lost || blank(p.Port[w.channel]) {
		return
	}
	w.made++
	for i := range w.targets {
		w.take(i, p)
	}
}

// take keeps the stretch of a ping about a target.
func (w *watch) take(i int, p *sim.Ping) {
	o, pose := &w.targets[i], &p.Truth.Pose
	ahead, right := bearingOf(o, pose)
	if math.Abs(ahead) >= w.window(i) {
		return
	}
	side, row := sonar.Starboard, p.Starboard[w.channel]
	if right < 0 {
		side, row = sonar.Port, p.Port[w.channel]
	}
	key := 2*(len(w.tracks)-1) + int(side)
	g := w.looks[i][key]
	if g == nil {
		slant := math.Hypot(right, pose.Z-w.s.World().HeightAt(o.At.X, o.At.Y))
		bottom := w.tracks[len(w.tracks)-1].pings
		least := int(bottom[len(bottom)-1].altitude/w.det.Bin) + 4 // beyond the water column
		g = &gathered{from: max(int((slant-max(o.Length, o.Width)/2-elsewhere-guard-about)/w.det.Bin), least), nearest: math.Inf(1)}
		w.looks[i][key] = g
	}
	span := int((max(o.Length, o.Width) + 2*elsewhere + 2*guard + 2*about + shade + 4) / w.det.Bin)
	from, to := min(g.from, len(row)), min(g.from+span, len(row))
	g.rows, g.along = append(g.rows, slices.Clone(row[from:to])), append(g.along, ahead)
	if math.Abs(ahead) < g.nearest {
		g.nearest, g.lateral, g.height, g.heading = math.Abs(ahead), right, pose.Z-w.s.World().HeightAt(o.At.X, o.At.Y), pose.Heading
	}
	if slices.Contains(p.Truth.Lit[side], uint16(w.index+i+1)) {
		g.lit++
	}
}

// look returns what one pass made of a target; ok is false if the target was not on the record.
func (w *watch) look(i int, g *gathered) (l Look, ok bool) {
	o := &w.targets[i]
	half := max(o.Length, o.Width)/2 + elsewhere
	slant := math.Hypot(g.lateral, g.height)
	if g.nearest > 1 || len(g.rows) == 0 || len(g.rows[0]) == 0 || slant > w.s.Exercise.Sonar.RangeScale {
		return l, false
	}
	b := w.det.NewBlock(g.rows)
	i0, i1 := len(g.rows), 0
	for k, a := range g.along {
		if math.Abs(a) <= half {
			i0, i1 = min(i0, k), max(i1, k+1)
		}
	}
	at := int(slant/w.det.Bin) - g.from
	across := int(half / w.det.Bin)
	l = Look{Lateral: tenth(g.lateral), Pings: g.lit, Score: tenth(w.det.Greatest(b, i0, at-across, i1, at+across))}
	// Broadside is 0: the long axis along the track.
	l.Aspect = math.Round(math.Abs(math.Remainder(o.Heading-g.heading, math.Pi)) / units.Degree)
	proud, ground := o.Height-o.Burial, math.Abs(g.lateral)
	shadow := 0.0
	if proud < 0.95*g.height {
		shadow = proud * ground / (g.height - proud)
	}
	l.Samples = math.Round(max(shadow, min(o.Length, o.Width)) * ground / max(slant, 1e-9) / w.det.Bin)
	return l, true
}

func tenth(v float64) float64 { return math.Round(10*v) / 10 }

// outcome draws the run up.
func (w *watch) outcome(area []seabed.Point) *Outcome {
	s, ex := w.s, w.s.Exercise
	out := &Outcome{
		Run: w.run.Number, Seed: w.run.Seed, Time: tenth(s.Now()), Whole: s.Ended() == order.ReasonFinished && s.Now() < ex.Plan.TimeLimit,
		Touched: touched(s.Passage.Mishaps()), Pings: w.made,
	}
	c := newCover(area)
	r := newReach(s, w.channel)
	var off []float64
	inBand, logged, way := 0, 0, 0.0
	for n, t := range w.tracks {
		c.lay(n+1, t, ex, r)
		for k := range t.pings {
			p := &t.pings[k]
			logged++
			if share := p.altitude / ex.Sonar.RangeScale; share >= ex.Score.AltitudeMin && share <= ex.Score.AltitudeMax {
				inBand++
			}
			if !p.faulty {
				off = append(off, p.off)
			}
		}
		if m := len(t.pings); m > 0 {
			out.Logged += t.pings[m-1].time - t.pings[0].time
			way += t.pings[m-1].run - t.pings[0].run
		}
	}
	if s.Passage.Tick() > 0 {
		out.Distance = math.Round(s.Passage.PoseAt(s.Now()).Run)
	}
	out.Once, out.Twice = c.shares()
	if logged > 0 {
		out.InBand = float64(inBand) / float64(logged)
	}
	if way > 0 {
		out.PerMetre = math.Round(100*float64(logged)/way) / 100
	}
	if len(off) > 0 {
		slices.Sort(off)
		out.Off = math.Round(100*off[min(len(off)*95/100, len(off)-1)]) / 100
	}
	out.Logged = tenth(out.Logged)
	for i := range w.targets {
		seen := Sight{Target: w.run.Of[i]}
		for n := range 2 * len(w.tracks) {
			if g := w.looks[i][n]; g != nil {
				if l, ok := w.look(i, g); ok {
					seen.Looks = append(seen.Looks, l)
				}
			}
		}
		out.Seen = append(out.Seen, seen)
	}
	return out
}
