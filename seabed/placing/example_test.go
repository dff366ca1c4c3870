package placing_test

import (
	"fmt"

	"dryline/seabed"
	"dryline/seabed/placing"
)

// Three to five boulders of any size from half to twice the usual, half buried at
// most, somewhere on mud and ten metres apart.
func ExampleResolve() {
	spec := seabed.Spec{East: 500, North: 400, Depth: 15, Base: seabed.Mud, Relief: seabed.Relief{Wavelength: 100}}
	boulders := placing.Group{
		Name: "boulder", Fewest: 3, Most: 5,
		Kinds:  []placing.Choice{{Kind: "boulder", Weight: 1}},
		Size:   placing.Distribution{Law: placing.LogUniform, Low: 0.5, High: 2},
		Burial: placing.Distribution{Low: 0, High: 0.5}, Spacing: 10, Sediments: []seabed.Class{seabed.Mud},
	}
	spec, err := placing.Resolve(spec, []placing.Group{boulders}, 7, 7)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, o := range spec.Objects {
		fmt.Printf("%s %.1f m long at %.0f, %.0f\n", o.Name, o.Length, o.At.X, o.At.Y)
	}
	// Output:
	// boulder-1 1.4 m long at 27, 77
	// boulder-2 1.3 m long at 95, 390
	// boulder-3 3.1 m long at 302, 176
	// boulder-4 2.6 m long at 462, 119
	// boulder-5 1.0 m long at 50, 354
}
