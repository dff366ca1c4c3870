package exercise

import (
	"math"

	"dryline/seabed/units"
)

// Trouble is a kind of event: what goes wrong on purpose.
type Trouble string

// The kinds of events.
const (
	GNSSOutage       Trouble = "gnss_outage"       // the receiver has no fix
	GNSSJump         Trouble = "gnss_jump"         // fixes lie aside, whereto by chance
	AltimeterDropout Trouble = "altimeter_dropout" // the fish's altimeter has nothing to say
	HeadingBias      Trouble = "heading_bias"      // of the vessel's heading sensor
	CompassBias      Trouble = "compass_bias"      // of the fish's compass
	Squall           Trouble = "squall"            // more wind, from about where it blows
	WinchJam         Trouble = "winch_jam"         // it neither hauls nor pays out
	CounterSlip      Trouble = "counter_slip"      // more is not counted of what is hauled
	CounterReset     Trouble = "counter_reset"     // the counter shows something else
	OtherSounder     Trouble = "sounder"           // another vessel's is heard
	DroppedPings     Trouble = "dropped_pings"     // some do not reach the recorder
	DeadChannel      Trouble = "dead_channel"      // one side has nothing but the receiver's own noise
	WeakChannel      Trouble = "weak_channel"      // one side hears less
	SwappedChannels  Trouble = "swapped_channels"  // each side has what the other hears
	EngineFailure    Trouble = "engine_failure"    // no thrust
	ChannelFault     Trouble = "channel_fault"     // a dead or a weak channel or swapped ones, by the seed

	// Not what goes wrong, but what the crew does to find it: a hand that rubs the
	// transducers of a side. It is no kind of an exercise file.
	Rubbed Trouble = "rubbed"
)

// TroubleKind says what an event of a kind may be.
type TroubleKind struct {
	Kind Trouble
	Says string

	// How large it is: the key of an exercise file, how many of the engine's units one
	// of its units is, bounds and usual value in the file's unit. No key for what has
	// no size.
	Size             string
	Per              float64
	Least, Most, Use float64

	Sided bool // it befalls one side of the fish
	Once  bool // it is over at once
}

// Troubles are the kinds there are. Their usual sizes are our own choice: enough to be
// seen by anyone who looks, not so much that nobody can miss it.
func Troubles() []TroubleKind {
	const percent = 0.01
	degree := math.Pi / 180
	return []TroubleKind{
		{Kind: GNSSOutage, Says: "the satellite receiver has no fix"},
		{Kind: GNSSJump, Says: "fixes lie aside by Value metres", Size: "jump_m", Per: 1, Least: 1, Most: 1000, Use: 25},
		{Kind: AltimeterDropout, Says: "the fish's altimeter says nothing"},
		{Kind: HeadingBias, Says: "the vessel's heading is shown Value radians too far to starboard", Size: "bias_deg", Per: degree, Least: -45, Most: 45, Use: 6},
		{Kind: CompassBias, Says: "the fish's heading is shown Value radians too far to starboard", Size: "bias_deg", Per: degree, Least: -45, Most: 45, Use: 12},
		{Kind: Squall, Says: "Value m/s of wind more", Size: "wind_kn", Per: units.Knot, Least: 1, Most: 60, Use: 20},
		{Kind: WinchJam, Says: "the winch neither hauls nor pays out"},
		{Kind: CounterSlip, Says: "the counter misses the share Value of what is hauled", Size: "slip_percent", Per: percent, Least: 0, Most: 100, Use: 15},
		{Kind: CounterReset, Says: "the counter shows Value metres", Size: "shows_m", Per: 1, Least: -10, Most: 2000, Use: 0, Once: true},
		{Kind: OtherSounder, Says: "another vessel's sounder is heard at Value dB re 1 uPa", Size: "level_db", Per: 1, Least: 60, Most: 200, Use: 150},
		{Kind: DroppedPings, Says: "the share Value of the pings is lost", Size: "share_percent", Per: percent, Least: 0, Most: 100, Use: 20},
		{Kind: DeadChannel, Says: "one side hears nothing", Sided: true},
		{Kind: WeakChannel, Says: "one side hears Value dB less", Size: "loss_db", Per: 1, Least: 1, Most: 60, Use: 12, Sided: true},
		{Kind: SwappedChannels, Says: "port and starboard are swapped"},
		{Kind: EngineFailure, Says: "the engine gives no thrust"},
		{Kind: ChannelFault, Says: "one side is dead or weak, or both are swapped: by the seed"},
	}
}

// OfChannels reports whether it ails the channels of the fish, which can be seen to with
// the fish alongside.
func (t Trouble) OfChannels() bool {
	return t == DeadChannel || t == WeakChannel || t == SwappedChannels
}

// KindOf finds a kind of event.
func KindOf(t Trouble) (TroubleKind, bool) {
	for _, k := range Troubles() {
		if k.Kind == t {
			return k, true
		}
	}
	return TroubleKind{}, false
}

// LongestEvent is how long an event may last, seconds.
const LongestEvent = 86400.0

// Event is something that goes wrong on purpose, once.
type Event struct {
	Kind Trouble

	// It begins at a time, or, where a line is named, the first time that the fish is
	// so far along it, as it is run, with the log on.
	At    float64 // seconds since the start
	Line  string
	Along float64 // metres

	For  float64 // seconds; 0 to the end
	Size float64 // in the engine's unit of its kind
	Side Beam
}

// Beam is a side of the fish, or either by chance.
type Beam int

// The sides that an event may befall.
const (
	EitherSide Beam = iota
	PortSide
	StarboardSide
)
