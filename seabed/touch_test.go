package seabed

import "testing"

// A container on a flat floor and a mooring whose line stands clear of it.
func TestTouch(t *testing.T) {
	w := New(Spec{
		Featureless: true, East: 200, North: 200, Depth: 20,
		Objects: []Object{
			{Name: "box", Kind: "container", At: Point{50, 50}},
			{Name: "buoy line", Kind: "mooring", At: Point{120, 120}},
		},
	}, 1)
	floor := w.floor(20, 20)
	line := w.rods[0]
	middle := line.a.towards(line.b, 0.5)
	const r = 0.15
	for _, test := range []struct {
		name    string
		x, y, z float64
		object  uint16
		touched bool
	}{
		{"open water", 20, 20, floor + 5, 0, false},
		{"just clear of the floor", 20, 20, floor + 0.2, 0, false},
		{"on the floor", 20, 20, floor + 0.1, 0, true},
		{"over the box", 50, 50, w.HeightAt(50, 50) + 0.5, 0, false},
		{"on the box", 50, 50, w.HeightAt(50, 50) + 0.1, 1, true},
		{"inside the box", 50, 50, w.HeightAt(50, 50) - 1, 1, true},
		{"against a rod", middle.x + line.radius + 0.1, middle.y, middle.z, line.object, true},
		{"past a rod", middle.x + line.radius + 1, middle.y, middle.z, 0, false},
	} {
		if object, touched := w.Touch(test.x, test.y, test.z, r); object != test.object || touched != test.touched {
			t.Errorf("%s: got %d, %t, want %d, %t", test.name, object, touched, test.object, test.touched)
		}
	}
}
