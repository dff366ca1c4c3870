package geodesy_test

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"dryline/vessel/nav/geodesy"
)

// row is one line of the PROJ tables in testdata/geodesy. Angles are degrees;
// a figure the table does not give is NaN.
type row struct {
	lat, lon              float64
	zone                  int
	south                 bool
	east, north, k, gamma float64
}

func (r row) String() string { return fmt.Sprintf("%g,%g in %d", r.lat, r.lon, r.zone) }

func readTable(t *testing.T, name string) []row {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "..", "..", "testdata", "geodesy", name))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	records, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	number := func(s string) float64 {
		if s == "" {
			return math.NaN()
		}
		v, err := strconv.ParseFloat(s, 64)
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	var rows []row
	for _, c := range records[1:] {
		rows = append(rows, row{
			lat: number(c[0]), lon: number(c[1]), zone: int(number(c[2])), south: c[3] == "S",
			east: number(c[4]), north: number(c[5]), k: number(c[6]), gamma: number(c[7]),
		})
	}
	if len(rows) < 10 {
		t.Fatalf("%s has %d rows, want at least 10", name, len(rows))
	}
	return rows
}

// Source: PROJ 9.1.1, tables in testdata/geodesy.
func TestUTMAgainstPROJ(t *testing.T) {
	for _, table := range []struct {
		file     string
		metres   float64
		scale    float64
		gammaDeg float64
	}{
		{"utm_reference.csv", 1e-3, 1e-7, 1e-6},
		{"utm_wide.csv", 1e-5, 1e-7, 1e-6},
	} {
		for _, r := range readTable(t, table.file) {
			t.Run(table.file+"/"+r.String(), func(t *testing.T) {
				p, err := geodesy.UTM(r.zone, r.south)
				if err != nil {
					t.Fatal(err)
				}
				ll := geodesy.Degrees(r.lat, r.lon)
				e, n := p.Forward(ll)
				if !near(e, r.east, table.metres) || !near(n, r.north, table.metres) {
					t.Errorf("Forward: got %.6f, %.6f, want %.6f, %.6f", e, n, r.east, r.north)
				}
				back := p.Inverse(r.east, r.north)
				lat, lon := back.Degrees()
				dLon := math.Remainder(lon-r.lon, 360) * math.Cos(ll.Lat)
				const degreesPerMetre = 1 / 111320.0
				if !near(lat, r.lat, table.metres*degreesPerMetre) || !near(dLon, 0, table.metres*degreesPerMetre) {
					t.Errorf("Inverse: got %.10f, %.10f, want %v, %v", lat, lon, r.lat, r.lon)
				}
				if k := p.ScaleFactor(ll); !math.IsNaN(r.k) && !near(k, r.k, table.scale) {
					t.Errorf("ScaleFactor: got %.9f, want %.8f", k, r.k)
				}
				if g := p.Convergence(ll) * 180 / math.Pi; !math.IsNaN(r.gamma) && !near(g, r.gamma, table.gammaDeg) {
					t.Errorf("Convergence: got %.9f degrees, want %.8f", g, r.gamma)
				}
			})
		}
	}
}

// near is false when either value is NaN.
func near(got, want, tolerance float64) bool { return math.Abs(got-want) <= tolerance }

// The codes and zone letters are those of the EPSG registry: 32630 is WGS 84 /
// UTM zone 30N, 32760 is WGS 84 / UTM zone 60S.
func TestEPSG(t *testing.T) {
	for _, test := range []struct {
		zone  int
		south bool
		code  int
		name  string
	}{
		{30, false, 32630, "30N"},
		{1, false, 32601, "1N"},
		{60, true, 32760, "60S"},
	} {
		p, err := geodesy.UTM(test.zone, test.south)
		if err != nil {
			t.Fatal(err)
		}
		if got := p.EPSG(); got != test.code {
			t.Errorf("zone %s: got EPSG %d, want %d", test.name, got, test.code)
		}
		if got := p.String(); got != test.name {
			t.Errorf("got name %q, want %q", got, test.name)
		}
	}
}

func TestUTMRefusesZone(t *testing.T) {
	for _, zone := range []int{-1, 0, 61} {
		if _, err := geodesy.UTM(zone, false); err == nil {
			t.Errorf("zone %d: got no error", zone)
		}
	}
}

// Outside its domain the projection answers NaN, never a plausible number.
func TestUTMOutside(t *testing.T) {
	p, err := geodesy.UTM(30, false)
	if err != nil {
		t.Fatal(err)
	}
	for _, test := range []struct {
		name string
		ll   geodesy.LatLon
	}{
		{"pole", geodesy.Degrees(90, -3)},
		{"13 degrees off", geodesy.Degrees(50, 10)},
		{"antipode", geodesy.Degrees(-50, 177)},
		{"degrees passed as radians", geodesy.LatLon{Lat: 50.8, Lon: -1.4}},
		{"NaN", geodesy.LatLon{Lat: math.NaN()}},
		{"infinite", geodesy.LatLon{Lon: math.Inf(1)}},
	} {
		if e, n := p.Forward(test.ll); !math.IsNaN(e) || !math.IsNaN(n) {
			t.Errorf("%s: Forward got %v, %v, want NaN", test.name, e, n)
		}
		if g, k := p.Convergence(test.ll), p.ScaleFactor(test.ll); !math.IsNaN(g) || !math.IsNaN(k) {
			t.Errorf("%s: got convergence %v and scale %v, want NaN", test.name, g, k)
		}
	}
	for _, en := range [][2]float64{{3e6, 0}, {-1e9, 0}, {500000, 1e8}, {500000, 9.9e6}, {math.NaN(), 0}, {0, math.Inf(1)}} {
		if ll := p.Inverse(en[0], en[1]); !math.IsNaN(ll.Lat) || !math.IsNaN(ll.Lon) {
			t.Errorf("Inverse(%v, %v): got %v, want NaN", en[0], en[1], ll)
		}
	}
	var zero geodesy.Projection
	if e, _ := zero.Forward(geodesy.Degrees(0, 0)); !math.IsNaN(e) {
		t.Errorf("zero projection: got easting %v, want NaN", e)
	}
	if ll := zero.Inverse(500000, 0); !math.IsNaN(ll.Lat) {
		t.Errorf("zero projection: got %v, want NaN", ll)
	}
}

func BenchmarkForward(b *testing.B) {
	p, err := geodesy.UTM(30, false)
	if err != nil {
		b.Fatal(err)
	}
	ll := geodesy.Degrees(50.8, -1.4)
	for b.Loop() {
		p.Forward(ll)
	}
}

func BenchmarkInverse(b *testing.B) {
	p, err := geodesy.UTM(30, false)
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		p.Inverse(612750.4026, 5628804.6483)
	}
}
