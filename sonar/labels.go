package sonar

import (
	"math"

	"dryline/seabed"
)

// LabelKind says what a sample shows.
type LabelKind uint8

// The kinds of label.
const (
	NoiseLabel   LabelKind = iota // nothing stands out of noise and water that ought to be there
	WaterLabel                    // before the first echo of floor or object
	FloorLabel                    // the floor, lit
	ObjectLabel                   // an object
	ShadowLabel                   // floor in a shadow
	LayoverLabel                  // an object over lit floor that lies as far off
	SurfaceLabel                  // the sea surface
)

// String returns a word for the kind.
func (k LabelKind) String() string {
	return [...]string{"noise", "water", "floor", "object", "shadow", "layover", "surface"}[k]
}

// Label is the truth of one sample: what it shows, and of the strongest single
// contribution to it what that is made of and where it lies. In shadow that is of
// the floor hidden, in layover of the object. Kinds are told apart on the first
// channel, before speckle; floor of which less than a tenth answers is hidden.
type Label struct {
	Kind   LabelKind
	Class  seabed.Class
	Object uint16  // number of the object, 0 for the floor
	Ground float32 // ground range, metres
	Height float32 // on the grid, metres
	Sine   float32 // of the angle between the ray and the facet; of parts clear of the floor that of the ray
}

// Grazing is the angle between the ray and the facet, radians.
func (l *Label) Grazing() float64 { return math.Asin(float64(min(max(l.Sine, 0), 1))) }

// Across is the line on the grid along which the middle of a side's beam meets the
// ground, for what comes back of a ping: ground range g of a [Label] is the point
// X + g sin Bearing, Y + g cos Bearing. It begins where the plane square to the fish's
// axis passes below it, which for a fish that pitches is ahead or astern, and drifts
// ahead of square by v/c, as the fish runs on while the sound is under way.
type Across struct {
	X, Y    float64 // metres
	Bearing float64 // grid bearing, radians
}

// At is the point of the line at a ground range, metres.
func (a *Across) At(ground float64) (x, y float64) {
	sin, cos := math.Sincos(a.Bearing)
	return a.X + ground*sin, a.Y + ground*cos
}

// LabelKinds are all kinds, in the order of their values.
func LabelKinds() []LabelKind {
	return []LabelKind{NoiseLabel, WaterLabel, FloorLabel, ObjectLabel, ShadowLabel, LayoverLabel, SurfaceLabel}
}

// NewLabelledEcho is NewEcho with labels, which pings then fill.
func (e *Engine) NewLabelledEcho() Echo {
	echo := e.NewEcho()
	echo.Labels = make([]Label, e.spec.Samples)
	return echo
}

// labelling gathers what labels are made from, of the first channel.
type labelling struct {
	spot    Label // what is being deposited
	sight   sight // of it, if where it lies is worked out only for what is shown at last
	removes bool  // what is deposited is taken away

	floor, object []strongest // of the floor and of objects, per bin
	sample        []int32     // per bin, scratch of lookAtFloor
	surface       []float32

	// Energy of floor without objects and of objects, from bin to bin, see deposit. As long as a
	// ping has met nothing but bare floor, the first lane's changes are the one and there are none of the
	// other; what is not bare floor sets them apart.
	apart        bool
	bare, things []float64
}

// strongest is the strongest single part of a bin, and how strong.
type strongest struct {
	most float64
	Label
	sight sight
}

// sight is a facet of an even walk: after which sample it ends, counted from 1, 0 for none, its heights
// over the fish, and what bends the ray to it.
type sight struct {
	sample         int32
	z0, z1         float32
	excess, arrive float32
}

// strive takes a part for the strongest if it is.
func (s *strongest) strive(part float64, spot *Label, at *sight) {
	if part > s.most {
		s.most, s.Label, s.sight = part, *spot, *at
	}
}

// label readies the workspace to label an echo or not to.
func (ws *Workspace) label(dst *Echo) {
	if dst.Labels == nil {
		ws.labels = nil
		return
	}
	l := ws.labelled
	if l == nil {
		n := ws.bins
		l = &labelling{
			floor: make([]strongest, n), object: make([]strongest, n),
			bare: make([]float64, n+2), things: make([]float64, n+2), surface: make([]float32, n), sample: make([]int32, n),
		}
		ws.labelled = l
	}
	clear(l.floor)
	l.removes, l.apart = false, false
	if ws.even != nil { // the changes are not all there is
		l.apart = true
		clear(l.bare)
		clear(l.things)
		clear(l.object)
	}
	ws.labels = l
}

// setApart begins sums of its own from those of the first lane.
func (l *labelling) setApart(first *lane) {
	l.apart = true
	copy(l.bare, first.change)
	clear(l.things)
	clear(l.object)
}

// taking returns the bins that a deposit of the spot competes in and adds to; nothing for what is not noted.
func (l *labelling) taking(first *lane) (bins []strongest, sums []float64) {
	bare := l.spot.Object == 0 && !l.removes && &first.now[0] != &first.strip[0]
	if !bare && !l.apart {
		l.setApart(first)
	}
	switch {
	case bare:
		return l.floor, l.bare
	case l.removes || l.spot.Object == 0:
		return nil, nil // taken away, or furnished ground: the bare one has been noted
	}
	return l.object, l.things
}

// take notes a deposit of density x that begins fa into bin ka and ends fb into bin kb, wide
// apart, as deposit has them, before it is added to the first lane.
func (l *labelling) take(first *lane, x float64, ka, kb int, fa, fb, wide float64) {
	bins, sums := l.taking(first)
	if bins == nil {
		return
	}
	if ka == kb {
		bins[ka].strive(x*wide, &l.spot, &l.sight)
	} else {
		bins[ka].strive(x*(1-fa), &l.spot, &l.sight)
		for k := ka + 1; k < kb; k++ {
			bins[k].strive(x, &l.spot, &l.sight)
		}
		if kb < len(bins) {
			bins[kb].strive(x*fb, &l.spot, &l.sight)
		}
	}
	if l.apart {
		sums[ka] += x * (1 - fa)
		sums[ka+1] += x * fa
		sums[kb] -= x * (1 - fb)
		sums[kb+1] -= x * fb
	}
}

// takeWhole is take for a deposit that lies in one bin whole.
func (l *labelling) takeWhole(first *lane, energy float64, k int) {
	bins, sums := l.taking(first)
	if bins == nil {
		return
	}
	bins[k].strive(energy, &l.spot, &l.sight)
	if l.apart {
		sums[k] += energy
		sums[k+1] -= energy
	}
}

// settle writes the labels once the first channel has been gathered.
func (e *Engine) settle(ws *Workspace, dst []Label, pose *Pose, side Side, number uint64) {
	const there = 0.1 // of the floor's energy
	l, t := ws.labels, e.channels[0]
	var heard []float32 // of the surface
	if e.spec.Effects.SurfaceEcho {
		clear(l.surface)
		a := arrival{engine: e, channel: t, side: side, number: number, pose: *pose, altitude: ws.altitude,
			vertical: ws.lanes[0].vertical, intensity: l.surface, stray: ws.scratch[:ws.bins], rings: ws.rings}
		e.surface.add(&a)
		heard = l.surface
	}
	changes := ws.lanes[0].change
	if l.apart {
		changes = l.bare
	}
	noise := t.noise
	floor, energy, stray := l.floor[:len(dst)], ws.energy[:len(dst)], ws.stray[:len(dst)]
	propagate := t.propagate[:len(dst)]
	bare, things := 0.0, 0.0
	begun := false
	for k, change := range changes[:len(dst)] {
		bare += change
		factor := float64(propagate[k] * ws.left[k>>segmentShift])
		// Compared by hand: max of floats looks after cases that do not come up.
		expected, lit, object, surface := 0.0, 0.0, 0.0, 0.0
		if floor[k].most != 0 {
			if bare > 0 {
				expected = bare * factor
			}
			lit = float64(energy[k])
		}
		if l.apart {
			things += l.things[k]
			if things > 0 {
				object = things * factor
				if lit -= object; lit < 0 {
					lit = 0
				}
				if l.object[k].most == 0 {
					object = 0
				}
			}
		}
		if heard != nil {
			surface = float64(heard[k])
		}
		quiet := float64(noise + stray[k])
		begun = begun || expected > 0 || object > 0
		switch {
		case surface >= lit && surface >= object && surface >= quiet:
			dst[k] = Label{Kind: SurfaceLabel}
		case object > 0 && object >= lit && object >= quiet:
			dst[k] = ws.shown(&l.object[k], pose.Z)
			dst[k].Kind = ObjectLabel
			if expected > 0 && lit > there*expected {
				dst[k].Kind = LayoverLabel
			}
		case !begun:
			dst[k] = Label{Kind: WaterLabel}
		case expected == 0: // the floor hides itself
			dst[k] = Label{Kind: ShadowLabel}
		case expected < quiet:
			dst[k] = Label{Kind: NoiseLabel}
		default:
			dst[k] = ws.shown(&floor[k], pose.Z)
			dst[k].Kind = FloorLabel
			if lit < there*expected {
				dst[k].Kind = ShadowLabel
			}
		}
	}
}

// spotAt returns what a facet of a walk shows.
func spotAt(class seabed.Class, object uint16, ground, height, sine float64) Label {
	return Label{Class: class, Object: object, Ground: float32(ground), Height: float32(height), Sine: float32(sine)}
}
