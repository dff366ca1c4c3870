package survey

import (
	"fmt"
	"math"

	"dryline/sonar/mosaic"
	"dryline/sonar/recorder"
	"dryline/sonar/waterfall"
	"dryline/vessel/nav/geodesy"
)

// Recorder holds the sonar's settings as the desk knows them.
type Recorder struct {
	RangeScale float64 // metres, by the desk's sound speed
	Samples    int     // per side
	Nominal    float64 // counts of an ordinary echo
	Channels   []string
	Receivers  []recorder.Receiver // by channel
	Beams      []float64           // widths along the track by the papers, by channel, radians; empty if unknown
}

// Bin is the slant range of one sample by the desk's sound speed, metres.
func (r Recorder) Bin() float64 { return r.RangeScale / float64(r.Samples) }

// Ping is one ping as it reaches the desk.
type Ping struct {
	Number          uint64
	Fix             Fix
	Port, Starboard [][]uint16 // by channel
}

// Desk is the surveyor's desk.
type Desk struct {
	Settings Settings
	Recorder Recorder
	Mosaic   *mosaic.Mosaic
	Lines    []*LineRecord // finished lines, in the order they were run
	Contacts []Contact
	Track    []TrackPoint // once a second

	Review  Review  // how the survey is to be worked up again
	Worked  *Worked // as it was last; nil while it stands as in the watch
	Remarks []Entry // by the surveyor, in order

	Calibrated Calibrated
	Report     *Report // what goes over the reports; nil if none are asked for

	watchers  []func(LivePing)
	listeners []func(LivePing) // who need no rows

	// KeepRows, if set, says of which channels the rows of a line are kept for
	// pictures; of others there is the newest alone. Set it before the first line.
	KeepRows func(channel int) bool

	// Unpainted leaves the mosaic empty: it is painted later, from the record. Set it
	// before the first line.
	Unpainted bool

	bottom    BottomTracker
	levellers []*waterfall.Leveller
	levelled  [2][]float32
	steady    SteadyHeight
	painter   *mosaic.Painter
	line      *LineRecord
	lookout   *lookout

	lookoutOff      bool
	numbered        int // contacts so far, those deleted included
	changes, undone []change
	settings        []adjusted // in turn; empty while they are as at the start
	live            live
	extent          *[4]float64 // of the mosaic: west, south, east, north, metres; nil is no limit
}

// New sets up a desk. priors are what its channels are expected to write of ordinary
// ground; a channel without is expected to write its nominal counts everywhere.
func New(s Settings, r Recorder, priors ...waterfall.Prior) (*Desk, error) {
	if s.MosaicChannel < 0 || s.MosaicChannel >= len(r.Channels) {
		return nil, fmt.Errorf("survey: mosaic channel %d, the sonar has %d", s.MosaicChannel, len(r.Channels))
	}
	m, err := s.mosaic()
	if err != nil {
		return nil, err
	}
	d := &Desk{Settings: s, Recorder: r, Mosaic: m}
	d.levellers = r.levellers(priors)
	d.levelled[0] = make([]float32, r.Samples)
	d.levelled[1] = make([]float32, r.Samples)
	return d, nil
}

// levellers are those of the channels, with nothing learnt.
func (r *Recorder) levellers(priors []waterfall.Prior) (all []*waterfall.Leveller) {
	for c := range r.Channels {
		var set recorder.Receiver
		if c < len(r.Receivers) {
			set = r.Receivers[c]
		}
		var prior waterfall.Prior = waterfall.Flat(r.Nominal)
		if c < len(priors) {
			prior = priors[c]
		}
		all = append(all, waterfall.NewLeveller(prior, set))
	}
	return all
}

// mosaic is an empty one as it is set.
func (s *Settings) mosaic() (*mosaic.Mosaic, error) {
	m, err := mosaic.New(s.MosaicCell, s.Combine)
	if err != nil {
		return nil, err
	}
	m.Anchor(s.MosaicX, s.MosaicY)
	return m, nil
}

// BlankMosaic is a mosaic with nothing in it, over the same ground as the desk's.
func (d *Desk) BlankMosaic() (*mosaic.Mosaic, error) {
	m, err := d.Settings.mosaic()
	if err != nil {
		return nil, err
	}
	m.WithinAs(d.Mosaic)
	return m, nil
}

// Within keeps the mosaic, and those made after it, to a rectangle, metres.
func (d *Desk) Within(west, south, east, north float64) {
	d.extent = &[4]float64{west, south, east, north}
	d.Mosaic.Within(west, south, east, north)
}

// NewMosaic is an empty one over the same ground, as a review has it set, whose cells
// meet at a local point.
func (d *Desk) NewMosaic(r *Review, x, y float64) (*mosaic.Mosaic, error) {
	s := d.Reviewed(r, math.Inf(1))
	s.MosaicX, s.MosaicY = x, y
	return d.over(&s)
}

// over is an empty mosaic as it is set, kept to the desk's extent.
func (d *Desk) over(s *Settings) (*mosaic.Mosaic, error) {
	m, err := s.mosaic()
	if err != nil {
		return nil, err
	}
	if e := d.extent; e != nil {
		m.Within(e[0], e[1], e[2], e[3])
	}
	return m, nil
}

// Watch has f called with every ping, logged or not; those who asked first hear
// first. It changes no product.
func (d *Desk) Watch(f func(LivePing)) { d.watchers = append(d.watchers, f) }

// Listen is [Desk.Watch] for those who need no rows, which take most of the time.
func (d *Desk) Listen(f func(LivePing)) { d.listeners = append(d.listeners, f) }

// heard reports whether anybody is told of pings as they come in.
func (d *Desk) heard() bool { return len(d.watchers)+len(d.listeners) > 0 }

// Note enters the fix, heading and crab in the watch log, with the line being logged
// and how far off it the vessel is.
func (d *Desk) Note(f Fix, heading geodesy.TrueBearing, crab float64) {
	p := TrackPoint{Fix: f, Heading: heading, Crab: crab}
	if d.line != nil {
		p.Line = d.line.Name
		_, p.Off = d.line.Track.Offset(f.VesselX, f.VesselY)
	}
	d.Track = append(d.Track, p)
}

// TrackPoint is the watch log: where the desk believed everything was.
type TrackPoint struct {
	Fix     Fix
	Heading geodesy.TrueBearing // of the vessel
	Crab    float64             // the vessel's heading less the course made good, radians
	Line    string              // being logged, empty if none
	Off     float64             // of the vessel off that line, metres, positive to its right
}

// StartLine opens a line: from now on pings are logged.
func (d *Desk) StartLine(name string, track geodesy.Track) {
	d.EndLine()
	d.line = newLineRecord(name, track, d.Recorder)
	d.painter = mosaic.NewPainter(d.Mosaic)
	d.lookout = newLookout(d.Recorder)
}

// OpenLine is the line being logged, nil if none is.
func (d *Desk) OpenLine() *LineRecord { return d.line }

// EndLine closes the line: its look is combined into the mosaic and its record
// searched for contacts. It returns the finished line, or nil if none was open.
func (d *Desk) EndLine() *LineRecord {
	line := d.line
	if line == nil {
		return nil
	}
	d.line = nil
	d.Mosaic.EndLook()
	if !d.lookoutOff {
		found := d.lookout.search(line)
		for i := range found {
			found[i].Passes = line.passOf(&found[i], len(d.Lines)+1)
		}
		d.correlate(found)
	}
	d.lookout = nil
	d.Lines = append(d.Lines, line)
	return line
}

// blank reports whether the recorder left a ping's row empty.
func blank(p Ping) bool {
	for _, side := range [2][][]uint16{p.Port, p.Starboard} {
		for _, row := range side {
			for _, v := range row {
				if v != 0 {
					return false
				}
			}
		}
	}
	return true
}

// SteadyHeight is the height of the fish over the general floor, which levelling goes
// by: passing over a wreck must not brighten the ground either side of it. It is the
// depth of the floor, smoothed over many pings, less that of the fish as it is now: a
// fish that sinks when cable is paid out is at another angle at once.
type SteadyHeight struct{ floor, height float64 }

// Add takes in the height and the depth of the fish at a ping, metres.
func (h *SteadyHeight) Add(height, depth float64) {
	const (
		memory = 60   // pings
		most   = 0.25 // of the height: what is more than that is a failing sensor, or no general floor
	)
	floor := height + depth
	if h.height == 0 || math.Abs(floor-h.floor) > most*height {
		h.floor = floor
	}
	h.floor += (floor - h.floor) / memory
	h.height = h.floor - depth
}

// Metres is the height, 0 before the first ping.
func (h *SteadyHeight) Metres() float64 { return h.height }

// Take works up one ping: bottom track, levelling and, if a line is open, the
// line's record and the mosaic.
func (d *Desk) Take(p Ping) {
	r := d.Recorder
	height, locked := d.bottom.Find(p.Port[0], p.Starboard[0], r.Bin(), p.Fix.Altitude)
	if height <= 0 {
		if d.heard() {
			d.show(p, 0, false, blank(p), false)
		}
		return // no bottom yet and no altimeter: nothing can be placed
	}
	if blank(p) {
		if d.line != nil {
			d.line.addPing(p, height, false)
			d.line.addBlank()
		}
		if d.heard() {
			d.show(p, height, false, true, false)
		}
		return // nothing was recorded: nothing is learnt and nothing painted
	}
	// Levelling learns with the log off too, so that a line does not begin in the
	// wrong light.
	d.steady.Add(height, p.Fix.Depth)
	for c, l := range d.levellers {
		l.Prepare(r.Samples, r.Bin(), d.steady.Metres())
		if p.Number%2 == 0 { // every other ping tells enough
			l.Learn(p.Port[c], p.Starboard[c])
		}
	}
	if d.line == nil {
		if d.heard() {
			d.show(p, height, locked, false, false)
		}
		return
	}
	d.line.addPing(p, height, locked)
	for c := range r.Channels {
		l := d.levellers[c]
		l.Level(d.levelled[0], p.Port[c], 0)
		l.Level(d.levelled[1], p.Starboard[c], 1)
		d.line.addRow(c, d.levelled[0], d.levelled[1], d.KeepRows == nil || d.KeepRows(c))
		if c != d.Settings.MosaicChannel || p.Fix.Fault != "" {
			continue
		}
		if !d.Unpainted {
			d.painter.Paint(Swath(p.Fix, height, r, d.levelled[0], d.levelled[1]))
		}
		d.lookout.addRow(p.Fix, height, d.levelled[0], d.levelled[1])
	}
	if d.heard() {
		d.show(p, height, locked, false, true)
	}
}
