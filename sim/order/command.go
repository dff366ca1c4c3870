package order

import (
	"dryline/sim/survey"
	"dryline/vessel"
)

// Do names what a command tells the crew. Each has a row in the [Table].
type Do string

// The commands.
const (
	SteerLine    Do = "steer_line"
	SteerPoint   Do = "steer_point"
	SteerHeading Do = "steer_heading"
	Turn         Do = "turn"
	Rudder       Do = "rudder"
	Speed        Do = "speed"
	Cable        Do = "cable"
	ZeroCounter  Do = "zero_counter"
	Factor       Do = "factor"
	SheaveHeight Do = "sheave_height"
	TowOffset    Do = "tow_offset"
	TowSide      Do = "tow_side"
	PositionBy   Do = "position_by"
	LogOn        Do = "log_on"
	LogOff       Do = "log_off"
	Range        Do = "range"
	Gain         Do = "gain"
	TVG          Do = "tvg"
	TVGLoss      Do = "tvg_loss"
	Finish       Do = "finish"
	Event        Do = "event"
	CallTraffic  Do = "call_traffic"
	Say          Do = "say"
	Rub          Do = "rub"
	Mend         Do = "see_to_plugs"

	Mark          Do = "mark"
	Measure       Do = "measure"
	NameContact   Do = "name_contact"
	ClassContact  Do = "class_contact"
	DeleteContact Do = "delete_contact"
	UndoContact   Do = "undo_contact"
	RedoContact   Do = "redo_contact"
	Lookout       Do = "lookout"

	SightContact    Do = "sight_contact"
	DescribeContact Do = "describe_contact"
	RateContact     Do = "rate_contact"
	ContactAction   Do = "contact_action"
	RemarkContact   Do = "remark_contact"

	Remark             Do = "remark"
	ReworkFactor       Do = "rework_factor"
	ReworkSheaveHeight Do = "rework_sheave_height"
	ReworkTowOffset    Do = "rework_tow_offset"
	ReworkTowSide      Do = "rework_tow_side"
	ReworkCourseTime   Do = "rework_course_time"
	SoundSpeed         Do = "sound_speed"
	MosaicCell         Do = "mosaic_cell"
	MosaicChannel      Do = "mosaic_channel"
	ReworkSoundSpeed   Do = "rework_sound_speed"
	ReworkLatency      Do = "rework_latency"
	ReworkCell         Do = "rework_cell"
	ReworkTide         Do = "rework_tide"
	ReworkPosition     Do = "rework_position_by"
	ReworkSwath        Do = "rework_swath_by"
	ReworkCombine      Do = "rework_combine"
	ReworkLevel        Do = "rework_level"
	ReworkChannel      Do = "rework_channel"
	ShowLine           Do = "show_line"
	RejectLine         Do = "reject_line"
	BottomBy           Do = "bottom_by"
	BottomAt           Do = "bottom_at"
	UndoBottom         Do = "undo_bottom"
	RedoBottom         Do = "redo_bottom"
	Rework             Do = "rework"
	DrawUp             Do = "draw_up"
	SeaState           Do = "sea_state"
	StateError         Do = "state_error"
	AddLine            Do = "add_line"
	OwnLines           Do = "own_lines"
	LinesAbout         Do = "lines_about"
	FillHolidays       Do = "fill_holidays"
	CalibrateLayback   Do = "calibrate_layback"
	ApplyCalibration   Do = "apply_calibration"
	CheckSystem        Do = "check_system"
)

// Command is one order, given before the tick of that number is stepped. Which
// of its fields count is for its row of the [Table] to say.
type Command struct {
	Tick     int64  `json:"tick"`
	Do       Do     `json:"do"`
	Line     string `json:"line,omitempty"`
	Reversed bool   `json:"reversed,omitempty"`

	Pattern vessel.Turn     `json:"pattern,omitempty"`
	Method  survey.Position `json:"method,omitempty"`

	X     float64 `json:"x_m,omitempty"`
	Y     float64 `json:"y_m,omitempty"`
	Value float64 `json:"value,omitempty"`

	X2     float64 `json:"x2_m,omitempty"`
	Y2     float64 `json:"y2_m,omitempty"`
	Number int     `json:"number,omitempty"` // of a contact, or of a run of a line
	Text   string  `json:"text,omitempty"`
	Ping   uint64  `json:"ping,omitempty"`
	Reason string  `json:"reason,omitempty"`
	Ping2  uint64  `json:"ping2,omitempty"`
	Value2 float64 `json:"value2,omitempty"`
}
