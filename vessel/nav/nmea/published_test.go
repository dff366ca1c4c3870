package nmea

import (
	"math"
	"strconv"
	"strings"
	"testing"
)

// Sentences in public descriptions and makers' manuals ("NMEA Revealed" v2.24,
// gpsd project, and the manuals it draws on).
var published = []string{
	"$GPGGA,123519,4807.038,N,01131.000,E,1,08,0.9,545.4,M,46.9,M,,*47",
	"$GNGGA,001043.00,4404.14036,N,12118.85961,W,1,12,0.98,1113.0,M,-21.3,M*47",
	"$GPGGA,092204.999,4250.5589,S,14718.5084,E,1,04,24.4,19.7,M,,,,0000*1F",
	"$GPRMC,123519,A,4807.038,N,01131.000,E,022.4,084.4,230394,003.1,W*6A",
	"$GPRMC,225446,A,4916.45,N,12311.12,W,000.5,054.7,191194,020.3,E*68",
	"$GNRMC,001031.00,A,4404.13993,N,12118.86023,W,0.146,,100117,,,A*7B",
	"$GPVTG,220.86,T,,M,2.550,N,4.724,K,A*34",
	"$GPVTG,054.7,T,034.4,M,005.5,N,010.2,K*48",
	"$GPHDT,274.07,T*03",
	"$HEROT,0.0,A*2B",
	"$GPZDA,160012.71,11,03,2004,-1,00*7D",
	"$GPZDA,201530.00,04,07,2002,00,00*60",
	"$SDDBT,7.8,f,2.4,M,1.3,F*0D",
	"$SDDBT,8.1,f,2.4,M,1.3,F*0B",
	"$INDPT,2.3,0.0*46",
	"$WIMWV,214.8,R,0.1,K,A*28",
	"$HCXDR,A,171,D,PITCH,A,-37,D,ROLL,G,367,,MAGX,G,2420,,MAGY,G,-8984,,MAGZ*41",
	"$INMTW,17.9,C*1B",
	"$GPGST,182141.000,15.5,15.3,7.2,21.8,0.9,0.5,0.8*54",
}

// split parts a sentence into what is summed and the sum it states.
func split(t *testing.T, sentence string) (between string, stated byte) {
	t.Helper()
	between, digits, ok := strings.Cut(strings.TrimPrefix(sentence, "$"), "*")
	sum, err := strconv.ParseUint(digits, 16, 8)
	if !ok || err != nil {
		t.Fatalf("%q has no checksum: %v", sentence, err)
	}
	return between, byte(sum)
}

func TestPublishedChecksums(t *testing.T) {
	for _, sentence := range published {
		between, want := split(t, sentence)
		if got := Checksum([]byte(between)); got != want {
			t.Errorf("%s: got %02X, want %02X", sentence, got, want)
		}
		if got := string(end([]byte("$"+between), 0)); got != sentence+"\r\n" {
			t.Errorf("got %q, want %q with CR LF", got, sentence)
		}
	}
}

// A public source prints this depth with the checksum 68; it is 64. (The
// independent parser of TestReadBack refuses the 68 too.)
func TestChecksumWrongInPrint(t *testing.T) {
	between, printed := split(t, "$SDDPT,15.2,0.5*68")
	if got := Checksum([]byte(between)); got == printed || got != 0x64 {
		t.Errorf("got %02X, want 64 and not %02X", got, printed)
	}
}

// Degrees and minutes. The first two rows are the published GGA and GNRMC
// above, whose degrees are worked from their minutes: 48 + 7.038/60 and so on.
// The others follow from the definition alone.
func TestCoordinate(t *testing.T) {
	for _, row := range []struct {
		name    string
		degrees float64
		width   int
		want    string
	}{
		{"published latitude", 48 + 7.038/60, 2, ",4807.038000,+"},
		{"published longitude", 11 + 31.0/60, 3, ",01131.000000,+"},
		{"published west", -(121 + 18.86023/60), 3, ",12118.860230,-"},
		{"published south", -(42 + 50.5589/60), 2, ",4250.558900,-"},
		{"minutes carry into degrees", 49 - 1e-10, 2, ",4900.000000,+"},
		{"minutes carry at ten degrees", -(10 - 1e-10), 3, ",01000.000000,-"},
		{"short of the carry", 49 - 1e-6/60, 2, ",4859.999999,+"},
		{"one digit of minutes", 5 + 3.5/60, 2, ",0503.500000,+"},
		{"nothing", 0, 3, ",00000.000000,+"},
		{"less than the last digit south", -1e-12, 2, ",0000.000000,+"},
		{"the pole", 90, 2, ",9000.000000,+"},
		{"the date line", -180, 3, ",18000.000000,-"},
	} {
		if got := string(coordinate(nil, row.degrees*math.Pi/180, row.width, '+', '-', true)); got != row.want {
			t.Errorf("%s: got %q, want %q", row.name, got, row.want)
		}
	}
}

func TestAngle(t *testing.T) {
	for _, row := range []struct {
		name     string
		degrees  float64
		decimals int
		want     string
	}{
		{"three digits", 7.25, 2, ",007.25"},
		{"rounds to the full circle", 359.996, 2, ",000.00"},
		{"rounds below it", 359.994, 2, ",359.99"},
		{"to port", -30, 1, ",330.0"},
		{"a hair to port", -0.01, 1, ",000.0"},
		{"twice round", 725, 1, ",005.0"},
		{"no number", math.NaN(), 1, ","},
		{"without end", math.Inf(-1), 1, ","},
	} {
		if got := string(angle(nil, row.degrees*math.Pi/180, row.decimals, true)); got != row.want {
			t.Errorf("%s: got %q, want %q", row.name, got, row.want)
		}
	}
}

func TestNumber(t *testing.T) {
	for _, row := range []struct {
		name string
		v    float64
		ok   bool
		want string
	}{
		{"rounded", 1.25001, true, ",1.3"},
		{"negative", -12.34, true, ",-12.3"},
		{"nothing from below", -0.04, true, ",0.0"},
		{"not to be believed", 3, false, ","},
		{"no number", math.NaN(), true, ","},
		{"without end", math.Inf(1), true, ","},
		{"too long", -1e5, true, ","},
		{"just not too long", 99999.4, true, ",99999.4"},
	} {
		if got := string(number(nil, row.v, 1, row.ok)); got != row.want {
			t.Errorf("%s: got %q, want %q", row.name, got, row.want)
		}
	}
}

func TestParseKinds(t *testing.T) {
	got, err := ParseKinds("rmc, GGA,rmc")
	if err != nil || Join(got) != "RMC,GGA" {
		t.Errorf("got %v, %v, want RMC and GGA", got, err)
	}
	for _, bad := range []string{"", "GGA,", "GLL", "GG"} {
		if got, err := ParseKinds(bad); err == nil {
			t.Errorf("%q: got %v, want an error", bad, got)
		}
	}
	if got, err := ParseKinds(Join(Kinds())); err != nil || Join(got) != Join(Kinds()) {
		t.Errorf("all: got %v, %v", got, err)
	}
}
