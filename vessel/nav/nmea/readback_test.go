package nmea

import (
	"math"
	"strings"
	"testing"
	"time"

	parser "github.com/adrianmo/go-nmea"

	"dryline/vessel/nav"
	"dryline/vessel/nav/geodesy"
)

const everything = nav.Fix | nav.Heading | nav.RateOfTurn | nav.Motion | nav.CableCounter | nav.FishDepth |
	nav.FishAltitude | nav.FishAttitude | nav.Beacon | nav.WaterSpeed | nav.Wind | nav.TrueWind

func place(t testing.TB) *Source {
	t.Helper()
	grid, err := geodesy.NewLocalGrid(geodesy.Degrees(-47.2, -33.4))
	if err != nil {
		t.Fatal(err)
	}
	return &Source{Grid: grid, Start: time.Date(2026, 12, 31, 23, 59, 0, 0, time.FixedZone("east", 3600))}
}

func radians(degrees float64) float64 { return degrees * math.Pi / 180 }

func shown() *nav.Reading {
	return &nav.Reading{
		Time: 3672.3, Valid: everything,
		X: 812.34, Y: -455.67, FixTime: 3671.9, Quality: nav.Differential, Satellites: 9, HDOP: 0.87,
		SpeedOverGround: 2.1, Course: geodesy.TrueBearing(radians(278.123)),
		Heading: geodesy.TrueBearing(radians(281.456)), RateOfTurn: radians(-0.4),
		Heave: -0.31, Pitch: radians(1.2), Roll: radians(-4.4),
		CableOut: 65.2, FishDepth: 12.34, FishAltitude: 7.89,
		FishHeading: geodesy.TrueBearing(radians(276.6)), FishPitch: radians(-2.3), FishRoll: radians(0.7),
		WindSpeed: 6.1, WindFrom: radians(-35.5),
		TrueWindSpeed: 5.2, TrueWindFrom: geodesy.TrueBearing(radians(230.3)),
	}
}

// read parses what was appended with an independent parser, which also
// refuses a wrong checksum. It knows no quality 8: that is handed back apart.
func read(t testing.TB, text []byte) (sentences []parser.Sentence, quality string) {
	t.Helper()
	p := parser.SentenceParser{OnBaseSentence: func(b *parser.BaseSentence) error {
		if b.Type == parser.TypeGGA {
			quality = b.Fields[5]
			if quality == "8" {
				b.Fields[5] = parser.GPS
			}
		}
		return nil
	}}
	for line := range strings.SplitAfterSeq(string(text), "\r\n") {
		if line == "" {
			continue
		}
		s, err := p.Parse(strings.TrimSuffix(line, "\r\n"))
		if err != nil {
			t.Fatalf("%q: %v", line, err)
		}
		sentences = append(sentences, s)
	}
	return sentences, quality
}

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within*(1+1e-9)) {
		t.Errorf("%s: got %v, want %v within %v", what, got, want, within)
	}
}

// Every sentence read by an independent parser says what the displays show, to
// half the last digit.
func TestReadBack(t *testing.T) {
	src, r := place(t), shown()
	at := src.Grid.ToLatLon(r.X, r.Y)
	lat, lon := at.Degrees()
	const fine = 0.5e-6 / 60 // half the last digit of the minutes, degrees
	for _, k := range Kinds() {
		sentences, quality := read(t, src.Append(nil, k, r))
		for _, s := range sentences {
			switch s := s.(type) {
			case parser.GGA:
				near(t, "GGA latitude", s.Latitude, lat, fine+1e-11)
				near(t, "GGA longitude", s.Longitude, lon, fine+1e-11)
				near(t, "GGA HDOP", s.HDOP, 0.87, 0.05)
				if s.NumSatellites != 9 || quality != "8" || s.Time.String() != "00:00:11.9000" {
					t.Errorf("GGA: got %d satellites, quality %s, %s, want 9, 8, 00:00:11.9", s.NumSatellites, quality, s.Time)
				}
			case parser.RMC:
				near(t, "RMC latitude", s.Latitude, lat, fine+1e-11)
				near(t, "RMC longitude", s.Longitude, lon, fine+1e-11)
				near(t, "RMC speed", s.Speed, 2.1*3600/1852, 0.005)
				near(t, "RMC course", s.Course, 278.123, 0.005)
				if s.Validity != "V" || s.FFAMode != "S" || s.Date.String() != "01/01/27" {
					t.Errorf("RMC: got %s, mode %s, %s, want V, S, 01/01/27", s.Validity, s.FFAMode, s.Date)
				}
			case parser.VTG:
				near(t, "VTG course", s.TrueTrack, 278.123, 0.005)
				near(t, "VTG knots", s.GroundSpeedKnots, 2.1*3600/1852, 0.005)
				near(t, "VTG km/h", s.GroundSpeedKPH, 2.1*3.6, 0.005)
				if s.FFAMode != "S" {
					t.Errorf("VTG: got mode %s, want S", s.FFAMode)
				}
			case parser.ZDA:
				if s.Time.String() != "00:00:12.3000" || s.Day != 1 || s.Month != 1 || s.Year != 2027 || s.OffsetHours != 0 {
					t.Errorf("ZDA: got %v", s)
				}
			case parser.HDT:
				near(t, "HDT", s.Heading, 281.456, 0.005)
			case parser.ROT:
				near(t, "ROT", s.RateOfTurn, -24, 0.05)
				if !s.Valid {
					t.Error("ROT: got V, want A")
				}
			case parser.DPT:
				near(t, "DPT", s.Depth, 20.23, 0.005)
				near(t, "DPT offset", s.Offset, 0, 0)
			case parser.DBT:
				near(t, "DBT feet", s.DepthFeet, 20.23/0.3048, 0.05)
				near(t, "DBT metres", s.DepthMeters, 20.23, 0.005)
				near(t, "DBT fathoms", s.DepthFathoms, 20.23/1.8288, 0.005)
			case parser.MWV:
				angle, speed := 324.5, 6.1
				if s.Reference == "T" {
					angle, speed = 230.3-281.456+360, 5.2
				}
				near(t, "MWV angle "+s.Reference, s.WindAngle, angle, 0.05)
				near(t, "MWV speed "+s.Reference, s.WindSpeed, speed*3600/1852, 0.05)
				if !s.StatusValid || s.WindSpeedUnit != "N" {
					t.Errorf("MWV: got %v", s)
				}
			case parser.XDR: // in TestReadBackXDR
			default:
				t.Errorf("%s: got %T", k, s)
			}
		}
		if want := map[Kind]int{MWV: 2, XDR: 3}[k]; len(sentences) != max(want, 1) {
			t.Errorf("%s: got %d sentences, want %d", k, len(sentences), max(want, 1))
		}
	}
	if _, err := parser.Parse("$SDDPT,15.2,0.5*68"); err == nil {
		t.Error("the checksum wrong in print was taken")
	}
}

func TestReadBackXDR(t *testing.T) {
	sentences, _ := read(t, AppendXDR(nil, shown()))
	type value struct {
		kind, unit string
		v, within  float64
	}
	want := map[string]value{
		"CABLEOUT": {"D", "M", 65.2, 0.05}, "FISHDEPTH": {"D", "M", 12.34, 0.005}, "FISHALT": {"D", "M", 7.89, 0.005},
		"FISHPITCH": {"A", "D", -2.3, 0.05}, "FISHROLL": {"A", "D", 0.7, 0.05}, "FISHHDG": {"A", "D", 276.6, 0.05},
		"PITCH": {"A", "D", 1.2, 0.05}, "ROLL": {"A", "D", -4.4, 0.05}, "HEAVE": {"D", "M", -0.31, 0.005},
	}
	for _, s := range sentences {
		for _, m := range s.(parser.XDR).Measurements {
			w, ok := want[m.TransducerName]
			if !ok || m.TransducerType != w.kind || m.Unit != w.unit {
				t.Errorf("got %+v, want %+v", m, w)
			}
			near(t, m.TransducerName, m.Value, w.v, w.within)
			delete(want, m.TransducerName)
		}
	}
	if len(want) > 0 {
		t.Errorf("not told: %v", want)
	}
}

// The flags of a simulated and of a plain fix. Quality and mode as in "NMEA
// Revealed" v2.24 (gpsd project): 1 and A autonomous, 2 and D differential, 4
// and R RTK, 8 and S simulator, 0 and N none.
func TestFlags(t *testing.T) {
	for _, row := range []struct {
		name                  string
		fix                   nav.Quality
		plain                 bool
		quality, mode, status string
	}{
		{"simulated autonomous", nav.Autonomous, false, "8", "S", "V"},
		{"simulated RTK", nav.RTK, false, "8", "S", "V"},
		{"plain autonomous", nav.Autonomous, true, "1", "A", "A"},
		{"plain differential", nav.Differential, true, "2", "D", "A"},
		{"plain RTK", nav.RTK, true, "4", "R", "A"},
		{"none", nav.NoFix, false, "0", "N", "V"},
		{"plain none", nav.NoFix, true, "0", "N", "V"},
	} {
		src, r := place(t), shown()
		src.Plain, r.Quality = row.plain, row.fix
		field := func(k Kind, i int) string {
			text, _, _ := strings.Cut(string(src.Append(nil, k, r)), "*")
			return strings.Split(text, ",")[i]
		}
		if got := field(GGA, 6); got != row.quality {
			t.Errorf("%s: got quality %s, want %s", row.name, got, row.quality)
		}
		if got := field(RMC, 2); got != row.status {
			t.Errorf("%s: got status %s, want %s", row.name, got, row.status)
		}
		for k, i := range map[Kind]int{RMC: 12, VTG: 9} {
			if got := field(k, i); got != row.mode {
				t.Errorf("%s: got %s mode %s, want %s", row.name, k, got, row.mode)
			}
		}
	}
}

// A display that does not hold good says nothing, whatever it still shows.
func TestNothingStale(t *testing.T) {
	src, r := place(t), shown()
	r.Valid = 0
	for k, want := range map[Kind]string{
		GGA: "$GPGGA,000012.30,,,,,0,,,,M,,M,,",
		RMC: "$GPRMC,000012.30,V,,,,,,,010127,,,N",
		VTG: "$GPVTG,,T,,M,,N,,K,N",
		HDT: "$HEHDT,,T",
		ROT: "$HEROT,,V",
		DPT: "$IIDPT,,,",
		DBT: "$IIDBT,,f,,M,,F",
		MWV: "$WIMWV,,R,,N,V",
	} {
		if got, _, _ := strings.Cut(string(src.Append(nil, k, r)), "*"); got != want {
			t.Errorf("%s: got %q, want %q", k, got, want)
		}
	}
	sentences, _ := read(t, AppendXDR(nil, r))
	for _, s := range sentences {
		for i, f := range s.(parser.XDR).Fields {
			if i%4 == 1 && f != "" {
				t.Errorf("XDR: got %q, want nothing", f)
			}
		}
	}
	for lost, k := range map[nav.Set]Kind{nav.FishAltitude: DPT, nav.FishDepth: DBT} {
		r.Valid = everything &^ lost
		if got := string(src.Append(nil, k, r)); strings.Contains(got, "20.23") {
			t.Errorf("%s without one of depth and altitude: got %q", k, got)
		}
	}
	r.Valid = everything &^ nav.Heading
	if got := string(AppendMWV(nil, r)); !strings.Contains(got, "$WIMWV,,T,,N,V*") {
		t.Errorf("true wind without a heading: got %q", got)
	}
}
