package survey

import (
	"errors"
	"fmt"
	"maps"
	"math"
	"slices"

	"dryline/sonar/mosaic"
)

// Knob names a number that the survey can be worked up again with.
type Knob string

// The knobs. Those that are not turned stay as they were in the watch, with every
// change made to them then.
const (
	KnobFactor       Knob = "factor"        // catenary factor on the cable out
	KnobSheaveHeight Knob = "sheave_height" // above water, metres
	KnobTowOffset    Knob = "tow_offset"    // from the antenna aft to the sheave, metres
	KnobTowSide      Knob = "tow_side"      // from the antenna to starboard to the sheave, metres
	KnobCourseTime   Knob = "course_time"   // the track made good is taken over this long, seconds
	KnobSoundSpeed   Knob = "sound_speed"   // m/s
	KnobLatency      Knob = "latency"       // fixes are older by so much than they say, seconds
	KnobCell         Knob = "cell"          // of the mosaic, metres
	KnobTide         Knob = "tide"          // of the water over the datum of depths, metres
)

// Limits are the least and the most a knob can be turned to. Those of the layback are
// as in the watch; the others are our own choice.
func (k Knob) Limits() (low, high float64) {
	switch k {
	case KnobFactor:
		return 0.3, 1
	case KnobSheaveHeight:
		return 0, 20
	case KnobTowOffset:
		return -200, 200
	case KnobTowSide:
		return -20, 20
	case KnobCourseTime:
		return 1, 120
	case KnobSoundSpeed:
		return 1400, 1600
	case KnobLatency:
		return -5, 5
	case KnobCell:
		return 0.05, 5
	}
	return -20, 20
}

// Levelling says what the record is levelled with when the mosaic is painted anew.
type Levelling string

// The ways of levelling.
const (
	LevelSurvey Levelling = "survey" // what all lines taught
	LevelLine   Levelling = "line"   // what each line taught itself
	LevelPapers Levelling = "papers" // what the sonar's papers foretell alone
)

// Levellings lists them.
func Levellings() []Levelling { return []Levelling{LevelSurvey, LevelLine, LevelPapers} }

// Review says how the survey is worked up again. The zero value is as in the watch.
type Review struct {
	Knobs     map[Knob]float64
	Position  Position       // empty: as in the watch
	Swath     SwathBy        // likewise
	Combine   mosaic.Combine // likewise
	Levelling Levelling      // empty is LevelSurvey
	Channel   string         // painted; empty: as in the watch
	Hidden    []int          // runs of lines that are not painted, in order
	Rejected  map[int]string // runs that count for nothing, with the reason

	Errors Budget // as the surveyor stated them; terms that are not in it are worked out

	BottomBy map[string]BottomBy // by channel; one that is not in it goes by the watch
	Pieces   []BottomPiece       // of the bottom track corrected by hand, in order; the later one counts
	undone   []BottomPiece
}

// Clone shares nothing with the review that can be changed.
func (r *Review) Clone() Review {
	c := *r
	c.Knobs, c.Rejected, c.BottomBy = maps.Clone(r.Knobs), maps.Clone(r.Rejected), maps.Clone(r.BottomBy)
	c.Errors = maps.Clone(r.Errors)
	c.Hidden, c.Pieces, c.undone = slices.Clone(r.Hidden), slices.Clone(r.Pieces), slices.Clone(r.undone)
	return c
}

// Knob returns the value that a knob is turned to; set is false if it was left alone.
func (r *Review) Knob(k Knob) (value float64, set bool) {
	value, set = r.Knobs[k]
	return value, set
}

// Turn turns a knob.
func (d *Desk) Turn(k Knob, value float64) {
	if d.Review.Knobs == nil {
		d.Review.Knobs = map[Knob]float64{}
	}
	d.Review.Knobs[k] = value
}

// Paints reports whether a run is painted when the mosaic is made anew.
func (r *Review) Paints(run int) bool {
	_, rejected := r.Rejected[run]
	return !rejected && !slices.Contains(r.Hidden, run)
}

// ShowLine has a run painted or not.
func (d *Desk) ShowLine(run int, shown bool) error {
	if err := d.runIsThere(run); err != nil {
		return err
	}
	r := &d.Review
	r.Hidden = slices.DeleteFunc(slices.Clone(r.Hidden), func(n int) bool { return n == run })
	if !shown {
		r.Hidden = append(r.Hidden, run)
		slices.Sort(r.Hidden)
	}
	return nil
}

// RejectLine has a run count for nothing, for a reason; without one it counts again.
func (d *Desk) RejectLine(run int, reason string) error {
	if err := d.runIsThere(run); err != nil {
		return err
	}
	if err := CheckText(reason); err != nil {
		return err
	}
	if d.Review.Rejected == nil {
		d.Review.Rejected = map[int]string{}
	}
	delete(d.Review.Rejected, run)
	if reason != "" {
		d.Review.Rejected[run] = reason
	}
	return nil
}

func (d *Desk) runIsThere(run int) error {
	switch n := len(d.Lines); {
	case n == 0:
		return errors.New("no line is finished yet")
	case run < 1 || run > n:
		return fmt.Errorf("no run has the number %d (want 1 to %d)", run, n)
	}
	return nil
}

// adjusted is how the desk was set from a time on.
type adjusted struct {
	after    float64 // seconds
	settings Settings
}

// Adjust changes how the desk is set, and notes when.
func (d *Desk) Adjust(now float64, change func(*Settings)) {
	if d.settings == nil {
		d.settings = []adjusted{{math.Inf(-1), d.Settings}}
	}
	change(&d.Settings)
	d.settings = append(d.settings, adjusted{now, d.Settings})
}

// settingsAt is how the desk was set in the watch for a reading of a time.
func (d *Desk) settingsAt(t float64) Settings {
	for _, a := range slices.Backward(d.settings) {
		if t > a.after {
			return a.settings
		}
	}
	return d.Settings
}

// Reviewed is how the desk is set for a reading of a time when the survey is worked up
// by a review.
func (d *Desk) Reviewed(r *Review, t float64) Settings {
	s := d.settingsAt(t)
	for _, o := range []struct {
		knob Knob
		of   *float64
	}{
		{KnobFactor, &s.CatenaryFactor}, {KnobSheaveHeight, &s.SheaveHeight}, {KnobTowOffset, &s.AntennaToTow},
		{KnobTowSide, &s.TowToStarboard}, {KnobCourseTime, &s.CourseTime}, {KnobSoundSpeed, &s.SoundSpeed}, {KnobCell, &s.MosaicCell},
	} {
		if v, set := r.Knob(o.knob); set {
			*o.of = v
		}
	}
	if r.Position != "" {
		s.Position = r.Position
	}
	if r.Swath != "" {
		s.Swath = r.Swath
	}
	if r.Combine != "" {
		s.Combine = r.Combine
	}
	if i := slices.Index(d.Recorder.Channels, r.Channel); i >= 0 {
		s.MosaicChannel = i
	}
	return s
}

// Stretch returns the factor of slant ranges of the watch for another sound speed:
// the recorder measured times, and the watch made ranges of them by its own.
func (d *Desk) Stretch(r *Review) float64 {
	if v, set := r.Knob(KnobSoundSpeed); set {
		return v / d.Settings.SoundSpeed
	}
	return 1
}
