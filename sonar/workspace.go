package sonar

import (
	"math"

	"dryline/sonar/lanes"
)

// Workspace is the memory one goroutine needs to make pings.
type Workspace struct {
	section Section
	key     int       // altitude the ground ranges were laid out for, in steps
	rolled  int       // roll the vertical patterns were turned for, in steps
	inverse []float64 // one over each
	ground  []float64 // ground ranges of the walk
	hidden  []float64 // share of each facet's lit part shadowed by something clear of the floor
	blocked []blocked // elevations shadowed, see walkRaised
	strips  strips

	altitude    float64
	below       [1]float64 // the ground range of nadir
	segments    int        // of the range, each with weights of its own
	tilts       tilts
	bins        int
	lanes       []lane
	refractions refractions
	refraction  *refraction // of the water's layers for this ping, nil without
	energy      []float32
	left        []float32 // per segment: the share of echoes that turning leaves
	stray       []float32 // per bin: sound that comes in beside the echoes, linear re 1 uPa^2
	radians     []float32 // per segment: of elevation with water in them, see quiet
	rings       []float32 // see sheet
	scratch     []float32
	draws       []uint32    // of the noise, by bin
	grain       []float32   // per bin: fewest scatterers to the square metre, 0 for many
	coarse      bool        // some bin has few
	overheard   [][]float32 // by channel: what the other side hears, if it is heard at all

	even     *even // nil for a sonar that does not walk so
	veil     veil
	arrival  arrival
	labels   *labelling // of the echo being made, nil for none
	labelled *labelling // the memory for it
}

// lane gathers the echo of one channel on the shared walk.
type lane struct {
	weights  []float64  // of the beam in the cell of each ray, ray by ray, by segment
	strip    []float64  // of the beam in the strip being walked, by segment
	now      []float64  // those of what is being walked
	vertical []float32  // two-way pattern by sine of the angle below horizontal
	strength *strengths // of the floor
	change   []float64  // of the energy from bin to bin, see deposit
}

const (
	altitudeStep = 0.10 // the walk is laid out for altitudes in these steps, metres
	shortestStep = 0.08 // of the walk, metres
	widestStep   = 0.10 // of the walk near nadir, metres
)

// NewWorkspace returns a workspace for the engine.
func (e *Engine) NewWorkspace() *Workspace {
	ws := &Workspace{
		key:      -1,
		rolled:   math.MinInt,
		segments: len(e.channels[0].beam.segments), left: make([]float32, len(e.channels[0].beam.segments)),
		rings:   make([]float32, e.spec.Samples/lanes.RingBins),
		radians: make([]float32, (e.spec.Samples+segmentBins-1)/segmentBins),
		bins:    e.spec.Samples,
		energy:  make([]float32, e.spec.Samples), stray: make([]float32, e.spec.Samples), scratch: make([]float32, e.spec.Samples+e.longestKernel()), draws: make([]uint32, e.spec.Samples), grain: make([]float32, e.spec.Samples),
	}
	for range e.channels {
		ws.lanes = append(ws.lanes, lane{
			weights: make([]float64, len(e.fan.place)*ws.segments),
			change:  make([]float64, e.spec.Samples+2),
			strip:   make([]float64, ws.segments),
		})
	}
	ws.strips.shares, ws.tilts = e.newShares(ws), e.newTilts()
	if e.spec.Step == FineSteps {
		ws.even = e.newEven(ws)
	}
	return ws
}

// begin clears the accumulators and lays out the walk for the altitude.
func (ws *Workspace) begin(e *Engine, floor Floor, pose Pose) {
	for i := range ws.lanes {
		clear(ws.lanes[i].change)
	}
	if ws.coarse {
		clear(ws.grain)
		ws.coarse = false
	}
	ws.section.Steps = ws.below[:]
	floor.Trace(&ws.section, pose.X, pose.Y, 0, 1)
	ws.altitude = max(pose.Z-ws.section.Z[0], altitudeStep)
	if key := int(ws.altitude / altitudeStep); key != ws.key {
		ws.key = key
		ws.layOut(e, float64(key)*altitudeStep)
	}
	ws.section.Steps, ws.section.Fine = ws.ground, e.bin
}

// layOut weighs the cells of the beam and places the steps of the walk: facets
// about as long as the nodes of the micro-relief lie apart, or one bin of slant
// range if that is longer. Near nadir one bin holds half a metre of floor; there
// the facets stay short.
func (ws *Workspace) layOut(e *Engine, altitude float64) {
	ws.ground, ws.inverse = ws.ground[:0], ws.inverse[:0]
	end := float64(e.spec.Samples) * e.bin
	for g := 0.01; g < end; {
		ws.ground = append(ws.ground, g)
		ws.inverse = append(ws.inverse, 1/g)
		oneBin := e.bin * math.Sqrt(1+altitude*altitude/(g*g))
		g += max(min(oneBin, widestStep), shortestStep)
	}
	for c, t := range e.channels {
		for m := range e.fan.place {
			e.weigh(ws.weightsOf(c, m), t, e.fan.edges[m], e.fan.edges[m+1], altitude, 0, ws.segments-1)
		}
	}
	if ws.even != nil {
		ws.even.weigh(ws)
	}
}

// weightsOf are the weights of a channel in the cell of a ray, by segment.
func (ws *Workspace) weightsOf(channel, ray int) []float64 {
	return ws.lanes[channel].weights[ray*ws.segments : (ray+1)*ws.segments]
}

// aim has what is walked next weighed as the cell of a ray, over ground whose
// micro-relief is drawn or not.
func (ws *Workspace) aim(e *Engine, ray int, drawn bool) {
	for c, t := range e.channels {
		ws.lanes[c].now, ws.lanes[c].strength = ws.weightsOf(c, ray), t.drawn
		if !drawn {
			ws.lanes[c].strength = t.strength()
		}
	}
}

// gather sums a lane's changes into the energy of every bin, times a factor of
// the bin's own and what is left by segment. What rounding leaves behind where
// nothing answered is taken for nothing.
func (ws *Workspace) gather(channel int, factor []float32) {
	if ws.evenly() {
		ws.gatherEvenly(channel, factor)
		return
	}
	const residue = 1e-10
	change := ws.lanes[channel].change[:len(ws.energy)]
	factor = factor[:len(ws.energy)]
	largest, sum := 0.0, 0.0
	for s := 0; s<<segmentShift < len(change); s++ {
		from, to := s<<segmentShift, min((s+1)<<segmentShift, len(change))
		left, energy, factor := ws.left[s], ws.energy[from:to], factor[from:to]
		for k, c := range change[from:to] {
			sum += c
			if sum > largest {
				largest = sum
			}
			e := float32(0)
			if sum >= residue*largest {
				e = float32(sum) * factor[k] * left
			}
			energy[k] = e
		}
	}
}
