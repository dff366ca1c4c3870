package sonar

import (
	"math"
	"testing"

	"dryline/seabed"
	"dryline/sonar/acoustics"
)

// The level of a uniform flat floor is the sonar equation's,
//
//	RL = SL - 40 log R - 2 alpha R + Sb + 10 log(R Theta delta/cos gamma)
//
// (Urick, Principles of Underwater Sound, 1983, chapter 8) with the vertical
// pattern both ways. Every term is evaluated here by package acoustics, whose
// own tests hold it to published tables; the samples come from the walk.
func TestUniformFloorFollowsTheSonarEquation(t *testing.T) {
	spec := twoChannels()
	e := newEngine(t, spec)
	e.SpeckleOff, e.NoiseOff = true, true
	const altitude = 7.0
	echo := ping(e, plane{z: -10, class: seabed.MediumSand}, altitude)
	bottom, err := acoustics.Sediment("medium_sand").Bottom()
	if err != nil {
		t.Fatal(err)
	}
	c := acoustics.Mackenzie(11, 34, 10)
	for k, channel := range spec.Channels {
		wavelength := c / channel.Frequency
		array := acoustics.LineArray{Length: channel.ArrayLength}
		pulse := acoustics.Pulse{Duration: channel.PulseLength, Bandwidth: channel.Bandwidth, Shading: acoustics.HammingShading()}
		vertical := acoustics.VerticalBeam{
			Array:      acoustics.LineArrayForWidth(spec.VerticalBeam, wavelength, acoustics.Shading{}),
			Depression: spec.Depression, BackLobe: backLobe, Fill: nullFill,
		}
		alpha := acoustics.FrancoisGarrison(channel.Frequency, 11, 34, 10, 8)
		for gamma := 10.0; gamma <= 70; gamma += 2.5 {
			bin := int(altitude / math.Sin(gamma*deg) / e.Bin())
			r := (float64(bin) + 0.5) * e.Bin()
			g := math.Asin(altitude / r)
			level := acoustics.ReverberationLevel(channel.SourceLevel, bottom.Strength(g, channel.Frequency, c), r, alpha,
				acoustics.ReverberationArea(r, array.EquivalentWidth(wavelength), pulse.Resolution(c), g))
			level += acoustics.Decibels(vertical.TwoWay(g, wavelength))
			// Back from counts: take off the recorder's gain, which is set, not physics.
			sum := 0.0
			for i := bin - 2; i <= bin+2; i++ {
				v := float64(echo.Samples[k][i]) / float64(e.channels[k].gain[i])
				sum += v * v
			}
			got := acoustics.Decibels(sum / 5)
			if d := got - level; math.Abs(d) > 0.2 {
				t.Errorf("%s kHz at %.1f deg: rendered %.2f dB, sonar equation %.2f dB", channel.Name, gamma, got, level)
			}
		}
	}
}

// Where nothing echoes the record holds the noise of the sonar equation,
//
//	NL = spectrum level + 10 log B - DI - 10 log(B tau)
//
// the last term for a compressed chirp only (Urick 1983, chapters 2 and 7),
// with the thermal level of Mellen (1952); in a calm as well as in a wind.
func TestNoiseFloor(t *testing.T) {
	for _, test := range []struct {
		name      string
		bandwidth float64
		wind      float64
	}{{"chirp in a wind", 20e3, 8}, {"chirp in a calm", 20e3, 0}, {"tone in a calm", 0, 0}} {
		spec := twoChannels()
		spec.Channels = spec.Channels[:1]
		spec.Channels[0].Bandwidth, spec.Channels[0].Gain, spec.Channels[0].PulseShading = test.bandwidth, 60, ""
		if test.bandwidth == 0 {
			spec.Channels[0].PulseLength = 100e-6
		}
		sea := temperate()
		sea.Wind = test.wind
		c := acoustics.Mackenzie(11, 34, 10)
		e, err := NewEngine(spec, sea, c, 1)
		if err != nil {
			t.Fatal(err)
		}
		e.SpeckleOff = true
		row := ping(e, plane{z: -100, class: seabed.Mud}, 90).Samples[0] // the floor is beyond the record
		v := float64(row[200]) / float64(e.channels[0].gain[200])
		got := acoustics.Decibels(v * v)

		channel := spec.Channels[0]
		wavelength := c / channel.Frequency
		thermal := acoustics.ThermalNoise(channel.Frequency, 11, density, c)
		spectrum := acoustics.AddLevels(thermal, acoustics.WindNoise(channel.Frequency, test.wind), thermal+channel.NoiseFigure)
		band, gain := 1/channel.PulseLength, 0.0
		if test.bandwidth > 0 {
			band, gain = test.bandwidth, 10*math.Log10(test.bandwidth*channel.PulseLength)
		}
		height := acoustics.LineArrayForWidth(spec.VerticalBeam, wavelength, acoustics.Shading{}).Length
		want := spectrum + 10*math.Log10(band) - acoustics.PistonDirectivityIndex(channel.ArrayLength, height, wavelength) - gain
		if math.Abs(got-want) > 0.1 {
			t.Errorf("%s: rendered %.2f dB, noise equation %.2f dB", test.name, got, want)
		}
	}
}

// Speckle of a uniform floor: exponential intensity, so the amplitude's
// standard deviation over its mean is sqrt(4/pi - 1) = 0.522723 and the
// intensity exceeds x times its mean with probability exp(-x) (Goodman,
// Speckle Phenomena in Optics, 2007; exact for Rayleigh amplitude).
func TestSpeckleStatistics(t *testing.T) {
	e := newEngine(t, twoChannels())
	quiet := newEngine(t, twoChannels())
	quiet.SpeckleOff = true
	floor := plane{z: -10, class: seabed.MediumSand}
	mean := ping(quiet, floor, 7).Samples[0]
	ws, echo := e.NewWorkspace(), e.NewEcho()
	n, sum, sum2, over3, over1 := 0.0, 0.0, 0.0, 0.0, 0.0
	for number := range uint64(1200) {
		e.Ping(ws, &echo, floor, Pose{Z: -3, Run: float64(number)}, Port, number)
		for k := 600; k < 1800; k++ {
			a := float64(echo.Samples[0][k]) / float64(mean[k])
			n, sum, sum2 = n+1, sum+a, sum2+a*a
			if a*a > 3 {
				over3++
			}
			if a*a > 1 {
				over1++
			}
		}
	}
	m := sum / n
	if got := math.Sqrt(sum2/n-m*m) / m; math.Abs(got-0.522723) > 0.003 {
		t.Errorf("amplitude contrast: got %.4f, want 0.5227", got)
	}
	if got := sum2 / n; math.Abs(got-1) > 0.01 {
		t.Errorf("mean intensity over the noise-free one: got %.4f, want 1", got)
	}
	for _, tail := range []struct{ x, count float64 }{{1, over1}, {3, over3}} {
		if got, want := tail.count/n, math.Exp(-tail.x); math.Abs(got-want) > 0.02*want {
			t.Errorf("P(I > %g mean): got %.5f, want %.5f", tail.x, got, want)
		}
	}
}

// An object 10 dB stronger answers 10 dB stronger, and nothing else does.
func TestObjectStrength(t *testing.T) {
	e := newEngine(t, sharp())
	e.SpeckleOff, e.NoiseOff = true, true
	floor := plane{z: -10, class: seabed.MediumSand, from: 30, to: 30.6, height: 1}
	usual := ping(e, floor, 7).Samples[0]
	e.Strengthen([]float64{-10})
	weaker := ping(e, floor, 7).Samples[0]
	k := int(math.Hypot(30.3, 6)/e.Bin()) - 2 // on the block's top
	if got := 20 * math.Log10(float64(usual[k])/float64(weaker[k])); math.Abs(got-10) > 0.2 {
		t.Errorf("on the block: %.2f dB weaker, want 10", got)
	}
	if k := int(20 / e.Bin()); usual[k] != weaker[k] {
		t.Errorf("on the floor: %d counts, before %d", weaker[k], usual[k])
	}
}

// Order of the sediments at equal grazing angle: mud < sand < gravel < rock
// (APL-UW TR 9407, tables 2 and 3).
func TestSedimentOrder(t *testing.T) {
	e := newEngine(t, twoChannels())
	e.SpeckleOff, e.NoiseOff = true, true
	for channel := range 2 {
		last := 0.0
		for _, class := range []seabed.Class{seabed.Mud, seabed.MediumSand, seabed.Gravel, seabed.Rock} {
			row := ping(e, plane{z: -10, class: class}, 7).Samples[channel]
			level := float64(row[int(7/math.Sin(20*deg)/e.Bin())])
			if level <= last {
				t.Errorf("channel %d: %v gives %.0f counts, not above the finer sediment's %.0f", channel, class, level, last)
			}
			last = level
		}
	}
}
