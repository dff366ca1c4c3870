package vessel_test

import (
	"math"
	"testing"

	"dryline/vessel"
	"dryline/vessel/nav"
	"dryline/vessel/sea"
	"dryline/vessel/tow"
)

// passage is all that moves: weather, hull, ride, tow and instruments.
type passage struct {
	now     float64
	gust    *sea.Gust
	current sea.Profile
	hull    vessel.Hull
	motion  *vessel.Motion
	gear    *tow.Gear
	inst    *nav.Instruments
	reading nav.Reading
}

// Current implements [tow.Water].
func (p *passage) Current(z float64) (east, north float64) { return p.current.At(z) }

func newPassage(t testing.TB) *passage {
	t.Helper()
	current, err := sea.NewProfile([]sea.Current{{Speed: 0.5, Set: 1}, {Depth: 8, Speed: 0.1, Set: 2}})
	if err != nil {
		t.Fatal(err)
	}
	spec := vessel.Spec{
		Length: 11, Beam: 3.6, Draft: 1.1, Mass: 11000, Block: 0.45, GM: 0.8, TurningIndex: 1.3, TimeIndex: 1,
		RudderMax: 0.44, RudderRate: 0.1, PropellerWalk: 0.03, SpeedMax: 5, WindAreaFront: 9, WindAreaSide: 20,
		Wind: vessel.Tender, Antenna: vessel.Offset{Forward: 0.5, Up: 4.5}, Sheave: vessel.Offset{Forward: -5.8, Up: 2.2},
	}
	gear := tow.Spec{
		Cable: tow.Cable{Diameter: 0.0105, Weight: 0.6, Normal: 1.3, Tangential: 0.01, Length: 200},
		Fish: tow.Fish{
			Weight: 260, DragArea: 0.022, Mass: 40, Pitch: 0.017, Length: 1.3, FinArea: 0.05, TowForward: 0.01, TowAbove: 0.12,
		},
		Winch: tow.Winch{Rate: 0.4, Min: 2, Power: 750},
	}
	e := nav.Errors{Bias: 0.01, Noise: 0.01, Step: 0.001}
	timing := nav.Timing{Rate: 2, Delay: 0.3, Outages: []nav.Window{{From: 5, To: 8}}}
	p := &passage{
		gust: sea.NewGust(8, 4, 1), current: current, hull: vessel.Hull{Spec: spec, Surge: 2},
		motion: vessel.NewMotion(vessel.Form{Length: 11, Beam: 3.6, Draft: 1.1, Block: 0.45, GM: 0.8},
			sea.New(sea.Blown(8, 4, 10e3, 14), 1).Components()),
		inst: nav.New(nav.Spec{
			GNSS: nav.GNSSSpec{Timing: timing, Drift: 0.3, DriftTime: 120, Noise: 0.05}, Heading: nav.HeadingSpec{Timing: timing, Errors: e, Turn: e},
			Motion: nav.MotionSpec{Heave: e, Pitch: e, Roll: e}, FishDepth: nav.DepthSpec{Errors: e}, Compass: nav.CompassSpec{Errors: e, Pitch: e, Roll: e},
			Altimeter: nav.AltimeterSpec{Errors: e, DropOut: nav.EpisodeSpec{Rate: 0.1, Mean: 2}}, Counter: nav.CounterSpec{Errors: e, Slip: 0.01},
			Beacon: nav.BeaconSpec{Fitted: true, Share: 0.01, Outliers: 0.02, OutlierSize: 0.2}, SpeedLog: nav.SpeedLogSpec{Errors: e},
			Wind: nav.WindSpec{Speed: e, From: e},
		}, 1),
	}
	p.gear = tow.New(gear, 2.2, 40, 2, 0, -5.8, 0)
	return p
}

const tick = 0.1

// step is one tick, in the order in which a session takes them.
func (p *passage) step() {
	h := &p.hull
	speed, from := p.gust.At(p.now)
	sin, cos := math.Sincos(from)
	w := vessel.Weather{WindX: -speed * sin, WindY: -speed * cos}
	w.CurrentX, w.CurrentY = p.current.At(0)
	h.PullX, h.PullY = p.gear.PullX, p.gear.PullY
	h.Step(tick, vessel.Orders{Rudder: 0.2, Thrust: 0.3}, w)
	p.now += tick
	ride := p.motion.At(p.now, h)
	x, y, up := h.RidingAt(h.Spec.Sheave, ride)
	p.gear.SheaveUp = up
	p.gear.Step(tick, x, y, p, -14)
	ax, ay, _ := h.RidingAt(h.Spec.Antenna, ride)
	vx, vy := h.VelocityRiding(h.Spec.Antenna, ride)
	p.reading = p.inst.Read(p.now, tick, nav.Truth{
		VesselX: h.X, VesselY: h.Y, AntennaX: ax, AntennaY: ay, VX: vx, VY: vy, Heading: h.Heading, YawRate: h.YawRate,
		Heave: ride.Heave, Pitch: ride.Pitch, Roll: ride.Roll, WindX: w.WindX, WindY: w.WindY, CableOut: p.gear.CableOut,
		FishX: p.gear.X, FishY: p.gear.Y, FishDepth: p.gear.Depth, FishAltitude: 14 - p.gear.Depth,
		FishHeading: p.gear.Yaw, FishPitch: p.gear.Pitch, FishRoll: p.gear.Roll,
	})
}

// A whole tick allocates nothing, turning in waves while the winch pays out and
// hauls and the cable is cut finer and coarser.
func TestTickAllocatesNothing(t *testing.T) {
	p := newPassage(t)
	p.step() // the history of the instruments is laid out at the first
	p.gear.Ordered = 160
	// The whole passage at once: an average over ticks would hide one in ten.
	if n := testing.AllocsPerRun(1, func() {
		for range 3500 {
			if p.gear.CableOut == 160 {
				p.gear.Ordered = 5
			}
			p.step()
		}
	}); n != 0 {
		t.Errorf("got %g allocations in a passage, want none", n)
	}
	if p.gear.Ordered != 5 || p.reading.Time != p.now {
		t.Errorf("ended at %.1f s with %.1f m out: the winch was not worked", p.now, p.gear.CableOut)
	}
}

// One tick of all of it, in a steady turn.
func BenchmarkTick(b *testing.B) {
	p := newPassage(b)
	b.ReportAllocs()
	for b.Loop() {
		p.step()
	}
}
