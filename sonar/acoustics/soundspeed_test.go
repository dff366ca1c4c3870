package acoustics

import (
	"math"
	"strings"
	"testing"
)

func TestMackenzie(t *testing.T) {
	// Mackenzie (1981).
	for _, row := range readChecks(t, "mackenzie1981.csv") {
		got := Mackenzie(row.number(t, "temperature"), row.number(t, "salinity"), row.number(t, "depth"))
		if want := row.number(t, "speed"); !near(got, want, halfDigit(row["speed"])) {
			t.Errorf("%v: got %.5f m/s, want %v", row, got, row["speed"])
		}
	}
}

func TestMedwin(t *testing.T) {
	// Medwin (1975).
	for _, row := range readChecks(t, "medwin1975.csv") {
		got := Medwin(row.number(t, "temperature"), row.number(t, "salinity"), row.number(t, "depth"))
		if want := row.number(t, "speed"); !near(got, want, halfDigit(row["speed"])) {
			t.Errorf("%v: got %.6f m/s, want %v", row, got, row["speed"])
		}
	}
}

func TestUNESCO(t *testing.T) {
	// UNESCO Technical Papers in Marine Science 44 (1983), p. 48, and the
	// table of the library that cites it.
	for _, row := range readChecks(t, "unesco44_soundspeed.csv") {
		t90 := row.number(t, "temperature68") / 1.00024
		got := UNESCO(t90, row.number(t, "salinity"), row.number(t, "pressure_dbar")/10)
		tolerance := max(halfDigit(row["speed"]), 1e-7)
		if want := row.number(t, "speed"); !near(got, want, tolerance) {
			t.Errorf("%v: got %.8f m/s, want %v", row, got, row["speed"])
		}
	}
}

func TestDepthAtPressure(t *testing.T) {
	// UNESCO Technical Papers in Marine Science 44 (1983).
	for _, row := range readChecks(t, "unesco44_depth.csv") {
		latitude, dbar, depth := row.number(t, "latitude"), row.number(t, "pressure_dbar"), row.number(t, "depth")
		if got := DepthAtPressure(dbar, latitude); !near(got, depth, 5e-4) {
			t.Errorf("latitude %v: got %.4f m at %v dbar, want %v", latitude, got, dbar, depth)
		}
		if got := PressureAtDepth(depth, latitude); !near(got, dbar, 6e-4) {
			t.Errorf("latitude %v: got %.4f dbar at %v m, want %v", latitude, got, depth, dbar)
		}
	}
	for _, depth := range []float64{0, 1, 30, 200, 4000, 9000} {
		if got := DepthAtPressure(PressureAtDepth(depth, 52), 52); !near(got, depth, 1e-9*(1+depth)) {
			t.Errorf("there and back: got %v m, want %v", got, depth)
		}
	}
}

// The three formulas were fitted to different data; their authors quote
// standard errors of 0.07 to 0.2 m/s, so in common water they agree to a few
// tenths.
func TestSoundSpeedModelsAgree(t *testing.T) {
	for _, water := range [][3]float64{{4, 33, 20}, {10, 35, 0}, {15, 35, 100}, {25, 36, 10}} {
		reference, err := SoundSpeed(ModelUNESCO, water[0], water[1], water[2])
		if err != nil {
			t.Fatal(err)
		}
		for _, model := range SoundSpeedModels() {
			got, err := SoundSpeed(model, water[0], water[1], water[2])
			if err != nil {
				t.Fatal(err)
			}
			if math.Abs(got-reference) > 0.5 {
				t.Errorf("%s at %v: got %.3f m/s, want within 0.5 of %.3f", model, water, got, reference)
			}
		}
	}
}

func TestSoundSpeedUnknownModel(t *testing.T) {
	_, err := SoundSpeed("guess", 10, 35, 0)
	if err == nil || !strings.Contains(err.Error(), "mackenzie") {
		t.Errorf("got error %v, want one that lists the known models", err)
	}
	if _, err := SoundSpeedModel("guess").Validity(); err == nil {
		t.Error("got no error from Validity, want one")
	}
}

func TestSoundSpeedValidity(t *testing.T) {
	tests := []struct {
		name  string
		model SoundSpeedModel
		water [3]float64
		want  string // part of the warning, empty for none
	}{
		{"sea", ModelMackenzie, [3]float64{10, 35, 30}, ""},
		{"fresh", ModelMackenzie, [3]float64{10, 0, 30}, "salinity 0"},
		{"fresh", ModelUNESCO, [3]float64{10, 0, 30}, ""},
		{"deep", ModelMedwin, [3]float64{10, 35, 1200}, "depth 1200"},
		{"hot", ModelMedwin, [3]float64{36, 35, 12}, "temperature 36"},
		{"trench", ModelUNESCO, [3]float64{2, 35, 10500}, "depth 10500"},
	}
	for _, test := range tests {
		v, err := test.model.Validity()
		if err != nil {
			t.Fatal(err)
		}
		err = v.Check(test.water[0], test.water[1], test.water[2])
		switch {
		case test.want == "" && err != nil:
			t.Errorf("%s, %s: got %v, want no warning", test.model, test.name, err)
		case test.want != "" && (err == nil || !strings.Contains(err.Error(), test.want)):
			t.Errorf("%s, %s: got %v, want a warning with %q", test.model, test.name, err, test.want)
		}
	}
}
