package sonar

import (
	"math"
	"testing"

	"dryline/seabed"
	"dryline/sonar/acoustics"
)

// A fish in the wake hears the floor through it: weaker by the straight way to
// the wake's side or its bottom, there and back (Beer's law, exact geometry), and
// the wake itself as a fuzzy echo before the floor; both fade with its age.
func TestFishInItsWake(t *testing.T) {
	const altitude, depth = 8.0, 1.0
	wake := Wake{Attenuation: 0.8, HalfLife: 60, Width: 6, Depth: 2.5}
	floor, pose := plane{z: -altitude - depth, class: seabed.MediumSand}, Pose{Z: -depth}
	clean := heard(spoilt(t, tone(), 0, Effects{}), floor, pose, Port)
	e := spoilt(t, tone(), 0, Effects{Wake: wake})
	if row := heard(e, floor, pose, Port); row[400] != clean[400] || row[40] != clean[40] {
		t.Error("no crossing, and yet a wake")
	}
	echo := math.Inf(1)
	for _, age := range []float64{0, 60, 180} {
		pose.Wake[Port][0] = Crossing{Age: age, Slant: 1, Strength: 1}
		row, alone := heard(e, floor, pose, Port), heard(e, bottomless, pose, Port)
		thick := 0.8 * math.Exp2(-age/60) * patch(0)
		for _, gamma := range []float64{12, 25, 50} {
			k := int(altitude / math.Sin(gamma*deg) / e.bin)
			way := min((2.5-depth)/math.Sin(gamma*deg), 3/math.Cos(gamma*deg))
			got := acoustics.Decibels((row[k] - alone[k]) / clean[k])
			if want := -2 * thick * way; math.Abs(got-want) > 0.05*math.Abs(want)+0.02 {
				t.Errorf("age %g s, %g deg: %.2f dB, want %.2f", age, gamma, got, want)
			}
		}
		sum := 0.0
		for k := range int(2.8 / e.bin) {
			sum += alone[k]
		}
		if sum <= 0 || sum >= echo {
			t.Errorf("age %g s: the wake's echo is %.3g, was %.3g when fresher", age, sum, echo)
		}
		echo = sum
		if far := alone[int(6/e.bin)]; far != 0 {
			t.Errorf("age %g s: the wake answers from 6 m, beyond its edge", age)
		}
	}
}

// An old wake to the side answers from where it is and, above the rays to the
// floor, hides nothing.
func TestWakeCrossed(t *testing.T) {
	e := spoilt(t, tone(), 0, Effects{Wake: Wake{Attenuation: 1, HalfLife: 60, Width: 4, Spread: 0.05, Depth: 2}})
	pose := Pose{Z: -6}
	pose.Wake[Starboard][0] = Crossing{Range: 22, Age: 60, Slant: 1.5, Strength: 1}
	floor := plane{z: -14, class: seabed.MediumSand}
	clean := heard(spoilt(t, tone(), 0, Effects{}), floor, pose, Starboard)
	row, alone := heard(e, floor, pose, Starboard), heard(e, bottomless, pose, Starboard)
	half := (4 + 0.05*60) / 2 * 1.5
	from, to := math.Hypot(22-half, 4), math.Hypot(22+half, 6)
	if got := begins(e, alone); math.Abs(got-from) > 0.5 {
		t.Errorf("wake begins at %.2f m, want %.2f", got, from)
	}
	for k := range row {
		r := float64(k) * e.bin
		if r > to+0.3 && alone[k] != 0 {
			t.Fatalf("the wake answers at %.2f m, beyond %.2f", r, to)
		}
		if math.Abs(row[k]-alone[k]-clean[k]) > 1e-4*row[k] {
			t.Fatalf("floor at %.2f m changes under a wake above it", r)
		}
	}
	if other := heard(e, bottomless, pose, Port); !math.IsInf(begins(e, other), 1) {
		t.Error("a wake to starboard is heard to port")
	}
}
