package sonar

import (
	"bytes"
	"math"
	"testing"

	"dryline/seabed"
)

// Labels over a block on flat ground, by plain geometry: water to the fish's
// height, then floor at sqrt(R^2-h^2) and asin(h/R), the block from its top to its
// foot, its shadow out to where it ends by similar triangles, and noise from where
// the floor sinks into it by the sonar's own budget. The samples are the same with
// labels and without.
func TestLabels(t *testing.T) {
	const at, tall, altitude = 20.0, 1.5, 7.0
	spec := sharp()
	spec.Channels = spec.Channels[:1]
	spec.Channels[0].SourceLevel = 190
	sea := temperate()
	e, err := NewEngine(spec, sea, 1493, 1)
	if err != nil {
		t.Fatal(err)
	}
	with := mudWith(seabed.Object{Kind: "block", Class: seabed.Stone, At: seabed.Point{X: 100 + at, Y: 100}, Length: 3, Width: 0.6, Height: tall})
	ws, echo, plain := e.NewWorkspace(), e.NewLabelledEcho(), e.NewEcho()
	pose := Pose{X: 100, Y: 100, Z: -10 + altitude}
	e.Ping(ws, &plain, with, pose, Starboard, 0)
	e.Ping(ws, &echo, with, pose, Starboard, 0)
	if !bytes.Equal(raw(plain.Samples[0]), raw(echo.Samples[0])) {
		t.Error("labels change the samples")
	}
	foot, top := math.Hypot(at-0.3, altitude), math.Hypot(at-0.3, altitude-tall)
	back := math.Hypot(at+0.3, altitude-tall)
	tip := math.Hypot((at+0.3)*altitude/(altitude-tall), altitude)
	seen := map[LabelKind]int{}
	wrong := 0
	for k, l := range echo.Labels {
		r := (float64(k) + 0.5) * e.Bin()
		seen[l.Kind]++
		var want []LabelKind
		const near = 0.12 // where one thing ends and another begins
		switch {
		case r < altitude-near:
			want = []LabelKind{WaterLabel}
		case r < altitude+0.5 || math.Abs(r-top) < near || math.Abs(r-foot) < near || math.Abs(r-back) < near || math.Abs(r-tip) < 3*near:
			continue
		case r > top && r < foot: // its face, over the floor before it
			want = []LabelKind{ObjectLabel, LayoverLabel}
		case r < back && r > foot:
			want = []LabelKind{ObjectLabel, ShadowLabel}
		case r > foot && r < tip:
			want = []LabelKind{ShadowLabel}
		case r < 30:
			want = []LabelKind{FloorLabel, ShadowLabel} // mud hides a little of itself
		default:
			want = []LabelKind{FloorLabel, NoiseLabel, ShadowLabel}
		}
		ok := false
		for _, kind := range want {
			ok = ok || l.Kind == kind
		}
		if !ok {
			if wrong++; wrong < 10 {
				t.Errorf("at %.2f m: %v, want one of %v", r, l.Kind, want)
			}
		}
		switch l.Kind {
		case ObjectLabel, LayoverLabel:
			if l.Object != 1 || l.Class != seabed.Stone || math.Abs(float64(l.Ground)-at) > 0.5 || l.Height < -10.1 || l.Height > -8.4 {
				t.Errorf("at %.2f m: an object labelled %+v", r, l)
			}
		case FloorLabel:
			g, grazing := math.Sqrt(r*r-altitude*altitude), math.Asin(altitude/r)
			if l.Object != 0 || l.Class != seabed.Mud || math.Abs(float64(l.Ground)-g) > 0.15 || math.Abs(float64(l.Height)-with.World.HeightAt(100+float64(l.Ground), 100)) > 0.05 || math.Abs(float64(l.Grazing())-grazing) > 0.15 {
				t.Errorf("at %.2f m: floor labelled %+v, want ground range %.2f and grazing %.3f", r, l, g, grazing)
			}
		}
	}
	for _, kind := range []LabelKind{WaterLabel, FloorLabel, ObjectLabel, ShadowLabel, LayoverLabel, NoiseLabel} {
		if seen[kind] == 0 {
			t.Errorf("no sample is labelled %v: %v", kind, seen)
		}
	}
	if got := testing.AllocsPerRun(10, func() { e.Ping(ws, &echo, with, pose, Starboard, 1) }); got != 0 {
		t.Errorf("%g allocations with labels, want 0", got)
	}
}

// The surface is labelled from straight up on, where nothing else answers.
func TestSurfaceIsLabelled(t *testing.T) {
	spec := tone()
	e := spoilt(t, spec, 7, Effects{SurfaceEcho: true})
	echo := e.NewLabelledEcho()
	const depth = 9.0
	e.Ping(e.NewWorkspace(), &echo, bottomless, Pose{Z: -depth}, Starboard, 0)
	for k, l := range echo.Labels {
		r := (float64(k) + 0.5) * e.Bin()
		if r < depth-0.1 && l.Kind != WaterLabel || r > 12 && r < 30 && l.Kind != SurfaceLabel {
			t.Fatalf("at %.2f m: %v", r, l.Kind)
		}
	}
}

// BenchmarkLabels is a ping of one side with labels and without.
func BenchmarkLabels(b *testing.B) {
	e := newEngine(b, twoChannels())
	world := bare()
	for _, row := range []struct {
		name string
		echo Echo
	}{{"without", e.NewEcho()}, {"with", e.NewLabelledEcho()}} {
		b.Run(row.name, func(b *testing.B) {
			ws := e.NewWorkspace()
			b.ReportAllocs()
			for b.Loop() {
				e.Ping(ws, &row.echo, world, Pose{X: 100, Y: 100, Z: -3}, Starboard, 0)
			}
		})
	}
}
