package scenarios

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"dryline/seabed"
	"dryline/seabed/placing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
)

const placedGroup = `  depth_m: 20
  placed:
    - name: debris
      fewest: 3
      most: 8
      kinds: [{ kind: boulder, weight: 3 }, { kind: container, material: aluminium }]
      area: [[20, 20], [380, 20], [380, 580]]
      size: { law: log_uniform, low: 0.5, high: 2 }
      height: { law: normal, low: 0.8, high: 1.6 }
      heading_deg: 90
      heading_spread_deg: 20
      burial: { low_percent: 10, high_percent: 50 }
      scour: { law: normal, low_m: 0, high_m: 0.4, mean_m: 0.1, deviation_m: 0.2 }
      spacing_m: 12
      keep_off:
        - { line: L2, distance_m: 15 }
        - { path: [[200, 100]], distance_m: 30 }
      sediments: [mud, fine_sand]
      steepest_deg: 15
      shallowest_m: 5
      deepest_m: 30
      charted: true
    - { name: tyres, fewest: 4, kinds: [{ kind: tyre }] }`

// Every key comes through in the engine's unit, and what is left out is what the
// file says it is.
func TestPlacedGroups(t *testing.T) {
	e, err := Parse("my.yaml", []byte(edit(t, small(t), "  depth_m: 20", placedGroup)))
	if err != nil {
		t.Fatal(err)
	}
	one := placing.Distribution{Law: placing.Uniform, Low: 1, High: 1}
	none := placing.Distribution{Law: placing.Uniform}
	want := []placing.Group{
		{
			Name: "debris", Fewest: 3, Most: 8,
			Kinds: []placing.Choice{{Kind: "boulder", Weight: 3}, {Kind: "container", Weight: 1, Class: seabed.Aluminium}},
			Area:  seabed.Area{Polygon: []seabed.Point{{X: 20, Y: 20}, {X: 380, Y: 20}, {X: 380, Y: 580}}},
			Size:  placing.Distribution{Law: placing.LogUniform, Low: 0.5, High: 2}, Length: one, Width: one,
			Height:  placing.Distribution{Law: placing.Normal, Low: 0.8, High: 1.6, Mean: (0.8 + 1.6) / 2, Deviation: (1.6 - 0.8) / 4},
			Heading: placing.Heading{Given: true, About: math.Pi / 2, Deviation: 20 * math.Pi / 180},
			Burial:  placing.Distribution{Law: placing.Uniform, Low: 0.1, High: 0.5},
			Scour:   placing.Distribution{Law: placing.Normal, Low: 0, High: 0.4, Mean: 0.1, Deviation: 0.2}, Spacing: 12,
			KeepOff: []placing.KeepOff{
				{Path: []seabed.Point{{X: 230, Y: 200}, {X: 230, Y: 400}}, Distance: 15},
				{Path: []seabed.Point{{X: 200, Y: 100}}, Distance: 30},
			},
			Sediments: []seabed.Class{seabed.Mud, seabed.FineSand}, Steepest: 15 * math.Pi / 180, Shallowest: 5, Deepest: 30, Charted: true,
		},
		{
			Name: "tyres", Fewest: 4, Most: 4, Kinds: []placing.Choice{{Kind: "tyre", Weight: 1}},
			Size: one, Length: one, Width: one, Height: one, Burial: none, Scour: none, Spacing: 1,
		},
	}
	if diff := cmp.Diff(want, e.Placed, cmpopts.EquateApprox(1e-12, 0)); diff != "" {
		t.Error(diff)
	}
}

// Whatever a file may ask for, the objects that come of it are such as could be
// given one by one: written into a file as objects they are accepted.
func TestPlacedObjectsCouldBeGivenOneByOne(t *testing.T) {
	var groups, objects strings.Builder
	for _, kind := range objectKinds() {
		if kind == "pot_string" { // some reach farther than this world
			continue
		}
		fmt.Fprintf(&groups, "    - { name: %s, fewest: 1, kinds: [{ kind: %s }], size: { law: log_uniform, low: 0.6, high: 1.4 }, length: { low: 0.8, high: 1.2 }, width: { low: 0.8, high: 1.2 }, height: { low: 0.7, high: 1.3 }, burial: { high_percent: 95 }, scour: { high_m: 1 } }\n", kind, kind)
	}
	world := "  depth_m: 20\n  relief: { gradient_percent: 2, height_m: 1 }\n"
	e, err := Parse("my.yaml", []byte(edit(t, small(t), "  depth_m: 20\n", world+"  placed:\n"+groups.String())))
	if err != nil {
		t.Fatal(err)
	}
	for seed := range uint64(8) {
		spec, err := placing.Resolve(e.Seabed, e.Placed, 1, seed)
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		objects.Reset()
		for _, o := range spec.Objects {
			fmt.Fprintf(&objects, "    - { name: %s, kind: %s, at: [%v, %v], heading_deg: %v, length_m: %v, width_m: %v, height_m: %v, burial_m: %v, scour_m: %v }\n",
				o.Name, o.Kind, o.At.X, o.At.Y, o.Heading*180/math.Pi, o.Length, o.Width, o.Height, o.Burial, o.Scour)
		}
		if n := len(spec.Objects); n != len(e.Placed) {
			t.Fatalf("seed %d: %d objects of %d", seed, n, len(e.Placed))
		}
		if _, err := Parse("my.yaml", []byte(edit(t, small(t), "  depth_m: 20\n", world+"  objects:\n"+objects.String()))); err != nil {
			t.Errorf("seed %d: %v", seed, err)
		}
	}
}

func TestPlacedFaults(t *testing.T) {
	for _, row := range []struct{ name, group, want string }{
		{"no name", "{ fewest: 1, kinds: [{ kind: tyre }] }",
			"my.yaml:8: seabed.placed[0].name: is missing (want text of 1 to 30 characters)"},
		{"no number", "{ name: a, kinds: [{ kind: tyre }] }",
			"my.yaml:8: seabed.placed[0].fewest: is missing (want a whole number, 0 to 500)"},
		{"no kinds", "{ name: a, fewest: 1, kinds: [] }",
			"my.yaml:8: seabed.placed[0].kinds: has 0 items (want a list of 1 to 32)"},
		{"unknown kind", "{ name: a, fewest: 1, kinds: [{ kind: tire }] }",
			`my.yaml:8: seabed.placed[0].kinds[0].kind: "tire" is not known (want tyre)`},
		{"most under fewest", "{ name: a, fewest: 5, most: 4, kinds: [{ kind: tyre }] }",
			"my.yaml:8: seabed.placed[0].most: 4 is less than fewest (want at least 5)"},
		{"unknown law", "{ name: a, fewest: 1, kinds: [{ kind: tyre }], size: { law: gamma } }",
			`my.yaml:8: seabed.placed[0].size.law: "gamma" is not known (want one of uniform, log_uniform, normal)`},
		{"bounds turned round", "{ name: a, fewest: 1, kinds: [{ kind: tyre }], burial: { low_percent: 50, high_percent: 20 } }",
			"my.yaml:8: seabed.placed[0].burial.low_percent: 50 is more than high_percent (want at most 20)"},
		{"no logarithm", "{ name: a, fewest: 1, kinds: [{ kind: tyre }], scour: { law: log_uniform, high_m: 1 } }",
			"my.yaml:8: seabed.placed[0].scour.low_m: 0 has no logarithm (want more than 0 with law: log_uniform)"},
		{"normal without room", "{ name: a, fewest: 1, kinds: [{ kind: tyre }], width: { law: normal } }",
			"my.yaml:8: seabed.placed[0].width: is a normal distribution between bounds that are the same (want low less than high)"},
		{"mean of a uniform one", "{ name: a, fewest: 1, kinds: [{ kind: tyre }], size: { high: 2, mean: 1.5 } }",
			"my.yaml:8: seabed.placed[0].size.mean: is not used by uniform"},
		{"mean beyond", "{ name: a, fewest: 1, kinds: [{ kind: tyre }], size: { law: normal, high: 2, mean: 3 } }",
			"my.yaml:8: seabed.placed[0].size.mean: 3 lies beyond the bounds (want 1 to 2)"},
		{"too long", "{ name: a, fewest: 1, kinds: [{ kind: steel_wreck }], size: { high: 5 } }",
			`my.yaml:8: seabed.placed[0].kinds[0].kind: "steel_wreck" comes out with a length_m of 46 to 230 (want sizes that make it 0.05 to 200 m)`},
		{"spread about nothing", "{ name: a, fewest: 1, kinds: [{ kind: tyre }], heading_spread_deg: 9 }",
			"my.yaml:8: seabed.placed[0].heading_spread_deg: has no bearing to be about (want heading_deg as well)"},
		{"area of nothing", "{ name: a, fewest: 1, kinds: [{ kind: tyre }], area: [[0, 0], [9, 9], [20, 20]] }",
			"my.yaml:8: seabed.placed[0].area: encloses less than a square metre (want corners in turn round an area)"},
		{"depths turned round", "{ name: a, fewest: 1, kinds: [{ kind: tyre }], shallowest_m: 20, deepest_m: 10 }",
			"my.yaml:8: seabed.placed[0].deepest_m: 10 is not deeper than shallowest_m (want more than 20 m)"},
		{"keep off a line there is not", "{ name: a, fewest: 1, kinds: [{ kind: tyre }], keep_off: [{ line: l2, distance_m: 5 }] }",
			`my.yaml:8: seabed.placed[0].keep_off[0].line: "l2" names no line (want L2)`},
		{"keep off two ways", "{ name: a, fewest: 1, kinds: [{ kind: tyre }], keep_off: [{ line: L2, path: [[1, 1]], distance_m: 5 }] }",
			"my.yaml:8: seabed.placed[0].keep_off[0]: has both line and path or neither (want one of them)"},
		{"keep off nothing", "{ name: a, fewest: 1, kinds: [{ kind: tyre }], keep_off: [{ distance_m: 5 }] }",
			"my.yaml:8: seabed.placed[0].keep_off[0]: has both line and path or neither (want one of them)"},
		{"sediment not known", "{ name: a, fewest: 1, kinds: [{ kind: tyre }], sediments: [mude] }",
			`my.yaml:8: seabed.placed[0].sediments[0]: "mude" is not known (want mud)`},
		{"groups of one name", "{ name: a, fewest: 1, kinds: [{ kind: tyre }] }, { name: a, fewest: 1, kinds: [{ kind: tyre }] }",
			`my.yaml:8: seabed.placed[1].name: "a" is a name already used on line 8 (want a name of its own)`},
		{"too many", "{ name: a, fewest: 300, kinds: [{ kind: tyre }] }, { name: b, fewest: 1, most: 201, kinds: [{ kind: tyre }] }",
			"my.yaml:8: seabed.placed: may come to 501 objects (want at most 500 together)"},
	} {
		t.Run(row.name, func(t *testing.T) {
			_, err := Parse("my.yaml", []byte(edit(t, small(t), "  depth_m: 20", "  depth_m: 20\n  placed: ["+row.group+"]")))
			if err == nil || err.Error() != row.want {
				t.Errorf("got\n%v\nwant\n%s", err, row.want)
			}
		})
	}
	_, err := Parse("my.yaml", []byte(edit(t, small(t), "  depth_m: 20", `  depth_m: 20
  objects: [{ name: a-2, kind: tyre, at: [9, 9] }, { name: b-02, kind: tyre, at: [30, 9] }, { name: b-4, kind: tyre, at: [50, 9] }]
  placed:
    - { name: a, fewest: 2, kinds: [{ kind: tyre }] }
    - { name: b, fewest: 3, kinds: [{ kind: tyre }] }`)))
	if want := `my.yaml:10: seabed.placed[0].name: "a" gives one of its objects the name of seabed.objects[0], "a-2" (want another name)`; err == nil || err.Error() != want {
		t.Errorf("got\n%v\nwant\n%s", err, want)
	}
}
