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
	removes bool  // what is deposited is taken away

	floor, object         []Label   // strongest of the floor and of objects, per bin
	floorMost, objectMost []float64 // and how strong, to the bin
	bare, things          []float64 // energy of floor without objects and of objects, from bin to bin, see deposit
	surface               []float32
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
			floor: make([]Label, n), object: make([]Label, n), floorMost: make([]float64, n), objectMost: make([]float64, n),
			bare: make([]float64, n+2), things: make([]float64, n+2), surface: make([]float32, n),
		}
		ws.labelled = l
	}
	clear(l.floorMost)
	clear(l.objectMost)
	clear(l.bare)
	clear(l.things)
	clear(l.surface)
	l.removes = false
	ws.labels = l
}

// take notes a deposit of density x over the bins from a to b, as deposit has them.
func (l *labelling) take(x, a, b float64, ground bool) {
	if l.removes {
		return
	}
	ka, kb := int(a), int(b)
	most, labels, sums := l.floorMost, l.floor, l.bare
	if l.spot.Object != 0 {
		most, labels, sums = l.objectMost, l.object, l.things
	} else if !ground {
		return // furnished ground: the bare one has been noted
	}
	fa, fb := a-float64(ka), b-float64(kb)
	part := x * (1 - fa) // of the first bin; whole ones between; of the last
	if ka == kb {
		part = x * (b - a)
	}
	for k := ka; k < kb; k++ {
		if part > most[k] {
			most[k], labels[k] = part, l.spot
		}
		part = x
	}
	if ka < kb {
		part = x * fb
	}
	if kb < len(most) && part > most[kb] {
		most[kb], labels[kb] = part, l.spot
	}
	sums[ka] += x * (1 - fa)
	sums[ka+1] += x * fa
	sums[kb] -= x * (1 - fb)
	sums[kb+1] -= x * fb
}

// settle writes the labels once the first channel has been gathered.
func (e *Engine) settle(ws *Workspace, dst []Label, pose *Pose, side Side, number uint64) {
	const there = 0.1 // of the floor's energy
	l, t := ws.labels, e.channels[0]
	if e.spec.Effects.SurfaceEcho {
		a := arrival{engine: e, channel: t, side: side, number: number, pose: *pose, altitude: ws.altitude,
			vertical: ws.lanes[0].vertical, intensity: l.surface, stray: ws.scratch}
		e.surface.add(&a)
	}
	bare, things := 0.0, 0.0
	begun := false
	for k := range dst {
		bare += l.bare[k]
		things += l.things[k]
		factor := float64(t.propagate[k] * ws.left[k>>segmentShift])
		expected, object := max(bare, 0)*factor, max(things, 0)*factor
		lit := max(float64(ws.energy[k])-object, 0)
		quiet, surface := float64(t.noise+ws.stray[k]), float64(l.surface[k])
		if l.objectMost[k] == 0 {
			object = 0
		}
		if l.floorMost[k] == 0 {
			expected, lit = 0, 0
		}
		begun = begun || expected > 0 || object > 0
		out := l.floor[k]
		switch strongest := max(lit, object, quiet, surface); {
		case surface == strongest:
			out = Label{Kind: SurfaceLabel}
		case object == strongest && object > 0:
			out = l.object[k]
			out.Kind = ObjectLabel
			if expected > 0 && lit > there*expected {
				out.Kind = LayoverLabel
			}
		case !begun:
			out = Label{Kind: WaterLabel}
		case expected == 0: // the floor hides itself
			out = Label{Kind: ShadowLabel}
		case expected < quiet:
			out = Label{Kind: NoiseLabel}
		case lit < there*expected:
			out.Kind = ShadowLabel
		default:
			out.Kind = FloorLabel
		}
		dst[k] = out
	}
}

// spotAt is what a facet of a walk shows.
func spotAt(class seabed.Class, object uint16, ground, height, sine float64) Label {
	return Label{Class: class, Object: object, Ground: float32(ground), Height: float32(height), Sine: float32(sine)}
}
