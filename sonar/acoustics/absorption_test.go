package acoustics

import (
	"math"
	"strings"
	"testing"
)

func TestFrancoisGarrison(t *testing.T) {
	// Francois and Garrison (1982), Table IV, to half its last digit.
	for _, row := range readChecks(t, "francois_garrison1982.csv") {
		got := FrancoisGarrison(row.number(t, "frequency_khz")*1000, row.number(t, "temperature"), row.number(t, "salinity"), 0, 8)
		for _, column := range []string{"absorption", "computed"} {
			if want := row.number(t, column); !near(got, want, halfDigit(row[column])) {
				t.Errorf("%v: got %.6f dB/km, want %s %v", row, got, column, row[column])
			}
		}
	}
}

func TestAbsorptionAtSideScanFrequencies(t *testing.T) {
	for _, row := range readChecks(t, "absorption_sidescan.csv") {
		f := row.number(t, "frequency_khz") * 1000
		temperature, salinity, depth := row.number(t, "temperature"), row.number(t, "salinity"), row.number(t, "depth")
		boric, magnesium, water := francoisGarrisonParts(f, temperature, salinity, depth, 8)
		got := map[string]float64{
			"fg":        FrancoisGarrison(f, temperature, salinity, depth, 8),
			"boric":     boric,
			"magnesium": magnesium,
			"water":     water,
			"am":        AinslieMcColm(f, temperature, salinity, depth, 8),
		}
		for column, value := range got {
			if row[column] == "" {
				continue
			}
			if want := row.number(t, column); !near(value, want, 5e-4) {
				t.Errorf("%s of %v: got %.5f dB/km, want %v", column, row, value, want)
			}
		}
	}
}

func TestAinslieMcColm(t *testing.T) {
	// Ainslie (2010), p. 78.
	for _, row := range readChecks(t, "ainslie2010_absorption.csv") {
		got := AinslieMcColm(row.number(t, "frequency_khz")*1000, row.number(t, "temperature"),
			row.number(t, "salinity"), row.number(t, "depth"), row.number(t, "ph"))
		if want := row.number(t, "absorption"); !near(got, want, halfDigit(row["absorption"])) {
			t.Errorf("got %.6f dB/km, want %v", got, want)
		}
	}
}

// Ainslie and McColm (1998) claim 10 % of Francois and Garrison from 100 Hz to
// 1 MHz, in four named oceans and for each quantity varied alone. The ranges
// here stop where the older formula's own range ends, -2 to 30 °C: at the very
// ends of the newer one (-6 and 35 °C, 7 km) the difference reaches 10.6 %.
func TestAinslieMcColmAgainstFrancoisGarrison(t *testing.T) {
	type water struct {
		name                             string
		temperature, salinity, depth, pH float64
	}
	var waters []water
	for _, row := range readChecks(t, "ainslie_mccolm1998.csv") {
		waters = append(waters, water{row["ocean"], row.number(t, "temperature"), row.number(t, "salinity"),
			row.number(t, "depth_km") * 1000, row.number(t, "ph")})
	}
	for x := -2.0; x <= 30; x++ {
		waters = append(waters, water{"temperature", x, 35, 0, 8})
	}
	for x := 5.0; x <= 50; x++ {
		waters = append(waters, water{"salinity", 10, x, 0, 8})
	}
	for x := 0.0; x <= 6750; x += 250 {
		waters = append(waters, water{"depth", 10, 35, x, 8})
	}
	for x := 7.7; x <= 8.3; x += 0.05 {
		waters = append(waters, water{"pH", 10, 35, 0, x})
	}
	worst := 0.0
	for _, w := range waters {
		for decade := 2.0; decade <= 6; decade += 0.02 {
			f := math.Pow(10, decade)
			fg := FrancoisGarrison(f, w.temperature, w.salinity, w.depth, w.pH)
			am := AinslieMcColm(f, w.temperature, w.salinity, w.depth, w.pH)
			off := math.Abs(am/fg - 1)
			worst = max(worst, off)
			if off > 0.10 {
				t.Errorf("%s %+v at %.0f Hz: got %.4g dB/km, want within 10 %% of %.4g", w.name, w, f, am, fg)
			}
		}
	}
	t.Logf("largest difference %.1f %%", 100*worst)
}

// The water term falls with temperature and the magnesium term rises with it,
// so the sign of the temperature effect changes between 300 and 900 kHz.
func TestAbsorptionTemperatureSign(t *testing.T) {
	for _, model := range AbsorptionModels() {
		change := func(f float64) float64 {
			warm, err := Absorption(model, f, 25, 35, 10, 8)
			if err != nil {
				t.Fatal(err)
			}
			cold, err := Absorption(model, f, 10, 35, 10, 8)
			if err != nil {
				t.Fatal(err)
			}
			return warm - cold
		}
		if got := change(300e3); got <= 0 {
			t.Errorf("%s at 300 kHz: warming changed absorption by %.2f dB/km, want an increase", model, got)
		}
		if got := change(900e3); got >= 0 {
			t.Errorf("%s at 900 kHz: warming changed absorption by %.2f dB/km, want a decrease", model, got)
		}
	}
}

func TestAbsorptionFreshAndSilent(t *testing.T) {
	for _, model := range AbsorptionModels() {
		for _, salinity := range []float64{0, 35} {
			for _, f := range []float64{0, 1, 100e3} {
				got, err := Absorption(model, f, 15, salinity, 0, 8)
				if err != nil {
					t.Fatal(err)
				}
				if math.IsNaN(got) || got < 0 || (f == 0) != (got == 0) {
					t.Errorf("%s, S %v, %v Hz: got %v dB/km", model, salinity, f, got)
				}
			}
		}
	}
}

func TestAbsorptionUnknownModel(t *testing.T) {
	_, err := Absorption("guess", 100e3, 10, 35, 0, 8)
	if err == nil || !strings.Contains(err.Error(), "francois-garrison") {
		t.Errorf("got error %v, want one that lists the known models", err)
	}
}

func TestAbsorptionValidity(t *testing.T) {
	tests := []struct {
		name              string
		model             AbsorptionModel
		frequency, pH     float64
		temperature, salt float64
		want              string
	}{
		{"sea", ModelFrancoisGarrison, 455e3, 8, 10, 35, ""},
		{"too warm below 500 kHz", ModelFrancoisGarrison, 455e3, 8, 25, 35, "temperature"},
		{"warm above 500 kHz", ModelFrancoisGarrison, 900e3, 8, 25, 35, ""},
		{"fresh", ModelAinslieMcColm, 455e3, 8, 10, 0, "salinity"},
		{"too high", ModelAinslieMcColm, 1.2e6, 8, 10, 35, "frequency"},
		{"acid", ModelAinslieMcColm, 455e3, 7, 10, 35, "pH"},
	}
	for _, test := range tests {
		v, err := test.model.Validity(test.frequency)
		if err != nil {
			t.Fatal(err)
		}
		err = v.Check(test.frequency, test.temperature, test.salt, 10, test.pH)
		switch {
		case test.want == "" && err != nil:
			t.Errorf("%s: got %v, want no warning", test.name, err)
		case test.want != "" && (err == nil || !strings.Contains(err.Error(), test.want)):
			t.Errorf("%s: got %v, want a warning with %q", test.name, err, test.want)
		}
	}
}
