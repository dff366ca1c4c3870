package coach

import (
	"fmt"
	"math"

	"dryline/sim/survey"
	"dryline/vessel/nav"
	"dryline/vessel/nav/geodesy"
)

// placeChecks are about where the desk has the fish and the ground.
func (c *Coach) placeChecks(now float64, s *sight) []check {
	r := &s.Reading
	noFix := r.Time > 0 && !r.Valid.Has(nav.Fix)
	lost := r.Time > 0 && !noFix && s.Fix.Fault != ""
	apart, heard := c.beacon.follow(s)
	const alike = 4.0 // metres: what beacon and cable may differ by
	pair := c.disagreeing(s)
	return []check{
		{"gnss_lost", Alarm, noFix, noFix, func() string {
			return fmt.Sprintf("No fix from GNSS for %.0f s: the desk carries on by course and speed. Stop the log if it lasts.", now-r.FixTime)
		}},
		{"fish_not_placed", Caution, lost, lost, func() string { return "The fish cannot be placed: " + s.Fix.Fault + "." }},
		{"bottom_lost", Caution, s.BottomMisses >= 30, s.BottomMisses >= 5, func() string {
			return "The bottom track has lost the floor: the swath is laid out by an old height. Look for noise in the water, and mind the height of the fish."
		}},
		{"beacon_disagrees", Caution, heard && math.Abs(apart) > alike, heard && math.Abs(apart) > 0.7*alike, func() string {
			where := "further astern"
			if apart < 0 {
				where = "less far astern"
			}
			return fmt.Sprintf("The beacon has the fish %.0f m %s than the cable says: check the counter and the sheave%s.", math.Abs(apart), where, s.factorFor(apart))
		}},
		{"lines_disagree", Caution, pair.found, pair.found, func() string {
			short := "short"
			if pair.ahead < 0 {
				short = "long"
			}
			return fmt.Sprintf("%s and %s look like one thing seen on lines run opposite ways, %.0f m apart along them: the layback is about %.0f m too %s%s.",
				pair.a, pair.b, 2*math.Abs(pair.ahead), math.Abs(pair.ahead), short, s.factorFor(pair.ahead))
		}},
	}
}

// factorFor says which catenary factor would put the fish so much further
// astern; nothing if none would.
func (s *sight) factorFor(astern float64) string {
	set := &s.Settings
	along := s.Fix.Layback - set.AntennaToTow + astern
	factor := math.Hypot(along, s.Fix.Depth+set.SheaveHeight) / s.Fix.CableOut
	if !(along > 0 && factor >= 0.3 && factor <= 1) {
		return ""
	}
	return fmt.Sprintf("; a catenary factor of %.2f would agree", factor)
}

// disagreement is how much further astern the beacon hears the fish than the
// cable says, smoothed over a minute of straight towing.
type disagreement struct {
	mean    float64
	answers int
	last    float64 // time of the last answer
}

const enoughAnswers = 20

func (d *disagreement) follow(s *sight) (apart float64, heard bool) {
	b := &s.Reading.Beacon
	if !s.onLine || s.turned > 0.15 || s.Fix.Fault != "" {
		*d = disagreement{last: b.Time} // a cable swings wide in a turn
		return 0, false
	}
	if s.Reading.Valid.Has(nav.Beacon) && b.OK && b.Time > d.last {
		sin, cos := math.Sincos(s.Fix.Course)
		run := s.Fix.Speed * (s.Fix.Time - b.Time)
		astern := (s.Fix.VesselX-b.X)*sin + (s.Fix.VesselY-b.Y)*cos - run
		d.answers, d.last = d.answers+1, b.Time
		d.mean += (astern - s.Fix.Layback - d.mean) / float64(min(d.answers, 60))
	}
	return d.mean, d.answers >= enoughAnswers
}

// twins are two contacts that look like one thing.
type twins struct {
	found bool
	a, b  string
	ahead float64 // how far ahead of itself the desk has the fish, metres
}

// disagreeing looks for one thing marked twice from lines run opposite ways.
// Adjacent lines that disagree mean a wrong catenary factor (common practice, no
// source). A fish placed e metres too far ahead puts the thing e metres ahead on
// both, 2 e apart. Two contacts a person gave one name or class are taken at
// their word; others must be two pairs that are the same way apart.
func (c *Coach) disagreeing(s *sight) twins {
	const nearest, farthest, aside, alike = 4.0, 30.0, 5.0, 3.0 // metres
	var pairs []twins
	for i := range s.Contacts {
		for j := range i {
			a, b := &s.Contacts[i], &s.Contacts[j]
			t, ok := s.opposite(a, b)
			if !ok {
				continue
			}
			along, across := turnedBy(t, a.X-b.X, a.Y-b.Y)
			if math.Abs(along) < nearest || math.Abs(along) > farthest || math.Abs(across) > aside {
				continue
			}
			p := twins{true, b.Name, a.Name, along / 2}
			if a.Class != survey.Unclassified && a.Class == b.Class && a.Class != "" || a.Name == b.Name {
				return p
			}
			for _, q := range pairs {
				if math.Abs(q.ahead-p.ahead) < alike/2 && q.a != p.a && q.b != p.b {
					return p
				}
			}
			pairs = append(pairs, p)
		}
	}
	return twins{}
}

// opposite returns the track of the line a was first seen on if b was first
// seen on one run the other way.
func (s *sight) opposite(a, b *survey.Contact) (geodesy.Track, bool) {
	ta, okA := s.trackOf(a)
	tb, okB := s.trackOf(b)
	if !okA || !okB {
		return ta, false
	}
	between := math.Remainder(ta.Bearing()-tb.Bearing()-math.Pi, 2*math.Pi)
	return ta, math.Abs(between) < 0.35
}

// trackOf is the track of the line a contact was first seen on; the lookout
// joins sightings of one place, and a contact of several lines tells nothing.
func (s *sight) trackOf(k *survey.Contact) (geodesy.Track, bool) {
	if len(k.Lines) != 1 {
		return geodesy.Track{}, false
	}
	for _, l := range s.Lines {
		if l.Name == k.Lines[0] {
			return l.Track, true
		}
	}
	return geodesy.Track{}, false
}

// turnedBy is a vector along and across a track.
func turnedBy(t geodesy.Track, dx, dy float64) (along, across float64) {
	sin, cos := math.Sincos(t.Bearing())
	return dx*sin + dy*cos, dx*cos - dy*sin
}
