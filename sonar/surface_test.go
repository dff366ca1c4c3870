package sonar

import (
	"math"
	"testing"

	"dryline/seabed"
	"dryline/sonar/acoustics"
)

// The surface echo begins straight up, at the slant range of the fish's depth
// (exact geometry), and has the level of the sonar equation,
//
//	RL = SL - 40 log R - 2 alpha R + Ss + 10 log(R Theta delta/cos beta)
//
// (Urick, Principles of Underwater Sound, 1983, chapter 8) through the vertical
// pattern, seen upwards.
func TestSurfaceEcho(t *testing.T) {
	spec := tone()
	const wind = 7.0
	for _, depth := range []float64{3.3, 9, 21.7} {
		e := spoilt(t, spec, wind, Effects{SurfaceEcho: true})
		row := heard(e, bottomless, Pose{Z: -depth}, Starboard)
		if got := begins(e, row); math.Abs(got-depth) > 3*e.bin {
			t.Errorf("fish at %.1f m: surface begins at %.2f m", depth, got)
		}
		channel := spec.Channels[0]
		c := e.soundSpeed
		wavelength := c / channel.Frequency
		array := acoustics.LineArray{Length: channel.ArrayLength}
		pulse := acoustics.Pulse{Duration: channel.PulseLength}
		vertical := acoustics.VerticalBeam{
			Array:      acoustics.LineArrayForWidth(spec.VerticalBeam, wavelength, acoustics.Shading{}),
			Depression: spec.Depression, BackLobe: backLobe, Fill: nullFill,
		}
		alpha := acoustics.FrancoisGarrison(channel.Frequency, 11, 34, 10, 8)
		for _, beta := range []float64{8, 15, 25} {
			r := depth / math.Sin(beta*deg)
			if r > 48 {
				continue
			}
			k := int(r / e.bin)
			r = (float64(k) + 0.5) * e.bin
			grazing := math.Asin(depth / r)
			want := acoustics.ReverberationLevel(channel.SourceLevel, acoustics.SurfaceStrength(channel.Frequency, wind, grazing), r, alpha,
				acoustics.ReverberationArea(r, array.EquivalentWidth(wavelength), pulse.Resolution(c), grazing))
			want += acoustics.Decibels(vertical.TwoWay(-grazing, wavelength))
			if got := acoustics.Decibels(row[k]); math.Abs(got-want) > 0.3 {
				t.Errorf("fish at %.1f m, %g deg: rendered %.2f dB, sonar equation %.2f dB", depth, beta, got, want)
			}
		}
	}
	if e := spoilt(t, spec, wind, Effects{}); !math.IsInf(begins(e, heard(e, bottomless, Pose{Z: -9}, Starboard)), 1) {
		t.Error("switched off, the surface still answers")
	}
}

// A ghost comes later by half the difference of the ways, direct and over the
// surface (image of the fish; exact geometry on a flat floor), and over a flat
// surface is weaker by twice-counted spreading, absorption and beam alone; wind
// weakens it further.
func TestGhosts(t *testing.T) {
	const altitude, depth, at = 7.0, 5.0, 24.0
	floor := plane{z: -altitude - depth, class: seabed.Mud, from: at, height: 0.06, rod: true, rodRadius: 0.05}
	pose := Pose{Z: -depth}
	clean := heard(spoilt(t, tone(), 0, Effects{}), floor, pose, Starboard)
	e := spoilt(t, tone(), 0, Effects{SurfaceGhosts: true})
	row := heard(e, floor, pose, Starboard)
	r, long := math.Hypot(at, altitude), math.Hypot(at, altitude+2*depth)
	peak := func(of []float64, about float64) (k int) {
		for i := int(about/e.bin) - 12; i < int(about/e.bin)+12; i++ {
			if k == 0 || of[i] > of[k] {
				k = i
			}
		}
		return k
	}
	ghost := make([]float64, len(row))
	for k := range ghost {
		ghost[k] = row[k] - clean[k]
	}
	direct, k := peak(clean, r), peak(ghost, (r+long)/2)
	if got := (float64(k) + 0.5) * e.bin; math.Abs(got-(r+long)/2) > 4*e.bin {
		t.Errorf("ghost at %.3f m, geometry says %.3f", got, (r+long)/2)
	}
	sum := func(of []float64, k int) (s float64) {
		for i := k - 8; i <= k+8; i++ {
			s += of[i]
		}
		return s
	}
	wavelength := e.soundSpeed / 450e3
	vertical := acoustics.VerticalBeam{
		Array:      acoustics.LineArrayForWidth(50*deg, wavelength, acoustics.Shading{}),
		Depression: 20 * deg, BackLobe: backLobe, Fill: nullFill,
	}
	alpha := acoustics.FrancoisGarrison(450e3, 11, 34, 10, 8)
	want := acoustics.Decibels(2) + 2*acoustics.Decibels(r/long) - alpha*(long-r)/1000 +
		acoustics.Decibels(vertical.Power(-math.Asin((altitude+2*depth)/long), wavelength)/vertical.Power(math.Asin(altitude/r), wavelength)) -
		acoustics.SurfaceLoss(450e3, 0, math.Asin((altitude+2*depth)/long))
	if got := acoustics.Decibels(sum(ghost, k) / sum(clean, direct)); math.Abs(got-want) > 1 {
		t.Errorf("ghost over echo: got %.1f dB, want %.1f", got, want)
	}
	last := math.Inf(1)
	for _, wind := range []float64{0, 2, 6, 12} {
		windy := heard(spoilt(t, tone(), wind, Effects{SurfaceGhosts: true}), floor, pose, Starboard)
		if s := sum(windy, k) - sum(clean, k); s >= last {
			t.Errorf("at %g m/s the ghost is no weaker than before", wind)
		} else {
			last = s
		}
	}
}

// The second bottom echo begins at h + D: down, up to the surface, down and up
// again (exact geometry); hard ground and a calm make it stronger.
func TestSecondBottom(t *testing.T) {
	const altitude, depth = 9.0, 6.0
	level := func(class seabed.Class, wind float64) (first, energy float64) {
		floor, pose := plane{z: -altitude - depth, class: class}, Pose{Z: -depth}
		clean := heard(spoilt(t, tone(), wind, Effects{}), floor, pose, Port)
		e := spoilt(t, tone(), wind, Effects{SecondBottom: true})
		first = math.Inf(1)
		for k, v := range heard(e, floor, pose, Port) {
			if v != clean[k] {
				first = min(first, float64(k)*e.bin)
				energy += (v - clean[k]) / clean[k]
			}
		}
		return first, energy
	}
	first, rock := level(seabed.Rock, 0)
	if math.Abs(first-(altitude+altitude+depth)) > 0.6 { // faint at first: the beam looks outwards
		t.Errorf("begins at %.2f m, want %.2f", first, altitude+altitude+depth)
	}
	if first < 2*altitude+depth-3*0.025 {
		t.Errorf("begins at %.2f m, before sound can have gone the way", first)
	}
	_, mud := level(seabed.Mud, 0)
	_, windy := level(seabed.Rock, 8)
	if mud > rock/2 || windy > rock/2 {
		t.Errorf("share of the floor's echo: rock in a calm %.2f, mud %.2f, rock in a wind %.2f; want the first by far", rock, mud, windy)
	}
}

// Bubbles weaken the floor by what lies below the fish, there and back, at the
// slant of the ray: tau exp(-d/L)/sin gamma each way (Beer's law). NoiseRise is
// added to the channel's own noise in decibels.
func TestBubbles(t *testing.T) {
	const altitude, depth, wind = 9.0, 1.0, 9.0
	floor, pose := plane{z: -altitude - depth, class: seabed.MediumSand}, Pose{Z: -depth}
	clean := heard(spoilt(t, tone(), wind, Effects{}), floor, pose, Port)
	e := spoilt(t, tone(), wind, Effects{Bubbles: Bubbles{On: true}})
	row := heard(e, floor, pose, Port)
	reverberation := heard(e, bottomless, pose, Port)
	scale := 0.4 + 0.115*(wind-2.5)
	tau := acoustics.SurfaceLoss(450e3, wind, math.Pi/2) / 2 * math.Exp(-depth/scale) // dB
	for _, gamma := range []float64{15, 25, 40} {
		k := int(altitude / math.Sin(gamma*deg) / e.bin)
		got := acoustics.Decibels((row[k] - reverberation[k]) / clean[k])
		if want := -2 * tau / math.Sin(gamma*deg); math.Abs(got-want) > 0.1*math.Abs(want) {
			t.Errorf("floor at %g deg: %.2f dB through the bubbles, want %.2f", gamma, got, want)
		}
	}
	if reverberation[40] == 0 {
		t.Error("the bubbles about the fish are silent")
	}
	loud := spoilt(t, tone(), 0, Effects{Bubbles: Bubbles{On: true, NoiseRise: 6}})
	loud.NoiseOff = false
	rise := heard(loud, bottomless, Pose{Z: -30}, Port)[1000] / float64(loud.channels[0].noise)
	if got := acoustics.Decibels(1 + rise); math.Abs(got-6) > 0.01 {
		t.Errorf("noise rises by %.3f dB, want 6", got)
	}
}
