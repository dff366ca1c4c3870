package survey

import (
	"math"

	"dryline/vessel/nav"
)

// correction is added to the layback's place, along the track and across it, so
// that it agrees with the beacon.
//
// The layback is smooth but wrong by an amount that changes slowly (cable
// factor, counter, current); the beacon is right on average but scatters. So the
// error b of the layback is taken as a random walk seen through the beacon's
// noise, one Kalman filter for each of the two directions with a variance P in
// common:
//
//	P <- P + q dt                     the walk
//	nu = beacon - layback - b         innovation
//	S  = P + R ,  R = (share slant)^2
//	K  = P/S ,  b <- b + K nu ,  P <- (1 - K) P
//
// (Bar-Shalom, Li and Kirubarajan, Estimation with Applications to Tracking and
// Navigation, 2001; blending a smooth and a noisy source by filtering their
// difference is their complementary filter). An answer with |nu|^2/S beyond the
// gate is an outlier and is left out; answers that go on lying outside it mean
// that b is wrong, and it is begun afresh, as it began, from one answer. GNSS
// errors are in both places and drop out. Errors of heading and of the
// transducer's place stay, as they are in every answer.
type correction struct {
	along, across float64 // b, metres
	variance      float64 // P, m^2
	time          float64 // of the last answer, seconds
	begun         bool
	refused       int // answers in a row
}

const (
	// gate holds 99 % of good answers: chi-square with two degrees of freedom,
	// -2 ln 0.01.
	gate = 9.2103
	// walk is q: a metre in about a minute (our own choice).
	walk = 0.02 // m^2/s
	// tooMany answers outside the gate in a row are no outliers.
	tooMany = 6
	// correctionPatience is how long the correction holds without an answer,
	// seconds.
	correctionPatience = 60.0
	// beaconShare is believed of a beacon nobody has said anything about.
	beaconShare = 0.01
)

// update takes the answer of this reading, if there is one, with the fix placed
// by the layback along the track.
func (c *correction) update(f *Fix, r *nav.Reading, share float64) {
	if !answered(r) {
		return
	}
	sin, cos := math.Sincos(f.Course)
	dx, dy := r.Beacon.X-f.X, r.Beacon.Y-f.Y
	along, across := dx*sin+dy*cos, dx*cos-dy*sin

	if share <= 0 {
		share = beaconShare
	}
	noise := share * r.Beacon.Slant
	if !c.begun || c.refused >= tooMany {
		*c = correction{along: along, across: across, variance: noise * noise, time: r.Time, begun: true}
		return
	}
	c.variance += walk * max(r.Time-c.time, 0)
	c.time = r.Time
	total := c.variance + noise*noise
	nuAlong, nuAcross := along-c.along, across-c.across
	if nuAlong*nuAlong+nuAcross*nuAcross > gate*total || total <= 0 {
		c.refused++
		return
	}
	c.refused = 0
	k := c.variance / total
	c.along += k * nuAlong
	c.across += k * nuAcross
	c.variance *= 1 - k
}

// place corrects the layback's place.
func (c *correction) place(f *Fix, r *nav.Reading) {
	if !c.begun {
		f.Fault = first(f.Fault, false, faultNoBeacon)
		return
	}
	sin, cos := math.Sincos(f.Course)
	f.X += c.along*sin + c.across*cos
	f.Y += c.along*cos - c.across*sin
	f.Fault = first(f.Fault, r.Time-c.time <= correctionPatience, faultSilent)
}
