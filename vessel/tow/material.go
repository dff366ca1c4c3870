package tow

import "math"

const gravity = 9.81 // m/s^2

// material holds the figures of a gear that the equations of motion need.
type material struct {
	mass      float64 // of the cable, kg/m
	displaced float64 // water the cable displaces, kg/m
	normal    float64 // 1/2 rho Cn d, kg/m^2
	along     float64 // 1/2 rho pi d Ct, kg/m^2
	stiffness float64 // EA, N

	fishMass      float64 // kg
	fishDisplaced float64 // kg
	fishDrag      float64 // 1/2 rho CdA, kg/m
	fishWeight    float64 // in water, N
	fishLift      float64 // of the depressor, downward, 1/2 rho CL A, kg/m
}

// material works out masses from weights: a cable weighs in air what it weighs
// in water and the water it displaces, so diameter and wet weight give its
// mass. A fish cannot weigh more in water than out of it; a mass smaller than
// that is raised.
//
// The stiffness is EA = 1.5e10 N/m^2 times d^2, between what the sample
// problems of WHOI Cable (Gobat and Grosenbaugh) publish for a tow cable of
// 13.1 mm (1.5e6 N, 0.9e10) and of 17.3 mm (1.27e7 N, 4.2e10). It stretches an
// inshore cable by less than a thousandth.
func (s *Spec) material() material {
	d := s.Cable.Diameter
	displaced := waterDensity * math.Pi / 4 * d * d
	fish := max(s.Fish.Mass, s.Fish.Weight/gravity)
	return material{
		mass:      s.Cable.Weight/gravity + displaced,
		displaced: displaced,
		normal:    0.5 * waterDensity * s.Cable.Normal * d,
		along:     0.5 * waterDensity * math.Pi * d * s.Cable.Tangential,
		stiffness: 1.5e10 * d * d,

		fishMass:      fish,
		fishDisplaced: fish - s.Fish.Weight/gravity,
		fishDrag:      0.5 * waterDensity * s.Fish.DragArea,
		fishWeight:    s.Fish.Weight,
		fishLift:      0.5 * waterDensity * s.Fish.Depressor,
	}
}
