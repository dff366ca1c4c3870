package acoustics

import "fmt"

// Sediment names a class of sea floor in the catalogue.
type Sediment string

// The catalogue. The parameters of all but the last two are published in
// APL-UW TR 9407 (1994), Section IV: the grain-size classes by its regressions
// (Eqs. 2-10), the stone classes by the constants of its Table 2. Shell bed
// and seagrass are our own choice; no published parameters were at hand.
const (
	Mud        Sediment = "mud"         // silty clay, 8 phi
	Silt       Sediment = "silt"        // sandy mud, 6 phi
	FineSand   Sediment = "fine_sand"   // 2.5 phi
	MediumSand Sediment = "medium_sand" // 1.5 phi
	CoarseSand Sediment = "coarse_sand" // 0.5 phi
	Gravel     Sediment = "gravel"      // sandy gravel, -1 phi
	Cobble     Sediment = "cobble"      // cobble, gravel, pebble
	Rock       Sediment = "rock"
	RoughRock  Sediment = "rough_rock"

	// ShellBed is sand packed with shells: coarse sand below, the relief of
	// cobble above, and five times the volume scattering of sand.
	ShellBed Sediment = "shell_bed"
	// Seagrass is a meadow on fine sand. The gas in its leaves and roots is
	// taken as five times the volume scattering of sand; the canopy's height
	// and its shadow are left out.
	Seagrass Sediment = "seagrass"
)

// Sediments lists the catalogue: by the published model from soft to hard,
// then our own.
func Sediments() []Sediment {
	return []Sediment{
		Mud, Silt, FineSand, MediumSand, CoarseSand, Gravel, Cobble, Rock, RoughRock,
		ShellBed, Seagrass,
	}
}

// Published reports whether the parameters of the class come from TR 9407
// rather than from our own choice. Levels above 100 kHz are extrapolated for
// every class; see [Extrapolated].
func (s Sediment) Published() bool {
	switch s {
	case Mud, Silt, FineSand, MediumSand, CoarseSand, Gravel, Cobble, Rock, RoughRock:
		return true
	}
	return false
}

// Bottom returns the parameters of the class. The error is for an unknown name.
func (s Sediment) Bottom() (Bottom, error) {
	switch s {
	case Mud:
		return s.byGrainSize(8)
	case Silt:
		return s.byGrainSize(6)
	case FineSand:
		return s.byGrainSize(2.5)
	case MediumSand:
		return s.byGrainSize(1.5)
	case CoarseSand:
		return s.byGrainSize(0.5)
	case Gravel:
		return s.byGrainSize(-1)
	case Cobble:
		// The scan of Table 2 reads 0.0186 or 0.0156; 0.0156 fits Table 3.
		return s.stone(1.8, 0.0156), nil
	case Rock:
		return s.stone(2.5, 0.01862), nil
	case RoughRock:
		return s.stone(2.5, 0.20693), nil
	case ShellBed:
		b, err := s.byGrainSize(0.5)
		b.VolumeParameter = 0.01
		b.SpectralStrength = 0.0156
		return b, err
	case Seagrass:
		b, err := s.byGrainSize(2.5)
		b.VolumeParameter = 0.01
		return b, err
	}
	return Bottom{}, fmt.Errorf("acoustics: unknown sediment %q, want one of %q", string(s), Sediments())
}

func (s Sediment) byGrainSize(phi float64) (Bottom, error) {
	b, err := BottomForGrainSize(phi)
	b.Name = string(s)
	return b, err
}

// stone returns a bottom of TR 9407 Table 2 that has no grain size.
func (s Sediment) stone(soundSpeedRatio, spectralStrength float64) Bottom {
	return Bottom{
		Name:             string(s),
		DensityRatio:     2.5,
		SoundSpeedRatio:  soundSpeedRatio,
		LossParameter:    0.01374,
		VolumeParameter:  0.002,
		SpectralExponent: 3.25,
		SpectralStrength: spectralStrength,
	}
}
