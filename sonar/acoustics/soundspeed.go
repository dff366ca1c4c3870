package acoustics

import "fmt"

// SoundSpeedModel names a published formula for the speed of sound.
type SoundSpeedModel string

// The sound speed formulas known to [SoundSpeed].
const (
	ModelMackenzie SoundSpeedModel = "mackenzie" // see Mackenzie
	ModelUNESCO    SoundSpeedModel = "unesco"    // see UNESCO
	ModelMedwin    SoundSpeedModel = "medwin"    // see Medwin
)

// SoundSpeedModels lists the formulas, the usual choice first.
func SoundSpeedModels() []SoundSpeedModel {
	return []SoundSpeedModel{ModelMackenzie, ModelUNESCO, ModelMedwin}
}

// standardLatitude, in degrees, turns depth into pressure where no position is
// given. The choice moves the speed by less than 0.01 m/s in the upper 200 m.
const standardLatitude = 45

// SoundSpeed returns the speed of sound in sea water, in m/s, by the named
// formula. Values outside the formula's validity are computed all the same;
// see [SoundSpeedModel.Validity]. The error is for an unknown name.
func SoundSpeed(model SoundSpeedModel, temperatureC, salinityPSU, depthM float64) (float64, error) {
	switch model {
	case ModelMackenzie:
		return Mackenzie(temperatureC, salinityPSU, depthM), nil
	case ModelUNESCO:
		bar := PressureAtDepth(depthM, standardLatitude) / 10
		return UNESCO(temperatureC, salinityPSU, bar), nil
	case ModelMedwin:
		return Medwin(temperatureC, salinityPSU, depthM), nil
	}
	return 0, unknownSoundSpeed(model)
}

// Validity returns the range of water the formula was published for. The error
// is for an unknown name.
func (m SoundSpeedModel) Validity() (Validity, error) {
	switch m {
	case ModelMackenzie:
		return Validity{Interval{-2, 30}, Interval{25, 40}, Interval{0, 8000}}, nil
	case ModelUNESCO:
		// 10 000 dbar, as a depth at the standard latitude.
		return Validity{Interval{0, 40}, Interval{0, 40}, Interval{0, DepthAtPressure(10000, standardLatitude)}}, nil
	case ModelMedwin:
		return Validity{Interval{0, 35}, Interval{0, 45}, Interval{0, 1000}}, nil
	}
	return Validity{}, unknownSoundSpeed(m)
}

func unknownSoundSpeed(m SoundSpeedModel) error {
	return fmt.Errorf("acoustics: unknown sound speed model %q, want one of %q", string(m), SoundSpeedModels())
}
