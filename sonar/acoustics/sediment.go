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

// row is a sediment of the catalogue.
type row struct {
	name       Sediment
	published  bool // its parameters are from TR 9407
	bottom     func() (Bottom, error)
	scatterers float64 // see Scatterers
}

// catalogue is by the published model from soft to hard, then our own.
var catalogue = []row{
	{Mud, true, grains(8), 0},
	{Silt, true, grains(6), 0},
	{FineSand, true, grains(2.5), 0},
	{MediumSand, true, grains(1.5), 0},
	{CoarseSand, true, grains(0.5), 0},
	{Gravel, true, grains(-1), 400},
	{Cobble, true, stone(1.8, 0.0156), 60}, // the scan of Table 2 reads 0.0186 or 0.0156; 0.0156 fits Table 3
	{Rock, true, stone(2.5, 0.01862), 90},
	{RoughRock, true, stone(2.5, 0.20693), 90},

	{ShellBed, false, grains(0.5, func(b *Bottom) { b.VolumeParameter, b.SpectralStrength = 0.01, 0.0156 }), 150},
	{Seagrass, false, grains(2.5, func(b *Bottom) { b.VolumeParameter = 0.01 }), 200},
}

// grains is a bottom of a mean grain size in phi units, with changes of our own.
func grains(phi float64, changes ...func(*Bottom)) func() (Bottom, error) {
	return func() (Bottom, error) {
		b, err := BottomForGrainSize(phi)
		for _, change := range changes {
			change(&b)
		}
		return b, err
	}
}

// stone is a bottom of TR 9407 Table 2 that has no grain size.
func stone(soundSpeedRatio, spectralStrength float64) func() (Bottom, error) {
	return func() (Bottom, error) {
		return Bottom{
			DensityRatio:     2.5,
			SoundSpeedRatio:  soundSpeedRatio,
			LossParameter:    0.01374,
			VolumeParameter:  0.002,
			SpectralExponent: 3.25,
			SpectralStrength: spectralStrength,
		}, nil
	}
}

// row finds the sediment in the catalogue.
func (s Sediment) row() (row, bool) {
	for _, r := range catalogue {
		if r.name == s {
			return r, true
		}
	}
	return row{}, false
}

// Sediments lists the catalogue: by the published model from soft to hard,
// then our own.
func Sediments() []Sediment {
	names := make([]Sediment, len(catalogue))
	for i, r := range catalogue {
		names[i] = r.name
	}
	return names
}

// Published reports whether the parameters of the class come from TR 9407
// rather than from our own choice. Levels above 100 kHz are extrapolated for
// every class; see [Extrapolated].
func (s Sediment) Published() bool {
	r, _ := s.row()
	return r.published
}

// Scatterers is how many strong scatterers a square metre of it holds; 0 for too
// many to count. Our own choice, by the size of the stones and shells: published
// counts for side-scan frequencies were not found.
func (s Sediment) Scatterers() float64 {
	r, _ := s.row()
	return r.scatterers
}

// Bottom returns the parameters of the class. The error is for an unknown name.
func (s Sediment) Bottom() (Bottom, error) {
	r, ok := s.row()
	if !ok {
		return Bottom{}, fmt.Errorf("acoustics: unknown sediment %q, want one of %q", string(s), Sediments())
	}
	b, err := r.bottom()
	b.Name = string(s)
	return b, err
}
