package acoustics

import "fmt"

// AbsorptionModel names a published formula for the absorption of sound.
type AbsorptionModel string

// The absorption formulas known to [Absorption].
const (
	ModelFrancoisGarrison AbsorptionModel = "francois-garrison" // see FrancoisGarrison
	ModelAinslieMcColm    AbsorptionModel = "ainslie-mccolm"    // see AinslieMcColm
)

// AbsorptionModels lists the formulas, the usual choice first.
func AbsorptionModels() []AbsorptionModel {
	return []AbsorptionModel{ModelFrancoisGarrison, ModelAinslieMcColm}
}

// Absorption returns the absorption of sound in sea water, in dB/km, by the
// named formula. Values outside the formula's validity are computed all the
// same; see [AbsorptionModel.Validity]. The error is for an unknown name.
func Absorption(model AbsorptionModel, frequencyHz, temperatureC, salinityPSU, depthM, pH float64) (float64, error) {
	switch model {
	case ModelFrancoisGarrison:
		return FrancoisGarrison(frequencyHz, temperatureC, salinityPSU, depthM, pH), nil
	case ModelAinslieMcColm:
		return AinslieMcColm(frequencyHz, temperatureC, salinityPSU, depthM, pH), nil
	}
	return 0, unknownAbsorption(model)
}

// Validity returns the range of water and frequency the formula was published
// for. Francois and Garrison give a different range of water above 500 kHz,
// so the frequency chooses it. The error is for an unknown name.
func (m AbsorptionModel) Validity(frequencyHz float64) (AbsorptionValidity, error) {
	switch m {
	case ModelFrancoisGarrison:
		v := AbsorptionValidity{
			Validity:  Validity{Interval{-2, 22}, Interval{30, 35}, Interval{0, 3500}},
			Frequency: Interval{200, 1e6},
			// The range of the later fit; boric acid matters little to a side-scan.
			PH: Interval{7.7, 8.3},
		}
		if frequencyHz > 500e3 {
			v.Validity = Validity{Interval{0, 30}, Interval{0, 40}, Interval{0, 10e3}}
		}
		return v, nil
	case ModelAinslieMcColm:
		return AbsorptionValidity{
			Validity:  Validity{Interval{-6, 35}, Interval{5, 50}, Interval{0, 7000}},
			Frequency: Interval{100, 1e6},
			PH:        Interval{7.7, 8.3},
		}, nil
	}
	return AbsorptionValidity{}, unknownAbsorption(m)
}

func unknownAbsorption(m AbsorptionModel) error {
	return fmt.Errorf("acoustics: unknown absorption model %q, want one of %q", string(m), AbsorptionModels())
}

// relaxation is the part of the absorption that belongs to one relaxing
// salt: f0 f²/(f0²+f²). Without the salt, or without sound, there is none.
func relaxation(f0, f float64) float64 {
	if f0 == 0 || f == 0 {
		return 0
	}
	return f0 * f * f / (f0*f0 + f*f)
}
