package nav

import (
	"math"
	"math/rand/v2"
)

// BeaconSpec is an acoustic beacon on the fish, and how what a transducer on the
// vessel hears of it lies.
//
// The transducer measures where the beacon lies from it in the vessel's own
// axes. It stands turned by Align from where it is thought to, and its place is
// known wrongly by a fixed offset. On each axis the error from call to call is
// Noise and Share of the slant range, one standard deviation each (0.1 to 0.3 %
// for a good system, 1 to 3 % for a cheap one; common practice, no source). The
// position adds that, turned by the heading shown, to the fix shown, carried on
// to the moment with its course and speed: a heading wrong by an angle a throws
// the beacon R a aside, 1.75 m per degree and 100 m (NOAA Field Procedures
// Manual, 1.5.7.1). Now and then an echo is taken for the answer and the position
// is an outlier, or no answer comes. Left out: the bending of sound, noise of the
// vessel, and travel time, which may be given as a delay.
type BeaconSpec struct {
	Timing
	Fitted             bool
	Forward, Starboard float64 // of the transducer on the vessel, metres
	Down               float64 // of the transducer below still water, metres
	Align              float64 // how far the transducer is turned to starboard, radians

	BiasForward, BiasStarboard, BiasDown float64 // fixed error of each axis, metres

	Noise       float64 // each axis, metres
	Share       float64 // of the slant range, each axis
	Step        float64 // last digit of each axis, metres
	Outliers    float64 // probability per answer
	OutlierSize float64 // mean displacement of an outlier, share of the slant range
	DropOuts    float64 // probability per call
}

type beacon struct {
	clock
	spec *BeaconSpec

	chance, replies, outliers *rand.Rand
}

func newBeacon(s *BeaconSpec, stream streams) *beacon {
	return &beacon{
		clock: clock{timing: &s.Timing}, spec: s,
		chance: stream("beacon"), replies: stream("beacon/replies"), outliers: stream("beacon/outliers"),
	}
}

func (b *beacon) read(now, _ float64, past *history, r *Reading) {
	s := b.spec
	if !s.Fitted {
		return
	}
	ok := b.speaks(now, Beacon, r)
	if !r.Fresh.Has(Beacon) {
		return
	}
	ok = ok && b.replies.Float64() >= s.DropOuts && r.Valid.Has(Fix|Heading)
	r.Valid.put(Beacon, ok)
	if r.Beacon.OK = ok; !ok {
		return
	}
	t := past.ago(s.Delay)
	sin, cos := math.Sincos(t.Heading)
	ahead := func(x, y float64) float64 { return x*sin + y*cos }
	abeam := func(x, y float64) float64 { return x*cos - y*sin }

	fx, fy := t.FishX-t.VesselX, t.FishY-t.VesselY
	forward, starboard, down := ahead(fx, fy)-s.Forward, abeam(fx, fy)-s.Starboard, t.FishDepth-s.Down
	slant := math.Sqrt(forward*forward + starboard*starboard + down*down)

	// Turned to starboard it has all it hears too far to port.
	sinA, cosA := math.Sincos(s.Align)
	forward, starboard = forward*cosA+starboard*sinA, starboard*cosA-forward*sinA
	forward, starboard, down = forward+s.BiasForward, starboard+s.BiasStarboard, down+s.BiasDown

	e := math.Hypot(s.Noise, s.Share*slant)
	forward += e * b.chance.NormFloat64()
	starboard += e * b.chance.NormFloat64()
	down += e * b.chance.NormFloat64()
	u, far, way := b.outliers.Float64(), b.outliers.Float64(), b.outliers.Float64()
	if u < s.Outliers {
		cast := s.OutlierSize * slant * (0.5 + far)
		dx, dy := math.Sincos(2 * math.Pi * way)
		forward, starboard = forward+cast*dy, starboard+cast*dx
	}

	forward, starboard, down = quantise(forward, s.Step), quantise(starboard, s.Step), quantise(down, s.Step)

	// From the antenna, whose place on board is known.
	ax, ay := t.AntennaX-t.VesselX, t.AntennaY-t.VesselY
	a, o := forward+s.Forward-ahead(ax, ay), starboard+s.Starboard-abeam(ax, ay)
	sin, cos = math.Sincos(float64(r.GridHeading()))
	x, y := r.CarriedOn()
	r.Beacon = BeaconReading{
		X: x + a*sin + o*cos, Y: y + a*cos - o*sin, Depth: max(down+s.Down, 0),
		Slant: math.Sqrt(forward*forward + starboard*starboard + down*down), OK: true, Time: now,
	}
}
