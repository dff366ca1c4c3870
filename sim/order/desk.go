package order

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"dryline/seabed"
	"dryline/sim/exercise"
	"dryline/sim/survey"
	"dryline/sonar"
	"dryline/sonar/mosaic"
)

// Work at the desk may go on when the watch is over: its orders change nothing that
// sails.

// later lets a row be given when the exercise is over.
func (r Row) later() Row {
	r.Later = true
	return r
}

// Later reports whether a command may be given when the exercise is over.
func (c *Command) Later() bool { r := rows[c.Do]; return r != nil && r.Later }

// knob is a row that turns a knob of the review.
func knob(do Do, says string, k survey.Knob) Row {
	low, high := k.Limits()
	return contact(do, "worked up again: "+says, func(_ *exercise.Brief, c *Command) error { return within(c.Value, low, high) },
		func(d *survey.Desk, c *Command, _ float64) error {
			d.Turn(k, c.Value)
			return nil
		})
}

// choice is a row that chooses one of several by Text, or what was so in the watch if it is
// empty.
func choice[T ~string](do Do, says string, of []T, set func(*survey.Review, T)) Row {
	return contact(do, "worked up again: "+says, func(_ *exercise.Brief, c *Command) error {
		if c.Text != "" && !slices.Contains(of, T(c.Text)) {
			return fmt.Errorf("%q is none (want one of %v)", c.Text, of)
		}
		return nil
	}, func(d *survey.Desk, c *Command, _ float64) error {
		set(&d.Review, T(c.Text))
		return nil
	})
}

func reworkPosition(b *exercise.Brief, c *Command) error {
	if c.Method == "" {
		return nil
	}
	return methodIsOne(b, c.Method)
}

func channelIsThere(b *exercise.Brief, name string) error {
	if !slices.ContainsFunc(b.Sonar.Channels, func(ch sonar.Channel) bool { return ch.Name == name }) {
		return fmt.Errorf("no channel is called %q", name)
	}
	return nil
}

func bottomWayIsOne(b *exercise.Brief, c *Command) error {
	if err := channelIsThere(b, c.Text); err != nil {
		return err
	}
	if by := survey.BottomBy(c.Method); !slices.Contains(survey.BottomWays(), by) {
		return fmt.Errorf("%q is no way to find the bottom (want one of %v)", by, survey.BottomWays())
	}
	return nil
}

func textIsSound(_ *exercise.Brief, c *Command) error { return survey.CheckText(c.Text) }

func reasonIsSound(_ *exercise.Brief, c *Command) error { return survey.CheckText(c.Reason) }

func textSays(b *exercise.Brief, c *Command) error {
	if strings.TrimSpace(c.Text) == "" {
		return errors.New("it says nothing")
	}
	return textIsSound(b, c)
}

// deskRows are the orders for working a survey up.
var deskRows = []Row{
	contact(Remark, "into the log: Text", textSays, func(d *survey.Desk, c *Command, now float64) error { return d.Enter(now, c.Text) }),

	contact(SeaState, "into the log: the state of the sea is Number, 0 to 9", func(_ *exercise.Brief, c *Command) error { return survey.CheckSea(c.Number) }, func(d *survey.Desk, c *Command, now float64) error { return d.EnterSea(now, c.Number) }),
	contact(StateError, "the term Text of the error of positions (vessel, fish, sound, trace, slope) is Value metres, one standard deviation", func(_ *exercise.Brief, c *Command) error { return survey.CheckTerm(survey.Term(c.Text), c.Value) },
		func(d *survey.Desk, c *Command, _ float64) error { return d.StateError(survey.Term(c.Text), c.Value) }),
	rowOf(AddLine, "plan Line from (X, Y) to (X2, Y2), metres", whole, newLine, nil, func(s Ship, c *Command) error {
		s.AddLine(exercise.Line{Name: c.Line, A: seabed.Point{X: c.X, Y: c.Y}, B: seabed.Point{X: c.X2, Y: c.Y2}})
		return nil
	}),
	rowOf(OwnLines, "the lines that were added are run in place of those given, in their order, each from (X, Y) to (X2, Y2), with a run-in of Value metres and a run-out of Value2; before the first tick", whole, ownLines, func(s Ship, _ *Command) error { return s.RefuseOwnLines() },
		func(s Ship, c *Command) error {
			s.OwnLines(c.Value, c.Value2)
			return nil
		}),
	laid(LinesAbout, "plan two perpendicular pairs of lines, Line-1 to Line-4, that pass contact Number at Value metres, the first pair on the grid bearing Value2, radians", newLinesAbout, about),
	laid(FillHolidays, "plan lines, Line-1 and on, that fill the holidays there are, the largest Number of them", newFill, fill),

	knob(ReworkFactor, "the catenary factor is Value", survey.KnobFactor),
	knob(ReworkSheaveHeight, "the sheave is Value metres above the water", survey.KnobSheaveHeight),
	knob(ReworkTowOffset, "the sheave is Value metres aft of the antenna", survey.KnobTowOffset),
	knob(ReworkTowSide, "the sheave is Value metres to starboard of the antenna", survey.KnobTowSide),
	knob(ReworkCourseTime, "the track made good is taken over Value seconds", survey.KnobCourseTime),
	knob(ReworkSoundSpeed, "sound goes at Value m/s", survey.KnobSoundSpeed),
	knob(ReworkLatency, "fixes are Value seconds older than they say", survey.KnobLatency),
	knob(ReworkCell, "the cells of the mosaic are Value metres", survey.KnobCell),
	knob(ReworkTide, "the water stands Value metres over the datum of depths", survey.KnobTide),
	contact(ReworkPosition, "worked up again: the fish is placed by Method, or as in the watch if empty", reworkPosition,
		func(d *survey.Desk, c *Command, _ float64) error {
			d.Review.Position = c.Method
			return nil
		}),
	choice(ReworkSwath, "the swath is laid square to what Text says (course, vessel, fish)", survey.SwathBearings(), func(r *survey.Review, v survey.SwathBy) { r.Swath = v }),
	choice(ReworkCombine, "looks are combined as Text says (mean, strongest, best, latest)", mosaic.Combines(), func(r *survey.Review, v mosaic.Combine) { r.Combine = v }),
	choice(ReworkLevel, "the record is levelled with what Text says (survey, line, papers)", survey.Levellings(), func(r *survey.Review, v survey.Levelling) { r.Levelling = v }),
	contact(ReworkChannel, "worked up again: channel Text is painted", func(b *exercise.Brief, c *Command) error { return channelIsThere(b, c.Text) },
		func(d *survey.Desk, c *Command, _ float64) error {
			d.Review.Channel = c.Text
			return nil
		}),
	contact(ShowLine, "worked up again: run Number is painted: Value 1, or 0 not", func(b *exercise.Brief, c *Command) error { return zeroOrOne(b, c.Value) },
		func(d *survey.Desk, c *Command, _ float64) error { return d.ShowLine(c.Number, c.Value == 1) }),
	contact(RejectLine, "run Number counts for nothing, for Reason; it counts again if that is empty", reasonIsSound,
		func(d *survey.Desk, c *Command, _ float64) error { return d.RejectLine(c.Number, c.Reason) }),

	contact(BottomBy, "worked up again: the bottom of channel Text is found by Method (watch, first_return, altimeter)", bottomWayIsOne,
		func(d *survey.Desk, c *Command, _ float64) error {
			d.FindBottomBy(c.Text, survey.BottomBy(c.Method))
			return nil
		}),
	contact(BottomAt, "worked up again: from Ping to Ping2 the bottom is at a slant range of Value metres, going evenly to Value2 if given", nil,
		func(d *survey.Desk, c *Command, _ float64) error {
			piece := survey.BottomPiece{From: c.Ping, To: c.Ping2, Slant: c.Value, SlantB: c.Value2}
			if c.Value2 == 0 {
				piece.SlantB = c.Value
			}
			return d.SetBottom(piece)
		}),
	contact(UndoBottom, "take back the last piece of the bottom track that was corrected", nil, func(d *survey.Desk, _ *Command, _ float64) error { return d.UndoBottom() }),
	contact(RedoBottom, "make again the last taken back", nil, func(d *survey.Desk, _ *Command, _ float64) error { return d.RedoBottom() }),

	rowOf(Rework, "work the survey up again as the above have it: contacts move with the record", whole, nil,
		func(s Ship, _ *Command) error { return s.RefuseRework() },
		func(s Ship, _ *Command) error { return s.Rework() }).atDesk().later(),
	contact(CalibrateLayback, "what the layback is wrong by, from contact Number or 0 for all, whose marks are good to Value metres along the track and Value2 across, or Value if not given",
		func(_ *exercise.Brief, c *Command) error {
			return survey.CheckSigmas(c.Value, cmp.Or(c.Value2, c.Value))
		},
		func(d *survey.Desk, c *Command, _ float64) error {
			return d.CalibrateLayback(c.Number, c.Value, cmp.Or(c.Value2, c.Value))
		}),
	contact(ApplyCalibration, "worked up again: by what the layback was found to be wrong by", nil, func(d *survey.Desk, _ *Command, _ float64) error { return d.ApplyCalibration() }),
	contact(CheckSystem, "how well the system finds and places contact Number, passed on purpose", nil, func(d *survey.Desk, c *Command, _ float64) error { return d.CheckSystem(c.Number) }),
	contact(DrawUp, "draw up the reports, with Text over them", textIsSound, func(d *survey.Desk, c *Command, _ float64) error {
		d.Report = &survey.Report{Text: c.Text}
		return nil
	}),
}
