package sonar

import (
	"math"
	"testing"

	"dryline/seabed"
	"dryline/sonar/acoustics"
)

// Another sounder's dashes stand at (t - T) c/2, exactly, ping after ping: the
// slope of their row is the difference of the two intervals. They have its
// pulse's length, and its level less what the receiver's filter takes.
func TestSounderDrifts(t *testing.T) {
	const ours, theirs, pulse, level = 0.0700, 0.0713, 1e-3, 120.0
	spec := tone()
	for _, test := range []struct{ frequency, loss float64 }{
		{450e3, 0},
		{450e3 + 0.5/30e-6, 10 * math.Log10(2)},   // half the band off: half the power
		{450e3 + 1.0/30e-6, 10 * math.Log10(257)}, // the whole band off: 1 + 2^8
	} {
		e := spoilt(t, spec, 0, Effects{Sounders: []Sounder{{Frequency: test.frequency, Interval: theirs, PulseLength: pulse, Level: level}}})
		perMetre := 2 / e.soundSpeed
		seen := 0
		for n := range 40 {
			pose := Pose{Z: -3, Time: float64(n) * ours}
			row := heard(e, bottomless, pose, Port)
			j := math.Ceil(pose.Time / theirs)
			at := (j*theirs - pose.Time) / perMetre
			if at > 50-pulse/perMetre || at < 2 || at-theirs/perMetre+pulse/perMetre > 0 {
				continue // none whole in this ping
			}
			seen++
			first, last, peak := math.Inf(1), 0.0, 0.0
			for k, v := range row {
				if v > 0 {
					first, last, peak = min(first, float64(k)*e.bin), float64(k+1)*e.bin, max(peak, v)
				}
			}
			if math.Abs(first-at) > 3*e.bin || math.Abs(last-first-pulse/perMetre) > 5*e.bin {
				t.Fatalf("ping %d: dash from %.2f to %.2f m, want %.2f to %.2f", n, first, last, at, at+pulse/perMetre)
			}
			if got := acoustics.Decibels(peak); math.Abs(got-level+test.loss) > 0.1 {
				t.Fatalf("%.0f Hz: got %.2f dB, want %.2f", test.frequency, got, level-test.loss)
			}
		}
		if seen < 15 {
			t.Fatalf("only %d dashes were seen", seen)
		}
	}
}

// Hum makes lines at every half period of the mains, c/(4f) apart, that move
// from ping to ping by what the interval misses of whole half periods; its mean
// is its level.
func TestHum(t *testing.T) {
	const mains, level = 50.0, 90.0
	e := spoilt(t, tone(), 0, Effects{Hum: Hum{Level: level, Frequency: mains, Sharpness: 8}})
	crests := func(time float64) (at []float64, mean float64) {
		row := heard(e, bottomless, Pose{Z: -3, Time: time}, Port)
		for k := 2; k+2 < len(row); k++ {
			mean += row[k] / float64(len(row)-4)
			if row[k] > row[k-1] && row[k] >= row[k+1] && row[k] > row[k-2] && row[k] > row[k+2] {
				at = append(at, (float64(k)+0.5)*e.bin)
			}
		}
		return at, mean
	}
	apart := e.soundSpeed / (4 * mains)
	first, mean := crests(0.5)
	if len(first) < 6 {
		t.Fatalf("%d lines in 50 m, want 6 or 7", len(first))
	}
	for i := 1; i < len(first); i++ {
		if got := first[i] - first[i-1]; math.Abs(got-apart) > 4*e.bin {
			t.Errorf("lines %.2f m apart, want %.2f", got, apart)
		}
	}
	if got := acoustics.Decibels(mean); math.Abs(got-level) > 0.3 {
		t.Errorf("mean level %.2f dB, want %.2f", got, level)
	}
	const slip = 0.0012 // seconds over a whole number of half periods
	next, _ := crests(0.5 + 0.07 + slip)
	want := math.Mod(first[1]-slip*e.soundSpeed/2, apart)
	if got := math.Mod(next[1], apart); math.Abs(math.Remainder(got-want, apart)) > 4*e.bin {
		t.Errorf("after %.1f ms more a line stands at %.2f m of its period, want %.2f", slip*1e3, got, want)
	}
}

// Pings are lost as often as asked, singly and in runs; both sides and all
// channels of a lost ping are blank rows, and no other ping is touched.
func TestDrops(t *testing.T) {
	const n = 60000
	count := func(d Drops) (share float64, longest int) {
		drops, run := newDrops(d, 9), 0
		lost := 0
		for i := range uint64(n) {
			if drops.lost(i) {
				lost++
				run++
				longest = max(longest, run)
			} else {
				run = 0
			}
		}
		return float64(lost) / n, longest
	}
	if got, _ := count(Drops{Share: 0.05}); math.Abs(got-0.05) > 4*math.Sqrt(0.05*0.95/n) {
		t.Errorf("lost one by one: %.4f, want 0.05", got)
	}
	// A ping is lost with the run that began back pings before if that run is
	// longer: lengths 2 to 9, all alike, 5.5 on the mean.
	got, longest := count(Drops{Bursts: 0.002, Length: 9})
	want := 1.0
	for back := range 9 {
		longer := min(1, float64(9-back)/8)
		want *= 1 - 0.002*longer
	}
	if want = 1 - want; math.Abs(got-want) > 0.15*want || longest < 8 {
		t.Errorf("lost in runs: %.4f, longest %d, want %.4f and about 9", got, longest, want)
	}
	if got, _ := count(Drops{}); got != 0 {
		t.Errorf("lost while off: %g", got)
	}

	spec := twoChannels()
	clean := newEngine(t, spec)
	spec.Effects.Drops = Drops{Share: 0.3}
	e := newEngine(t, spec)
	floor := plane{z: -10, class: seabed.MediumSand}
	a, b := clean.NewEcho(), e.NewEcho()
	wa, wb := clean.NewWorkspace(), e.NewWorkspace()
	blanks := 0
	for number := range uint64(40) {
		lost := e.spoilers.drops.lost(number)
		for side := range Side(2) {
			clean.Ping(wa, &a, floor, Pose{Z: -3}, side, number)
			e.Ping(wb, &b, floor, Pose{Z: -3}, side, number)
			for c := range b.Samples {
				for k, v := range b.Samples[c] {
					if lost && v != 0 || !lost && v != a.Samples[c][k] {
						t.Fatalf("ping %d (lost: %v) %v channel %d sample %d: %d", number, lost, side, c, k, v)
					}
				}
			}
		}
		if lost {
			blanks++
		}
	}
	if blanks == 0 || blanks == 40 {
		t.Errorf("%d of 40 pings lost: nothing was compared", blanks)
	}
}
