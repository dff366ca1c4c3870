package passage

import (
	"dryline/sim/order"
	"dryline/vessel"
	"dryline/vessel/nav/geodesy"
	"dryline/vessel/tow"
)

// FishRadius is the radius of the ball that stands for the fish, metres.
const FishRadius = fishRadius

// OverSchool is overSchool.
var OverSchool = overSchool

// Hull is the hull itself.
func (p *Passage) Hull() *vessel.Hull { return &p.hull }

// Gear is the tow itself.
func (p *Passage) Gear() *tow.Gear { return p.gear }

// Ride is how she rides, to be set.
func (p *Passage) Ride() *vessel.Attitude { return &p.ride }

// Orders are those in force.
func (p *Passage) Orders() vessel.Orders { return p.orders }

// Surface is the level of the water, metres.
func (p *Passage) Surface() float64 { return p.weather.surface }

// HelmTrack is the track steered along.
func (p *Passage) HelmTrack() geodesy.Track { return p.helm.track }

// Given has f told of each order carried out.
func (p *Passage) Given(f func(order.Command)) { p.given = f }

// StepAlone steps a tick without a hand.
func (p *Passage) StepAlone() { p.step() }
