package nav

import (
	"math"
	"testing"
)

// answers reads a still fish n times and returns how far off the beacon has
// it at every answer.
func answers(s Spec, at Truth, n int) (e [][3]float64) {
	inst := New(s, 11)
	for i := range n {
		r := inst.Read(float64(i), 1, at)
		if !r.Beacon.OK {
			continue
		}
		d := [3]float64{r.Beacon.X - at.FishX, r.Beacon.Y - at.FishY, r.Beacon.Depth - at.FishDepth}
		e = append(e, d)
	}
	return e
}

// far is a fish 100 m from a transducer at the vessel's origin.
func far() Truth {
	return Truth{
		VesselX: 500, VesselY: 700, AntennaX: 500, AntennaY: 702, Heading: 40 * degree, Convergence: 0.02,
		FishX: 500 - 80*math.Sin(40*degree), FishY: 700 - 80*math.Cos(40*degree), FishDepth: 60,
	}
}

// Each axis has the share of the slant range given, and no bias.
func TestBeaconShare(t *testing.T) {
	const share, slant, n = 0.005, 100.0, 40000
	e := answers(Spec{Beacon: BeaconSpec{Fitted: true, Share: share}}, far(), n)
	for axis, name := range []string{"x", "y", "depth"} {
		sum, square := 0.0, 0.0
		for _, d := range e {
			sum, square = sum+d[axis], square+d[axis]*d[axis]
		}
		mean, sigma := sum/n, math.Sqrt(square/n)
		if want := share * slant; math.Abs(sigma-want) > 0.02*want || math.Abs(mean) > 4*want/math.Sqrt(n) {
			t.Errorf("%s: got %.4f +- %.4f m, want 0 +- %.4f", name, mean, sigma, want)
		}
	}
}

// A misalignment of 1 degree is 1.75 m at 100 m (NOAA Field Procedures Manual,
// 1.5.7.1.1.2): a heading bias throws the beacon that much aside, and turns the
// antenna's offset too.
func TestBeaconHeadingBias(t *testing.T) {
	at := far()
	at.FishX, at.FishY, at.FishDepth = at.VesselX-100*math.Sin(at.Heading), at.VesselY-100*math.Cos(at.Heading), 0
	at.AntennaX, at.AntennaY = at.VesselX, at.VesselY
	e := answers(Spec{Heading: HeadingSpec{Errors: Errors{Bias: degree}}, Beacon: BeaconSpec{Fitted: true}}, at, 1)
	sin, cos := math.Sincos(at.Heading)
	aside, along := e[0][0]*cos-e[0][1]*sin, e[0][0]*sin+e[0][1]*cos
	if math.Abs(aside+1.75) > 0.01 || math.Abs(along) > 0.02 {
		t.Errorf("got %.3f m aside and %.3f along, want -1.75 and nearly 0", aside, along)
	}
}

// Answers fail to come and go astray as often as given (binomial, 4 sigma).
func TestBeaconOutliersAndDropOuts(t *testing.T) {
	const outliers, drops, size, n = 0.1, 0.2, 0.3, 20000
	e := answers(Spec{Beacon: BeaconSpec{Fitted: true, Outliers: outliers, OutlierSize: size, DropOuts: drops}}, far(), n)
	astray, cast := 0, 0.0
	for _, d := range e {
		if off := math.Hypot(d[0], d[1]); off > 1e-6 {
			astray++
			cast += off
		}
	}
	four := func(p float64, n int) float64 { return 4 * math.Sqrt(p*(1-p)/float64(n)) }
	if got := 1 - float64(len(e))/n; math.Abs(got-drops) > four(drops, n) {
		t.Errorf("got %.4f unanswered, want %.4f", got, drops)
	}
	if got := float64(astray) / float64(len(e)); math.Abs(got-outliers) > four(outliers, len(e)) {
		t.Errorf("got %.4f astray, want %.4f", got, outliers)
	}
	if got := cast / float64(astray); math.Abs(got-size*100) > 1 {
		t.Errorf("astray by %.2f m on average, want %.2f", got, size*100)
	}
}

// A beacon has no place on the grid without a fix, and a fish without one has
// none at all.
func TestBeaconNeedsAFix(t *testing.T) {
	inst := New(Spec{GNSS: GNSSSpec{Timing: Timing{Outages: []Window{{2, 9}}}}, Beacon: BeaconSpec{Fitted: true}}, 1)
	for i := range 5 {
		r := inst.Read(float64(i), 1, far())
		if want := i < 2; r.Beacon.OK != want || r.Valid.Has(Beacon) != want {
			t.Errorf("%d s: got an answer %v, want %v", i, r.Beacon.OK, want)
		}
	}
	if r := New(Spec{}, 1).Read(0, 1, far()); r.Beacon != (BeaconReading{}) || (r.Valid | r.Fresh).Has(Beacon) {
		t.Errorf("got %+v without a beacon", r.Beacon)
	}
}
