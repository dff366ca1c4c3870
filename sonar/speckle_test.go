package sonar

import (
	"math"
	"testing"

	"dryline/seabed"
	"dryline/sonar/acoustics"
)

// intensities renders pings of one class of flat floor at independent places
// and returns the intensity of one channel at a slant range, over its mean.
func intensities(t *testing.T, e *Engine, class seabed.Class, channel int, slant float64, pings int, step float64) [][]float64 {
	t.Helper()
	quiet := newEngine(t, e.spec)
	quiet.SpeckleOff, quiet.NoiseOff = true, true
	e.NoiseOff = true
	floor := plane{z: -10, class: class}
	mean := ping(quiet, floor, 7).Samples[channel]
	ws, echo := e.NewWorkspace(), e.NewEcho()
	k0 := int(slant / e.Bin())
	out := make([][]float64, pings)
	for i := range out {
		e.Ping(ws, &echo, floor, Pose{Z: -3, Run: step * float64(i)}, Starboard, uint64(i))
		for k := k0; k < k0+64; k++ {
			a := float64(echo.Samples[channel][k]) / float64(mean[k])
			out[i] = append(out[i], a*a)
		}
	}
	return out
}

// K-distributed intensity of shape alpha has a variance of 1 + 2/alpha over its
// squared mean (Abraham and Lyons 2002; exact for a gamma mean), alpha the
// number of scatterers in a cell. Sand, with too many to count, is exponential:
// variance 1.
func TestKShapeOnRenderedPings(t *testing.T) {
	spec := twoChannels()
	for i := range spec.Channels {
		spec.Channels[i].Gain = -10 // head room for the tail
	}
	e := newEngine(t, spec)
	const slant = 30.0
	for _, test := range []struct {
		class   seabed.Class
		channel int
	}{{seabed.Cobble, 0}, {seabed.Cobble, 1}, {seabed.Gravel, 0}, {seabed.MediumSand, 0}} {
		n, sum, sum2 := 0.0, 0.0, 0.0
		for _, row := range intensities(t, e, test.class, test.channel, slant, 3000, 1) {
			for k := 0; k < len(row); k += 4 {
				v := row[k]
				n, sum, sum2 = n+1, sum+v, sum2+v*v
			}
		}
		m := sum / n
		got := sum2/n/(m*m) - 1
		want := 1.0
		if density := scatterers[test.class]; density > 0 {
			alpha := float64(density) * float64(e.channels[test.channel].cell[int((slant+0.8)/e.Bin())])
			want = 1 + 2/max(alpha, 0.25) // the table goes no lower
		}
		if math.Abs(got-want) > 0.12*want {
			t.Errorf("%v, channel %d: variance of the intensity %.3f, want %.3f", test.class, test.channel, got, want)
		}
	}
}

// Bins that share a pulse share speckle: the covariance of the intensity falls
// with distance in range as the square of the pulse's own correlation (exact
// for circular Gaussian fields, Goodman 2007).
func TestSpeckleIsAsLongAsThePulse(t *testing.T) {
	spec := twoChannels()
	spec.Samples = 4000 // fine enough to resolve the pulse
	e := newEngine(t, spec)
	rows := intensities(t, e, seabed.MediumSand, 0, 30, 3000, 1)
	c := acoustics.Mackenzie(11, 34, 10)
	shape := pulseShape(acoustics.Pulse{Duration: 1e-3, Bandwidth: 20e3, Shading: acoustics.HammingShading()}, c, e.Bin())
	for _, lag := range []int{1, 2, 4, 12} {
		same, other := 0.0, 0.0
		for i, a := range shape {
			same += a * a
			if i+lag < len(shape) {
				other += a * shape[i+lag]
			}
		}
		want := (other / same) * (other / same)
		sum, n := 0.0, 0.0
		for _, row := range rows {
			for k := 0; k+lag < len(row); k++ {
				sum, n = sum+(row[k]-1)*(row[k+lag]-1), n+1
			}
		}
		if got := sum / n; math.Abs(got-want) > 0.03 {
			t.Errorf("%d bins apart: correlation %.3f, want %.3f", lag, got, want)
		}
	}
}

// Pings close together see the same speckle; after half the array's length it
// is new.
func TestSpeckleChangesOverHalfAnArray(t *testing.T) {
	spec := twoChannels()
	e := newEngine(t, spec)
	length := spec.Channels[0].ArrayLength
	for _, test := range []struct{ step, min, max float64 }{
		{length / 40, 0.9, 1.02}, {length / 2, -0.05, 0.3}, {length, -0.05, 0.05},
	} {
		rows := intensities(t, e, seabed.MediumSand, 0, 30, 1200, test.step)
		sum, n := 0.0, 0.0
		for i := 1; i < len(rows); i++ {
			for k := 0; k < len(rows[i]); k += 4 {
				sum, n = sum+(rows[i][k]-1)*(rows[i-1][k]-1), n+1
			}
		}
		if got := sum / n; got < test.min || got > test.max {
			t.Errorf("pings %.3f m apart: correlation %.3f, want %.2f to %.2f", test.step, got, test.min, test.max)
		}
	}
}

// A chirp compressed without shading is sin(x)/x in its field, whose own
// correlation is sin(x)/x again: samples a lag apart share that squared, with
// x = 2 pi B lag/c (exact mathematics). The size of the field alone would give
// 0.48 at a lag of 25 mm, where it is 0.17.
func TestUniformChirpsSpeckle(t *testing.T) {
	spec := twoChannels()
	spec.Channels = spec.Channels[:1]
	spec.Channels[0].PulseShading = "uniform"
	e := newEngine(t, spec)
	rows := intensities(t, e, seabed.MediumSand, 0, 30, 6000, 1)
	for lag := 1; lag <= 4; lag++ {
		x := 2 * math.Pi * 20e3 * float64(lag) * e.Bin() / e.SoundSpeed()
		want := math.Pow(math.Sin(x)/x, 2)
		sum, n := 0.0, 0.0
		for _, row := range rows {
			for k := 0; k+lag < len(row); k++ {
				sum, n = sum+(row[k]-1)*(row[k+lag]-1), n+1
			}
		}
		if got := sum / n; math.Abs(got-want) > 0.03 {
			t.Errorf("%d bins apart: correlation %.3f, want %.3f", lag, got, want)
		}
	}
}
