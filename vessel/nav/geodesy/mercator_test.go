package geodesy

import (
	"math"
	"testing"
)

// The general projection is checked against published worked figures on other
// ellipsoids and origins, which UTM alone would not exercise.
func TestTransverseMercatorPublished(t *testing.T) {
	airy := ellipsoid{a: 6377563.396, invF: 299.32496}
	grs80 := ellipsoid{a: 6378137, invF: 298.257222101}
	const rad = math.Pi / 180
	nationalGrid := newTransverseMercator(airy, 0.9996012717, 49*rad, -2*rad, 400000, -100000)
	utm32 := newTransverseMercator(grs80, 0.9996, 0, 9*rad, 500000, 0)
	for _, test := range []struct {
		name        string
		tm          transverseMercator
		ll          LatLon
		east, north float64
		tolerance   float64
	}{
		// IOGP Publication 373-7-2, Guidance Note 7 part 2 (2019), pp. 54-55.
		// Its figures are of an older formula, good to 2 cm.
		{"EPSG guidance note 7-2", nationalGrid, Degrees(50.5, 0.5), 577274.99, 69740.50, 0.02},
		// The same point by PROJ 9.1.1.
		{"EPSG point by PROJ", nationalGrid, Degrees(50.5, 0.5), 577274.9838, 69740.4923, 1e-3},
		// Ordnance Survey, A guide to coordinate systems in Great Britain,
		// annexe C worked example.
		{"OS guide", nationalGrid, Degrees(52+39./60+27.2531/3600, 1+43./60+4.5177/3600), 651409.903, 313177.270, 1e-3},
		// PROJ documentation of the gie tool, zone 32 on GRS80.
		{"PROJ gie example", utm32, Degrees(55, 12), 691875.63214, 6098907.82501, 1e-5},
	} {
		e, n := test.tm.forward(test.ll)
		if math.Abs(e-test.east) > test.tolerance || math.Abs(n-test.north) > test.tolerance {
			t.Errorf("%s: got %.5f, %.5f, want %.5f, %.5f", test.name, e, n, test.east, test.north)
		}
	}
}

// Convergence and scale are the derivative of the mapping, so a small step
// north must turn and stretch by just those. This form shares no code with
// the closed expressions.
func TestLocalIsDerivative(t *testing.T) {
	tm := newTransverseMercator(wgs84, 0.9996, 0, 0, 0, 0)
	for _, ll := range []LatLon{Degrees(50, 3), Degrees(-20, 11), Degrees(80, -6), Degrees(0, -2), Degrees(5, 0)} {
		const h = 1e-5 // radians, about 64 m either way
		e1, n1 := tm.forward(LatLon{Lat: ll.Lat - h, Lon: ll.Lon})
		e2, n2 := tm.forward(LatLon{Lat: ll.Lat + h, Lon: ll.Lon})
		es := tm.e * math.Sin(ll.Lat)
		meridianRadius := wgs84.a * (1 - tm.e*tm.e) / math.Pow(1-es*es, 1.5)
		wantK := math.Hypot(e2-e1, n2-n1) / (2 * h * meridianRadius)
		wantGamma := -math.Atan2(e2-e1, n2-n1) // true north lies at -γ on the grid
		gamma, k := tm.local(ll)
		if math.Abs(gamma-wantGamma) > 1e-9 || math.Abs(k-wantK) > 1e-9 {
			t.Errorf("%v: got γ %.12f k %.12f, want %.12f %.12f", ll, gamma, k, wantGamma, wantK)
		}
	}
}
