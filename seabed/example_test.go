package seabed_test

import (
	"fmt"

	"dryline/seabed"
)

// A floor of mud with a container on it, asked at a point and read along a ray as
// the sonar reads it.
func Example() {
	world := seabed.New(seabed.Spec{
		East: 200, North: 200, Depth: 18, Base: seabed.Mud,
		Objects: []seabed.Object{{Name: "box", Kind: "container", At: seabed.Point{X: 120, Y: 100}}},
	}, 7)
	z, class, object := world.SurfaceAt(120, 100)
	fmt.Printf("at its middle: %.0f m, %v, the %s\n", z, class, world.Spec().Objects[object].Name)

	ray := seabed.Profile{Fine: 0.02}
	for g := 0.0; g < 40; g += 0.08 {
		ray.Steps = append(ray.Steps, g)
	}
	world.Trace(&ray, 100, 100, 1, 0) // from (100, 100) to the east
	for i := range ray.G {
		if ray.Object[i] > 0 {
			fmt.Printf("the ray comes to it at %.0f m\n", ray.G[i])
			break
		}
	}
	// Output:
	// at its middle: -15 m, steel, the box
	// the ray comes to it at 19 m
}
