package sonar

import (
	"math"

	"dryline/seabed"
	"dryline/sonar/lanes"
)

// even holds what a workspace needs to walk ground at the even steps of package lanes: 1/64 m of
// ground range. What is walked so leaves its energy here, what is not in the changes of the
// workspace's lanes; gather adds the two. Package lanes takes two channels at a time: a pair.
type even struct {
	on      bool // for the side being sounded
	mixed   bool // some of it is not walked in lanes
	ground  seabed.Stretch
	steps   []float64 // ground ranges, metres
	inverse []float32 // one over each
	perBin  float32   // bins to the metre
	pairs   []evenPair
	bins    []lanes.Bin
	strip   evenStrip
	long    []uint16
	bent    lanes.Bending
	columns []between // of refraction, by sample

	laid, drawn bool // what the tables are laid out for
	rolled      int

	// The ground as a Section, for strips and what hangs in the water.
	z, slope []float64
	class    []seabed.Class
	object   []uint16
}

// evenPair is two channels. Of an odd number, the last pair's second hears nothing.
type evenPair struct {
	tables  *lanes.Tables
	blocks  []lanes.Block
	weights [2][]float32 // of the beam in the cell of each ray, ray by ray, by segment
	strip   [2][]float32 // of the beam in the strip being walked, by segment
	energy  [2][]float32 // by bin
}

func (e *Engine) newEven(ws *Workspace) *even {
	nodes := int(math.Ceil(float64(e.spec.Samples) * e.bin * lanes.PerMetre / lanes.Width))
	n := nodes * lanes.Width
	v := &even{
		steps: make([]float64, n), inverse: make([]float32, n), perBin: float32(1 / e.bin),
		bins: make([]lanes.Bin, e.spec.Samples+1), long: make([]uint16, nodes+2),
		z: make([]float64, n), slope: make([]float64, n), class: make([]seabed.Class, n), object: make([]uint16, n),
	}
	for i := range v.steps {
		v.steps[i] = float64(i+1) * lanes.Step
	}
	lanes.Inverses(v.inverse)
	v.strip.blocks = make([]lanes.Block, nodes+2)
	for range (len(e.channels) + 1) / 2 {
		p := evenPair{tables: new(lanes.Tables), blocks: make([]lanes.Block, nodes)}
		for c := range p.energy {
			p.weights[c] = make([]float32, len(e.fan.place)*ws.segments)
			p.strip[c] = make([]float32, ws.segments)
			p.energy[c] = make([]float32, e.spec.Samples)
		}
		v.pairs = append(v.pairs, p)
	}
	if len(e.profile) > 0 {
		for _, b := range []*lanes.Bending{&v.bent, &v.strip.bent} {
			*b = lanes.Bending{Launch: make([]float32, n), Arrive: make([]float32, n), Excess: make([]float32, n)}
		}
		v.columns = make([]between, n)
		perMetre := (refractionColumns - 1) / (float64(e.spec.Samples) * e.bin)
		for i, g := range v.steps {
			u := min(g*perMetre, refractionColumns-1-1e-6)
			v.columns[i] = between{int32(u), float32(u - math.Floor(u))}
		}
	}
	return v
}

// between is where a ground range lies between two columns of refraction.
type between struct {
	at   int32
	past float32
}

// of is a channel's pair and its place there.
func (v *even) of(channel int) (p *evenPair, c int) { return &v.pairs[channel/2], channel % 2 }

// begin readies the even walk of a side, or not to walk so.
func (v *even) begin(on bool) {
	v.on, v.mixed = on, false
	if on {
		for i := range v.pairs {
			clear(v.pairs[i].energy[0])
			clear(v.pairs[i].energy[1])
		}
	}
}

// weigh takes over the weights of all cells.
func (v *even) weigh(ws *Workspace) {
	for c := range ws.lanes {
		p, i := v.of(c)
		for k, w := range ws.lanes[c].weights {
			p.weights[i][k] = float32(w)
		}
	}
}

// aim lays out the tables for ground whose micro-relief is drawn or not, and for the roll.
func (v *even) aim(e *Engine, ws *Workspace, drawn bool) {
	if !v.laid || v.rolled != ws.rolled {
		v.rolled = ws.rolled
		for c := range ws.lanes {
			p, i := v.of(c)
			copy(p.tables.Vertical[i][:], ws.lanes[c].vertical)
		}
	}
	if v.laid && v.drawn == drawn {
		return
	}
	v.laid, v.drawn = true, drawn
	for c := range ws.lanes {
		p, i := v.of(c)
		for class := range seabed.Classes {
			for step, s := range ws.lanes[c].strength[class] {
				p.tables.Strength[class][step][i] = s
			}
			p.tables.Rest[class] = e.remainders[class]
			if !drawn {
				for k := range p.tables.Rest[class] {
					p.tables.Rest[class][k] = 1
				}
			}
		}
	}
}

// asSection makes the ground the section of the workspace.
func (v *even) asSection(s *Section, fishZ float64) {
	g := &v.ground
	for i, z := range g.Z {
		v.z[i] = float64(z) + fishZ
		v.slope[i] = float64(g.Slope[i])
		v.class[i] = seabed.Class(g.Class[i])
	}
	s.G, s.Z, s.Slope, s.Class, s.Object = v.steps, v.z, v.slope, v.class, v.object
	s.Drawn, s.Raised = g.Drawn, s.Raised[:0]
}

// bend works out what the layers of the water do to the ray to each height over the fish, from a sample on.
func (v *even) bend(r *refraction, fishZ float64, heights []float32, first int, dst *lanes.Bending) {
	n := len(heights)
	columns, launch, arrive, excess := v.columns[first:first+n], dst.Launch[:n], dst.Arrive[:n], dst.Excess[:n]
	last := float64(len(r.rows)-1) - 1e-6
	known := -1
	var upper, lower []bending
	for i, z := range heights { // refraction.at, its column known beforehand
		w := min(max((-float64(z)-fishZ)/rowStep, 0), last)
		j := int(w)
		if j != known {
			upper, lower, known = r.row(j), r.row(j+1), j
		}
		c := columns[i]
		p, q := upper[c.at:c.at+2:c.at+2], lower[c.at:c.at+2:c.at+2]
		fu, fv := c.past, float32(w-float64(j))
		a, b := p[0].launch+float32(fu*(p[1].launch-p[0].launch)), q[0].launch+float32(fu*(q[1].launch-q[0].launch))
		launch[i] = a + float32(fv*(b-a))
		a, b = p[0].arrive+float32(fu*(p[1].arrive-p[0].arrive)), q[0].arrive+float32(fu*(q[1].arrive-q[0].arrive))
		arrive[i] = a + float32(fv*(b-a))
		a, b = p[0].excess+float32(fu*(p[1].excess-p[0].excess)), q[0].excess+float32(fu*(q[1].excess-q[0].excess))
		excess[i] = a + float32(fv*(b-a))
	}
}

// tangent is that of the elevation of a sample, as lanes reckon it.
func (v *even) tangent(ws *Workspace, i int) float32 {
	t := float32(v.ground.Z[i] * v.inverse[i])
	if ws.refraction != nil {
		t += v.bent.Launch[i]
	}
	return t
}

// evenly reports whether this side is walked so.
func (ws *Workspace) evenly() bool { return ws.even != nil && ws.even.on }

// gatherEvenly is gather where ground has been walked evenly.
func (ws *Workspace) gatherEvenly(channel int, factor []float32) {
	p, i := ws.even.of(channel)
	if ws.even.mixed {
		ws.addChanges(p.energy[i], ws.lanes[channel].change)
	}
	lanes.Gather(ws.energy, p.energy[i], factor, ws.left) // strips may leave a grain less than nothing
}

// addChanges adds what was not walked in lanes to the energy of bins.
func (ws *Workspace) addChanges(energy []float32, change []float64) {
	const residue = 1e-10 // as in gather
	largest, sum := 0.0, 0.0
	for k := range energy {
		sum += change[k]
		largest = max(largest, sum)
		if sum >= residue*largest {
			energy[k] += float32(sum)
		}
	}
}

// stripsIn reports whether anything stands in the cell of a ray.
func (e *Engine) stripsIn(ws *Workspace, ray int) bool {
	st := &ws.strips
	return st.next < len(st.list) && st.list[st.next].from <= e.fan.edges[ray+1]-1e-9
}
