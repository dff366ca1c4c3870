package scenarios

import (
	"testing"

	"dryline/seabed"

	"github.com/google/go-cmp/cmp"
)

func TestPipeline(t *testing.T) {
	e, err := Parse("my.yaml", []byte(edit(t, small(t), "  depth_m: 20", `  depth_m: 20
  pipelines:
    - name: main
      path: [[20, 30], [50, 70], [50, 170]]
      diameter_m: 0.5
      burial_m: 0.2
      material: concrete
      charted: true
      spans: [{ from_m: 90, to_m: 110, height_m: 0.4 }, { from_m: 40, to_m: 60, height_m: 0.8 }]
    - { name: cable, path: [[1, 2], [300, 2]], diameter_m: 0.05 }`)))
	if err != nil {
		t.Fatal(err)
	}
	want := []seabed.Pipeline{
		{
			Name: "main", Path: []seabed.Point{{X: 20, Y: 30}, {X: 50, Y: 70}, {X: 50, Y: 170}}, Diameter: 0.5, Burial: 0.2,
			Spans: []seabed.Span{{From: 90, To: 110, Height: 0.4}, {From: 40, To: 60, Height: 0.8}}, Class: seabed.Concrete, Charted: true,
		},
		{Name: "cable", Path: []seabed.Point{{X: 1, Y: 2}, {X: 300, Y: 2}}, Diameter: 0.05, Class: seabed.Steel},
	}
	if diff := cmp.Diff(want, e.Seabed.Pipelines); diff != "" {
		t.Errorf("pipelines, want less got:\n%s", diff)
	}
}

func TestPipelineFaults(t *testing.T) {
	for _, row := range []struct{ name, pipelines, want string }{
		{"path outside", "[{ name: a, path: [[9, 9], [401, 9]], diameter_m: 0.5 }]",
			"my.yaml:8: seabed.pipelines[0].path[1]: [401, 9] lies outside the world (want 0 to 400 east, 0 to 600 north)"},
		{"path of one point", "[{ name: a, path: [[9, 9]], diameter_m: 0.5 }]",
			"my.yaml:8: seabed.pipelines[0].path: has 1 items (want a list of points of 2 to 100)"},
		{"path that stands still", "[{ name: a, path: [[9, 9], [9, 9]], diameter_m: 0.5, spans: [{ from_m: 0, to_m: 9, height_m: 1 }] }]",
			"my.yaml:8: seabed.pipelines[0].path[1]: is the same point as the one before (want another point, or none)"},
		{"span beyond its end", "[{ name: a, path: [[10, 10], [40, 50]], diameter_m: 0.5, spans: [{ from_m: 40, to_m: 50.5, height_m: 1 }] }]",
			"my.yaml:8: seabed.pipelines[0].spans[0].to_m: 50.5 lies beyond the end of the pipeline (want at most 50 m)"},
		{"span the wrong way round", "[{ name: a, path: [[10, 10], [40, 50]], diameter_m: 0.5, spans: [{ from_m: 40, to_m: 30, height_m: 1 }] }]",
			"my.yaml:8: seabed.pipelines[0].spans[0].from_m: 40 is not before the span's end (want less than 30 m)"},
		{"spans that overlap", "[{ name: a, path: [[10, 10], [40, 50]], diameter_m: 0.5, spans: [{ from_m: 20, to_m: 30, height_m: 1 }, { from_m: 5, to_m: 21, height_m: 1 }] }]",
			"my.yaml:8: seabed.pipelines[0].spans[0].from_m: 20 lies within spans[1] (want at least 21 m)"},
		{"span out of the water", "[{ name: a, path: [[10, 10], [40, 50]], diameter_m: 0.5, spans: [{ from_m: 20, to_m: 30, height_m: 3 }] }]\n  relief: { height_m: 17 }",
			"my.yaml:8: seabed.pipelines[0].spans[0].height_m: 3 lifts it out of the water (want with its diameter less than the depth of about 3 m)"},
		{"name of an object", "[{ name: a, path: [[10, 10], [40, 50]], diameter_m: 0.5 }]\n  objects: [{ name: a, kind: block, at: [9, 9] }]",
			`my.yaml:8: seabed.pipelines[0].name: "a" is a name already used on line 9 (want a name of its own)`},
		{"no diameter", "[{ name: a, path: [[10, 10], [40, 50]] }]",
			"my.yaml:8: seabed.pipelines[0].diameter_m: is missing (want 0.02 to 3 m)"},
	} {
		t.Run(row.name, func(t *testing.T) {
			_, err := Parse("my.yaml", []byte(edit(t, small(t), "  depth_m: 20", "  depth_m: 20\n  pipelines: "+row.pipelines)))
			if err == nil || err.Error() != row.want {
				t.Errorf("got\n%v\nwant\n%s", err, row.want)
			}
		})
	}
	// Spans that meet do not overlap.
	if _, err := Parse("my.yaml", []byte(edit(t, small(t), "  depth_m: 20", "  depth_m: 20\n  pipelines: "+
		"[{ name: a, path: [[10, 10], [40, 50]], diameter_m: 0.5, spans: [{ from_m: 20, to_m: 30, height_m: 1 }, { from_m: 30, to_m: 50, height_m: 1 }] }]"))); err != nil {
		t.Errorf("spans end to end: got %v, want no fault", err)
	}
}
