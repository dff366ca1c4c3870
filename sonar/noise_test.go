package sonar

import (
	"math"
	"testing"

	"dryline/seabed"
	"dryline/sonar/recorder"
)

// loud is a spec whose receiver is turned up until its noise is some thousand
// counts, at all ranges alike.
func loud() Spec {
	spec := twoChannels()
	for i := range spec.Channels {
		spec.Channels[i].Receiver = recorder.Receiver{Gain: 110}
	}
	return spec
}

// rendered returns the counts of pings over a floor from a run of the fish, a
// step apart.
func rendered(e *Engine, floor Floor, pings int, step float64, from, to int) [][]float64 {
	ws, echo := e.NewWorkspace(), e.NewEcho()
	rows := make([][]float64, pings)
	for i := range rows {
		e.Ping(ws, &echo, floor, Pose{Z: -3, Run: step * float64(i)}, Starboard, uint64(i))
		for _, v := range echo.Samples[0][from:to] {
			rows[i] = append(rows[i], float64(v))
		}
	}
	return rows
}

// correlation is that of the samples with those of other pings, lag later.
func correlation(rows [][]float64, lag, along int) float64 {
	var n, a, b, aa, bb, ab float64
	for i := 0; i+lag < len(rows); i++ {
		for k := 0; k+along < len(rows[i]); k++ {
			x, y := rows[i][k], rows[i+lag][k+along]
			n, a, b, aa, bb, ab = n+1, a+x, b+y, aa+x*x, bb+y*y, ab+x*y
		}
	}
	return (ab/n - a/n*b/n) / math.Sqrt((aa/n-a/n*a/n)*(bb/n-b/n*b/n))
}

// Where nothing echoes no sample says anything of any other, on a fish that
// tows on or hangs still; and the amplitude is Rayleigh's: contrast
// sqrt(4/pi - 1), exceedance exp(-x) (exact for circular Gaussian noise).
func TestNoiseIsNewEveryTime(t *testing.T) {
	for _, step := range []float64{0, 0.067, 0.24} {
		rows := rendered(newEngine(t, loud()), bottomless, 250, step, 400, 1000)
		for _, lag := range []struct{ pings, samples int }{{1, 0}, {2, 0}, {3, 0}, {7, 0}, {0, 1}, {0, 2}, {0, 5}, {1, 1}} {
			if got := correlation(rows, lag.pings, lag.samples); math.Abs(got) > 0.02 {
				t.Errorf("%g m apart: correlation %.3f, %d pings and %d samples later", step, got, lag.pings, lag.samples)
			}
		}
		var n, sum, square, over float64
		for _, row := range rows {
			for _, v := range row[300:310] { // the gain hardly changes over these
				n, sum, square = n+1, sum+v, square+v*v
			}
		}
		mean := sum / n
		if got := math.Sqrt(square/n-mean*mean) / mean; math.Abs(got-0.522723) > 0.03 {
			t.Errorf("%g m apart: contrast %.4f, want 0.5227", step, got)
		}
		for _, row := range rows {
			for _, v := range row[300:310] {
				if v*v > 3*square/n {
					over++
				}
			}
		}
		if got := over / n; math.Abs(got-math.Exp(-3)) > 0.015 {
			t.Errorf("%g m apart: %.4f of the samples over three times the mean, want %.4f", step, got, math.Exp(-3))
		}
	}
}

// Of echo E and noise N the echo alone stays on a fish that hangs still: the
// intensities of two pings correlate by (E/(E+N))^2 and are exponential whatever
// the shares (exact for two independent circular Gaussians).
func TestEchoStaysAndNoiseGoes(t *testing.T) {
	spec := loud()
	for i := range spec.Channels {
		spec.Channels[i].SourceLevel, spec.Channels[i].Gain = 150, 46
	}
	floor := plane{z: -10, class: seabed.MediumSand}
	level := func(change func(*Engine)) []float64 {
		e := newEngine(t, spec)
		e.SpeckleOff = true
		change(e)
		return rendered(e, floor, 1, 0, 0, spec.Samples)[0]
	}
	echo := level(func(e *Engine) { e.NoiseOff = true })
	both := level(func(*Engine) {})
	e := newEngine(t, spec)
	ws, out := e.NewWorkspace(), e.NewEcho()
	const pings, wide = 1500, 8
	checked := 0
	for from := 500; from < 1900; from += 200 {
		share := echo[from+wide/2] * echo[from+wide/2] / (both[from+wide/2] * both[from+wide/2])
		if share < 0.1 || share > 0.95 {
			continue
		}
		checked++
		var a, b, aa, bb, ab, m float64
		for i := range uint64(pings) {
			pose := Pose{Z: -3, Run: 5 * float64(i)}
			e.Ping(ws, &out, floor, pose, Starboard, 2*i)
			first := append([]uint16(nil), out.Samples[0][from:from+wide]...)
			e.Ping(ws, &out, floor, pose, Starboard, 2*i+1)
			for k, v := range first {
				x, y := float64(v)*float64(v), float64(out.Samples[0][from+k])*float64(out.Samples[0][from+k])
				m, a, b, aa, bb, ab = m+1, a+x, b+y, aa+x*x, bb+y*y, ab+x*y
			}
		}
		varA, varB := aa/m-a/m*a/m, bb/m-b/m*b/m
		got := (ab/m - a/m*b/m) / math.Sqrt(varA*varB)
		if want := share * share; math.Abs(got-want) > 0.06 {
			t.Errorf("echo of %.2f of the sum: two pings correlate by %.3f, want %.3f", share, got, want)
		}
		if got := varA / (a / m * a / m); math.Abs(got-1) > 0.12 {
			t.Errorf("echo of %.2f of the sum: variance %.3f of the squared mean, want 1", share, got)
		}
		mean := both[from+wide/2] * both[from+wide/2]
		if got := a / m / mean; math.Abs(got-1) > 0.06 {
			t.Errorf("echo of %.2f of the sum: mean %.3f of echo and noise", share, got)
		}
	}
	if checked < 3 {
		t.Fatalf("echo and noise are alike at %d ranges, want three: nothing was tested", checked)
	}
}
