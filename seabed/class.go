package seabed

import (
	"fmt"
	"math"
)

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

// classes holds each class's name in exercise files and, for a sediment, the rms
// height of its roughness over one metre, in metres.
//
// That is the h of APL-UW TR 9407 (1994), section IV, equations 9-10:
// w2 = 0.00207 h^2 with h in cm over 100 cm, from that report's spectral
// strengths (mud Mz 8, silt 6, sands 2.5, 1.5 and 0.5, gravel -1, cobble and
// rock from w2 = 0.0156 and 0.01862). Shell bed and seagrass are our choice; that of
// seagrass is the rms height of its tufts, which stand on fine sand.
var classes = [Classes]struct {
	name string
	rms  float64
}{
	Mud:        {"mud", 0.0050},
	Silt:       {"silt", 0.0050},
	FineSand:   {"fine_sand", 0.0115},
	MediumSand: {"medium_sand", 0.0147},
	CoarseSand: {"coarse_sand", 0.0183},
	Gravel:     {"gravel", 0.0250},
	Cobble:     {"cobble", 0.0275},
	Rock:       {"rock", 0.0300},
	ShellBed:   {"shell_bed", 0.020},
	Seagrass:   {"seagrass", 0.045},

	Steel:      {name: "steel"},
	Timber:     {name: "timber"},
	Concrete:   {name: "concrete"},
	Rubber:     {name: "rubber"},
	Stone:      {name: "stone"},
	Aluminium:  {name: "aluminium"},
	Glassfibre: {name: "glassfibre"},
	Rope:       {name: "rope"},
	Netting:    {name: "netting"},
}

// DrawnSlope is the rms slope that the micro-relief of a sediment draws on the
// ground, in all directions together, radians: that of patches of unit height,
// read along a line in steps of 8 cm, times the height of its roughness.
func (c Class) DrawnSlope() float64 {
	unit := 6.46
	if c == Seagrass {
		unit = 7.06 // of tufts
	}
	return classes[c].rms * unit
}

// Grain is the median diameter of a sediment's grains, metres: of the grain sizes of
// TR 9407's classes, D = 2^-phi mm; 6 cm for cobble, of shell bed that of the sand
// below. 0 where there are none to move.
func (c Class) Grain() float64 {
	switch c {
	case Mud:
		return math.Exp2(-8) / 1000
	case Silt:
		return math.Exp2(-6) / 1000
	case FineSand, Seagrass:
		return math.Exp2(-2.5) / 1000
	case MediumSand:
		return math.Exp2(-1.5) / 1000
	case CoarseSand, ShellBed:
		return math.Exp2(-0.5) / 1000
	case Gravel:
		return 2e-3
	case Cobble:
		return 60e-3
	}
	return 0
}

// ground is the sediment below: that of seagrass is sand.
func (c Class) ground() Class {
	if c == Seagrass {
		return FineSand
	}
	return c
}

// String returns the name used in exercise files.
func (c Class) String() string {
	if int(c) < Classes && classes[c].name != "" {
		return classes[c].name
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
		if classes[c].name == name {
			return c, true
		}
	}
	return 0, false
}

// SedimentNames lists the sediments in order.
func SedimentNames() []string { return names(Mud, sediments) }

// MaterialNames lists the object materials in order.
func MaterialNames() []string { return names(FirstMaterial+1, materialsEnd) }

func names(from, to Class) []string {
	var list []string
	for _, c := range classes[from:to] {
		list = append(list, c.name)
	}
	return list
}
