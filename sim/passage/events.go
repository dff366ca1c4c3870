package passage

import (
	"fmt"
	"math"
	"math/rand/v2"

	"dryline/seabed/chance"
	"dryline/sim/exercise"
	"dryline/vessel/nav"
)

// Occurrence is an event that began. Like all truth it is for the debrief and an
// instructor.
type Occurrence struct {
	exercise.Event
	From, To float64 // seconds; To is infinite for what lasts to the end
	Ordered  bool    // by an instructor, in the session

	towards float64 // drawn: a bearing, radians
}

// occurrences are the events of a passage. Each draws from a stream of its own, so that
// one more or less moves nothing.
type occurrences struct {
	seed    uint64
	waiting []awaited
	on      []*Occurrence
	all     []*Occurrence
	ordered int
	told    func(Occurrence, bool) // of each that begins or is over, or nil
}

// awaited is an event that has not begun, and its stream.
type awaited struct {
	exercise.Event
	stream  string
	ordered bool
}

func newOccurrences(events []exercise.Event, seed uint64) occurrences {
	h := occurrences{seed: seed}
	for i, e := range events {
		h.waiting = append(h.waiting, awaited{e, fmt.Sprintf("events/%d", i), false})
	}
	return h
}

// OnEvent has f told of each event as it begins, and with over set as it ends.
func (p *Passage) OnEvent(f func(h Occurrence, over bool)) { p.events.told = f }

// Happened are the events that began so far, in order.
func (p *Passage) Happened() []Occurrence {
	var out []Occurrence
	for _, h := range p.events.all {
		out = append(out, *h)
	}
	return out
}

// Happen implements [order.Ship]: the event begins with the next tick.
func (p *Passage) Happen(e exercise.Event) {
	h := &p.events
	e.At, e.Line = p.Now(), ""
	h.waiting = append(h.waiting, awaited{e, fmt.Sprintf("events/ordered/%d", h.ordered), true})
	h.ordered++
}

// befall ends the events whose time is over and begins those whose time has come.
func (p *Passage) befall() {
	h := &p.events
	if len(h.waiting) == 0 && len(h.on) == 0 {
		return
	}
	now := p.Now()
	still := h.on[:0]
	for _, e := range h.on {
		if now < e.To {
			still = append(still, e)
			continue
		}
		p.undo(e)
		if h.told != nil {
			h.told(*e, true)
		}
	}
	clear(h.on[len(still):])
	h.on = still

	rest := h.waiting[:0]
	for _, w := range h.waiting {
		if p.due(&w.Event) {
			p.beginEvent(w)
		} else {
			rest = append(rest, w)
		}
	}
	h.waiting = rest
}

// due reports whether the time or the place of an event has come.
func (p *Passage) due(e *exercise.Event) bool {
	if e.Line == "" {
		return p.Now() >= e.At
	}
	logged, ok := p.Logging()
	if !ok || logged.Line != e.Line {
		return false
	}
	along, _ := p.trackOf(logged).Offset(p.gear.X, p.gear.Y)
	return along >= e.Along
}

func (p *Passage) beginEvent(w awaited) {
	h := &p.events
	draw := chance.Stream(h.seed, w.stream)
	e := &Occurrence{Event: w.Event, From: p.Now(), To: math.Inf(1), Ordered: w.ordered}
	if e.Kind == exercise.ChannelFault {
		e.Kind = [...]exercise.Trouble{exercise.DeadChannel, exercise.WeakChannel, exercise.SwappedChannels}[draw.IntN(3)]
		if k, _ := exercise.KindOf(exercise.WeakChannel); e.Kind == k.Kind {
			e.Size = k.Use * k.Per
		}
	}
	e.towards = drawTowards(e.Kind, draw)
	side := exercise.PortSide + exercise.Beam(draw.IntN(2))
	kind, _ := exercise.KindOf(e.Kind)
	if kind.Sided && e.Side == exercise.EitherSide {
		e.Side = side
	}
	switch {
	case kind.Once:
		e.To = e.From
	case e.For > 0:
		e.To = e.From + e.For
	}
	h.all, h.on = append(h.all, e), append(h.on, e)
	p.do(e)
	if h.told != nil {
		h.told(*e, false)
	}
}

// drawTowards is where a fix jumps, any way alike, or by how much a squall comes from
// elsewhere than the wind (our own choice: some 25 degrees).
func drawTowards(t exercise.Trouble, draw *rand.Rand) float64 {
	const veer = 25 * math.Pi / 180
	u, n := draw.Float64(), draw.NormFloat64()
	if t == exercise.Squall {
		return veer * n
	}
	return 2 * math.Pi * u
}

// do and undo are what events do to the passage; those of the sonar do nothing here.
func (p *Passage) do(e *Occurrence) {
	window := nav.Window{From: e.From, To: e.To}
	switch e.Kind {
	case exercise.GNSSOutage:
		p.inst.Interrupt(nav.Fix, window)
	case exercise.AltimeterDropout:
		p.inst.Interrupt(nav.FishAltitude, window)
	case exercise.CounterReset:
		p.inst.ZeroCounter(e.Size)
	default:
		p.lean(e, 1)
	}
}

func (p *Passage) undo(e *Occurrence) { p.lean(e, -1) }

// lean begins what an event does as long as it is on, by 1, and takes it back, by -1.
func (p *Passage) lean(e *Occurrence, by float64) {
	sin, cos := math.Sincos(e.towards)
	switch e.Kind {
	case exercise.GNSSJump:
		p.inst.Mislead(nav.Bias{East: by * e.Size * sin, North: by * e.Size * cos})
	case exercise.HeadingBias:
		p.inst.Mislead(nav.Bias{Heading: by * e.Size})
	case exercise.CompassBias:
		p.inst.Mislead(nav.Bias{FishHeading: by * e.Size})
	case exercise.CounterSlip:
		p.inst.Mislead(nav.Bias{CounterSlip: by * e.Size})
	case exercise.WinchJam:
		p.gear.Jammed = p.isOn(exercise.WinchJam, by, e)
	}
}

// isOn reports whether an event of a kind is on, when one begins or, by -1, ends.
func (p *Passage) isOn(kind exercise.Trouble, by float64, ending *Occurrence) bool {
	if by > 0 {
		return true
	}
	for _, e := range p.events.on {
		if e.Kind == kind && e != ending && p.Now() < e.To {
			return true
		}
	}
	return false
}

// engineOut reports whether the engine has failed.
func (p *Passage) engineOut() bool { return p.isOn(exercise.EngineFailure, -1, nil) }

// squall is how much harder the wind blows and from how far off where it did, m/s and
// radians, at a time: it comes within a quarter of a minute and goes as slowly (our own
// choice).
func (h *occurrences) squall(now float64) (more, veer float64) {
	const rise = 15.0 // seconds
	for _, e := range h.on {
		if e.Kind == exercise.Squall {
			share := min((now-e.From)/rise, (e.To-now)/rise, 1)
			more += e.Size * max(share, 0)
			veer += e.towards * max(share, 0)
		}
	}
	return more, veer
}
