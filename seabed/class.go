package seabed

import "fmt"

// Class says what the surface is made of. Values below [FirstMaterial] are
// sediments; the rest are the materials of objects.
type Class uint8

// Unset is the zero Class: nothing is said. An object that leaves its class
// unset is made of what its kind usually is.
const Unset Class = 0

// The sediments, finest to coarsest, then cover.
const (
	Mud Class = iota + 1
	Silt
	FineSand
	MediumSand
	CoarseSand
	Gravel
	Cobble
	Rock
	ShellBed
	Seagrass
	sediments
)

// The materials of objects.
const (
	FirstMaterial Class = iota + 32
	Steel
	Timber
	Concrete
	Rubber
	Stone
	Aluminium
	Glassfibre
	Rope
	Netting
	materialsEnd
)

// Classes is one more than the largest Class.
const Classes = int(materialsEnd)

var classNames = [Classes]string{
	Mud: "mud", Silt: "silt", FineSand: "fine_sand", MediumSand: "medium_sand",
	CoarseSand: "coarse_sand", Gravel: "gravel", Cobble: "cobble", Rock: "rock",
	ShellBed: "shell_bed", Seagrass: "seagrass",
	Steel: "steel", Timber: "timber", Concrete: "concrete", Rubber: "rubber", Stone: "stone",
	Aluminium: "aluminium", Glassfibre: "glassfibre", Rope: "rope", Netting: "netting",
}

// String returns the name used in exercise files.
func (c Class) String() string {
	if int(c) < Classes && classNames[c] != "" {
		return classNames[c]
	}
	return fmt.Sprintf("class(%d)", uint8(c))
}

// ParseSediment returns the sediment of that name.
func ParseSediment(name string) (Class, bool) { return parseClass(name, Mud, sediments) }

// ParseMaterial returns the object material of that name.
func ParseMaterial(name string) (Class, bool) {
	return parseClass(name, FirstMaterial+1, materialsEnd)
}

func parseClass(name string, from, to Class) (Class, bool) {
	for c := from; c < to; c++ {
		if classNames[c] == name {
			return c, true
		}
	}
	return 0, false
}

// SedimentNames lists the sediments in order.
func SedimentNames() []string { return append([]string(nil), classNames[Mud:sediments]...) }

// MaterialNames lists the object materials in order.
func MaterialNames() []string {
	return append([]string(nil), classNames[FirstMaterial+1:materialsEnd]...)
}

// microRMS is the rms height of the roughness over one metre, in metres.
//
// For sediments it is the h of APL-UW TR 9407 (1994), section IV, equations
// 9-10: w2 = 0.00207 h^2 with h in cm over 100 cm, from that report's spectral
// strengths (mud Mz 8, silt 6, sands 2.5, 1.5 and 0.5, gravel -1, cobble and
// rock from w2 = 0.0156 and 0.01862). Shell bed and seagrass are our choice.
var microRMS = [Classes]float64{
	Mud: 0.0050, Silt: 0.0050, FineSand: 0.0115, MediumSand: 0.0147, CoarseSand: 0.0183,
	Gravel: 0.0250, Cobble: 0.0275, Rock: 0.0300, ShellBed: 0.020, Seagrass: 0.045,
}
