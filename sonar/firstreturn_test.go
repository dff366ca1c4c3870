package sonar

import (
	"math"
	"testing"

	"dryline/seabed"
	"dryline/sonar/acoustics"
)

// heardEverywhere is an engine whose own pulse and whose water are heard.
func heardEverywhere(t *testing.T, depth float64) *Engine {
	t.Helper()
	spec := twoChannels()
	for i := range spec.Channels {
		spec.Channels[i].RingDown = 0.5e-3
	}
	spec.Channels[0].Focus = 0
	sea := temperate()
	sea.Scattering = -65
	e, err := NewEngine(spec, sea, acoustics.Mackenzie(11, 34, depth), 1)
	if err != nil {
		t.Fatal(err)
	}
	return e
}

// The first return stands out of the record: on sand within 6 dB of the swath at
// 45 degrees, as recorded, and the first metre of gravel brighter than that of
// sand (common practice, no source).
func TestFirstReturnIsBright(t *testing.T) {
	e := heardEverywhere(t, 10)
	e.SpeckleOff = true
	const altitude = 7.0
	metre := map[seabed.Class][2]float64{}
	for _, class := range []seabed.Class{seabed.FineSand, seabed.MediumSand, seabed.Gravel} {
		echo := ping(e, plane{z: -10, class: class}, altitude)
		var sums [2]float64
		for c := range e.channels {
			row := echo.Samples[c]
			first := int(altitude / e.Bin())
			peak := 0.0
			for k := first - 2; k < first+int(1/e.Bin()); k++ {
				if k < first+int(0.4/e.Bin()) {
					peak = max(peak, float64(row[k]))
				}
				sums[c] += float64(row[k]) * float64(row[k])
			}
			swath := float64(row[int(altitude/math.Sin(45*deg)/e.Bin())])
			if got := 20 * math.Log10(peak/swath); class != seabed.Gravel && math.Abs(got) > 6 {
				t.Errorf("%v, channel %d: first return %.1f dB over the swath at 45 degrees, want within 6", class, c, got)
			}
		}
		metre[class] = sums
	}
	for c := range e.channels {
		if gravel, sand := metre[seabed.Gravel][c], metre[seabed.MediumSand][c]; gravel < sand {
			t.Errorf("channel %d: the first metre of gravel is %.1f dB over that of sand, want brighter", c, 10*math.Log10(gravel/sand))
		}
	}
}

// The record begins with the pulse, full scale while it is out and gone within a
// metre more; then there is water, never quite silent, with the level of volume
// reverberation (Urick 1983, chapter 8, with each term from package acoustics).
func TestRecordBeforeTheFirstReturn(t *testing.T) {
	e := heardEverywhere(t, 10)
	e.SpeckleOff = true
	const depth = 10.0
	echo := e.NewEcho()
	e.Ping(e.NewWorkspace(), &echo, bottomless, Pose{Z: -depth}, Starboard, 0)
	for c, channel := range e.spec.Channels {
		row := echo.Samples[c]
		pulse := e.SoundSpeed() / 2 * channel.PulseLength
		if k := int(pulse/e.Bin()) - 1; row[k] != math.MaxUint16 || row[0] < 5000 {
			t.Errorf("channel %d: pulse of %d and %d counts at its ends, want bright and full scale", c, row[0], row[k])
		}
		k := int((pulse + 1) / e.Bin())
		if row[k] > 60 {
			t.Errorf("channel %d: %d counts a metre after the pulse", c, row[k])
		}
		for ; k < int(20/e.Bin()); k++ {
			if row[k] == 0 {
				t.Fatalf("channel %d: dead black at %.2f m", c, float64(k)*e.Bin())
			}
		}
		wavelength := e.SoundSpeed() / channel.Frequency
		array := acoustics.LineArray{Length: channel.ArrayLength}
		p := acoustics.Pulse{Duration: channel.PulseLength, Bandwidth: channel.Bandwidth, Shading: acoustics.HammingShading()}
		vertical := acoustics.VerticalBeam{
			Array:      acoustics.LineArrayForWidth(e.spec.VerticalBeam, wavelength, acoustics.Shading{}),
			Depression: e.spec.Depression, BackLobe: backLobe, Fill: nullFill,
		}
		alpha := acoustics.FrancoisGarrison(channel.Frequency, 11, 34, 10, 8)
		for _, r := range []float64{8, 20} {
			k := int(r / e.Bin())
			r = (float64(k) + 0.5) * e.Bin()
			turn := 0.0 // from the surface to straight down
			const step = 1e-3
			for angle := -math.Asin(min(depth/r, 1)); angle < math.Pi/2; angle += step {
				turn += vertical.TwoWay(angle, wavelength) * step
			}
			volume := r * r * array.EquivalentWidth(wavelength) * turn * p.Resolution(e.SoundSpeed())
			want := channel.SourceLevel - 2*acoustics.TransmissionLoss(r, alpha) - 65 + acoustics.Decibels(volume) -
				array.AlongTrackLoss(r, wavelength, channel.Focus)
			want = acoustics.AddLevels(want, acoustics.Decibels(float64(e.channels[c].noise)))
			got := 20 * math.Log10(float64(row[k])/float64(e.channels[c].gain[k]))
			if tol := 0.3 + 20*math.Log10(1+0.5/float64(row[k])); math.Abs(got-want) > tol {
				t.Errorf("channel %d at %.1f m: water at %.2f dB, want %.2f", c, r, got, want)
			}
		}
	}
}
