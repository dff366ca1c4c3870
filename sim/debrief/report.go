package debrief

import "time"

// Report is the outcome of a session. Keys carry their units; lists are never
// null; a value that cannot be known is left out.
type Report struct {
	Engine        int            `json:"dryline_engine"`
	Step          float64        `json:"ground_step_m"` // at which the sonar read the floor
	Licence       string         `json:"license"`
	Trainee       string         `json:"trainee,omitempty"`
	Started       *time.Time     `json:"started_utc,omitempty"` // by the clock on the wall
	Assessed      bool           `json:"assessed,omitempty"`    // flown as an assessment, and opened by who it was sealed to
	Practice      *Practice      `json:"practice,omitempty"`
	Another       string         `json:"another_survey,omitempty"` // why it is not the survey its log was written of
	Exercise      Exercise       `json:"exercise"`
	Simulated     float64        `json:"simulated_s"`
	Partial       bool           `json:"partial"`
	PartialReason string         `json:"partial_reason,omitempty"`
	Commands      int            `json:"command_count"`
	Groundings    int            `json:"grounding_count"`
	Strikes       int            `json:"strike_count"` // of objects by the fish
	Aground       float64        `json:"aground_s"`    // how long the fish touched anything
	Mishaps       []Mishap       `json:"mishaps"`
	Events        []Event        `json:"went_wrong_on_purpose,omitempty"`
	Wanted        Wanted         `json:"wanted"`
	Score         Score          `json:"score"`
	Coverage      Coverage       `json:"coverage"`
	Lines         []Line         `json:"lines"`
	LinesNotRun   []string       `json:"lines_not_run"`
	Targets       []Target       `json:"targets"`
	FalseContacts []FalseContact `json:"false_contacts"`
	Contacts      Contacts       `json:"contacts"`
	Position      Position       `json:"position"`
	Timeline      Timeline       `json:"timeline"`
}

// Exercise says which exercise was run, so that anyone can run it again.
type Exercise struct {
	Name  string    `json:"name"`
	Title string    `json:"title"`
	Hash  string    `json:"hash_sha256"`
	Seed  uint64    `json:"seed"`
	Start time.Time `json:"start"`
	Place string    `json:"place"`
	EPSG  int       `json:"epsg"`
}

// Mishap is something that went wrong with the tow.
type Mishap struct {
	Time   float64 `json:"time_s"`
	What   string  `json:"what"`
	Object string  `json:"object,omitempty"`
	Says   string  `json:"says"`
}

// Wanted holds the limits that the exercise sets. Heights it does not set are those
// of the NOAA specifications; the rest is left out if it asks for none.
type Wanted struct {
	Rules         string   `json:"rules,omitempty"` // published, with their edition
	Coverage      float64  `json:"coverage_percent"`
	AltitudeMin   float64  `json:"altitude_min_percent_of_range_scale"`
	AltitudeMax   float64  `json:"altitude_max_percent_of_range_scale"`
	OffLine       *float64 `json:"off_line_m,omitempty"`
	PingsPerMetre *float64 `json:"pings_per_metre,omitempty"`
}

// Spread is the mean of a quantity and how far it ranged, in the unit of the
// key it stands under.
type Spread struct {
	Mean float64 `json:"mean"`
	Min  float64 `json:"min"`
	Max  float64 `json:"max"`
}

// Coverage is how much of the area the mosaic shows.
//
// Counted is the share of the ground that the sonar truly looked at in a way that
// counts; see [LostGround] for the rest. Once and twice are what the mosaic shows,
// its nadir strip included, of one line or more and of two or more. Ensonification is
// the sum measure of IHO C-13 and takes no notice of where the lines really
// went, so both are given.
type Coverage struct {
	Source         string       `json:"area_source"` // "exercise" or "lines"
	Area           [][2]float64 `json:"area_corners_m"`
	SquareMetres   float64      `json:"area_m2"`
	Cell           float64      `json:"cell_m"`
	Counted        float64      `json:"counted_percent"`
	Lost           []LostGround `json:"lost"`
	Once           float64      `json:"once_percent"`
	Twice          float64      `json:"twice_percent"`
	EffectiveRange *float64     `json:"effective_range_m,omitempty"` // slant, one side
	Spacing        *float64     `json:"line_spacing_m,omitempty"`
	Ensonification *float64     `json:"ensonification_percent,omitempty"`
	HolidayCount   int          `json:"holiday_count"`
	HolidayArea    float64      `json:"holiday_area_m2"`
	Holidays       []Holiday    `json:"holidays"` // the largest, largest first
}

// LostGround is ground of the area that does not count, by the reason for it.
type LostGround struct {
	Reason       string  `json:"reason"`
	SquareMetres float64 `json:"area_m2"`
	Percent      float64 `json:"percent"`
}

// Holiday is a gap in what counts that could hide a thing of one metre.
type Holiday struct {
	Reason       string  `json:"reason"` // of most of it
	SquareMetres float64 `json:"area_m2"`
	X            float64 `json:"x_m"` // of its centroid, local grid
	Y            float64 `json:"y_m"`
	Easting      float64 `json:"easting_m"` // the same in UTM
	Northing     float64 `json:"northing_m"`
	Widest       float64 `json:"widest_square_m"` // side of the largest square of cells in it
	Near         string  `json:"nearest_line"`
}

// Line is one line as it was run. Run it twice and it is there twice.
type Line struct {
	Name       string  `json:"name"`
	Reversed   bool    `json:"reversed"`
	Open       bool    `json:"still_logging,omitempty"`
	RangeScale float64 `json:"range_scale_m"`
	Length     float64 `json:"length_m"` // as planned
	Run        float64 `json:"run_m"`    // of it, with the log on
	Share      float64 `json:"logged_percent"`
	Pings      int     `json:"ping_count"`
	Faulted    int     `json:"untrusted_fix_count"`
	OffLineRMS float64 `json:"off_line_rms_m"` // of the vessel, by the desk
	OffLineMax float64 `json:"off_line_max_m"`
	FishRMS    float64 `json:"fish_off_line_rms_m"` // of the fish, in truth
	FishMax    float64 `json:"fish_off_line_max_m"`

	Speed         *Spread  `json:"speed_over_ground_m_per_s,omitempty"`
	Altitude      *Spread  `json:"altitude_percent_of_range_scale,omitempty"` // true
	InBand        *float64 `json:"altitude_in_wanted_band_percent,omitempty"`
	InNOAABand    *float64 `json:"altitude_in_8_to_20_percent_band_percent,omitempty"`
	PingsPerMetre *float64 `json:"pings_per_metre,omitempty"` // over the true track of the fish
	BottomLock    *float64 `json:"bottom_track_lock_percent,omitempty"`
	BottomMean    *float64 `json:"bottom_track_error_mean_m,omitempty"`
	BottomRMS     *float64 `json:"bottom_track_error_rms_m,omitempty"`

	Series Series  `json:"series"`
	Model  *Series `json:"model,omitempty"` // how the mate ran it in the same sea, if that was asked for
}

// Series is a line's record thinned to at most [MaxSeries] pings, for plots.
type Series struct {
	Along    []float64 `json:"along_m"`
	Altitude []float64 `json:"altitude_percent_of_range_scale"`
	OffLine  []float64 `json:"off_line_m"`         // of the vessel, by the desk
	FishOff  []float64 `json:"fish_off_line_m"`    // of the fish, in truth
	Ahead    []float64 `json:"fish_error_ahead_m"` // of the desk's fish, along the line as run: negative is too far astern
	Askew    []float64 `json:"swath_askew_deg"`    // of the swath's bearing off the fish's heading
}

// Target is an object that truly lies there, and what became of it. A pipeline
// is one too: its errors are from the nearest point of its path.
type Target struct {
	Name         string   `json:"name"`
	Kind         string   `json:"kind"`
	Charted      bool     `json:"charted"`
	X            float64  `json:"x_m"` // local grid
	Y            float64  `json:"y_m"`
	Easting      float64  `json:"easting_m"` // the same in UTM
	Northing     float64  `json:"northing_m"`
	Length       float64  `json:"length_m"`
	Height       float64  `json:"height_m"` // above the floor round it
	Pings        int      `json:"ping_count"`
	BestLine     string   `json:"best_line,omitempty"`
	BestPings    int      `json:"best_line_ping_count"`
	ThreePings   bool     `json:"three_pings_on_one_line"`
	Contacts     []int    `json:"contact_numbers"`   // reported, and near enough
	Candidates   []int    `json:"candidate_numbers"` // of the lookout, near enough, which nobody took up
	Excused      bool     `json:"excused,omitempty"` // its ground counts and yet no line showed it: in a shadow, or under the fish
	Contact      *int     `json:"contact_number,omitempty"`
	ContactName  string   `json:"contact_name,omitempty"`
	ContactClass string   `json:"contact_class,omitempty"`
	East         *float64 `json:"contact_error_east_m,omitempty"`
	North        *float64 `json:"contact_error_north_m,omitempty"`
	Distance     *float64 `json:"contact_error_m,omitempty"`
	LengthByDesk *float64 `json:"measured_length_m,omitempty"` // left out if nobody measured it
	HeightByDesk *float64 `json:"measured_height_m,omitempty"` // left out without a shadow
}

// Contacts sums up what was reported of what lies there.
type Contacts struct {
	True       int      `json:"true"`
	False      int      `json:"false"`
	Duplicate  int      `json:"duplicate"`
	Missed     int      `json:"missed"`
	Natural    int      `json:"natural"`    // natural features named as such, which cost nothing
	Candidates int      `json:"candidates"` // of the lookout, which nobody took up
	Precision  float64  `json:"precision"`
	Recall     float64  `json:"recall"`
	RecallLow  float64  `json:"recall_low,omitempty"` // 95 %, by Wilson's interval: so few objects tell little
	RecallHigh float64  `json:"recall_high,omitempty"`
	F          float64  `json:"f"`
	Brier      *float64 `json:"brier,omitempty"` // of the confidences stated, 0 at best: no points
}

// Candidate is the verdict on a contact of the lookout that nobody took up.
const Candidate = string(candidate)

// FalseContact is a contact where no object lies.
type FalseContact struct {
	Verdict  string   `json:"verdict"` // "false", "natural", or "candidate" for the lookout's that nobody took up
	Number   int      `json:"number"`
	Name     string   `json:"name,omitempty"`
	Class    string   `json:"class,omitempty"`
	ByHand   bool     `json:"by_hand"`
	X        float64  `json:"x_m"` // local grid
	Y        float64  `json:"y_m"`
	Easting  float64  `json:"easting_m"` // the same in UTM
	Northing float64  `json:"northing_m"`
	Length   float64  `json:"length_m"`
	Lines    []string `json:"lines"`
	Ground   string   `json:"ground"` // rock or cobble if there is any close by, else the sediment there
}

// Position is how far off the desk puts things, over every logged ping with a
// fix it trusted. The swath is compared where the desk paints it: at half and
// at the whole of its effective ground range, both sides.
type Position struct {
	Pings         int     `json:"ping_count"`
	Fish          *Errors `json:"fish,omitempty"`
	PortHalf      *Errors `json:"port_half_range,omitempty"`
	StarboardHalf *Errors `json:"starboard_half_range,omitempty"`
	PortFull      *Errors `json:"port_full_range,omitempty"`
	StarboardFull *Errors `json:"starboard_full_range,omitempty"`
	GroundHalf    *Errors `json:"ground_at_half_range,omitempty"` // both sides together
	Askew         *Askew  `json:"swath_askew,omitempty"`
}

// Askew is the bearing that the swath was laid square to less the fish's true
// heading, degrees, clockwise positive: in a cross current the crab angle, if it was
// laid by the course made good.
type Askew struct {
	Mean float64 `json:"mean_deg"`
	RMS  float64 `json:"rms_deg"`
}

// Errors are desk less truth in the frame of the line.
type Errors struct {
	Along    Statistic `json:"along"`
	Across   Statistic `json:"across"`
	Distance Statistic `json:"distance"`
}

// Statistic sums up one error. P95 and Max are of absolute values.
type Statistic struct {
	Mean float64 `json:"mean_m"`
	RMS  float64 `json:"rms_m"`
	P95  float64 `json:"p95_m"`
	Max  float64 `json:"max_m"`
}
