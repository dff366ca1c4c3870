package placing

import (
	"errors"
	"math"
	"strings"
	"testing"

	"dryline/seabed"
)

func seaFloor() seabed.Spec {
	w := *world()
	w.Depth, w.Base = 20, seabed.FineSand
	w.Relief = seabed.Relief{Gradient: 0.03, DeepensTo: 1, Height: 1, Wavelength: 80, Octaves: 4}
	w.Patches = []seabed.Patch{{Class: seabed.Mud, Area: seabed.Area{Polygon: []seabed.Point{{X: 0, Y: 0}, {X: 200, Y: 0}, {X: 200, Y: 300}, {X: 0, Y: 300}}, Feather: 4}}}
	return w
}

// On a world as the engine makes it the objects come after its own, on the ground
// asked for, each group clear of those before.
func TestResolveOnAWorld(t *testing.T) {
	spec := seaFloor()
	groups := []Group{
		{Name: "stones", Fewest: 10, Most: 10, Kinds: []Choice{{Kind: "boulder", Weight: 1}}, Size: Distribution{Low: 0.5, High: 1.5}, Sediments: []seabed.Class{seabed.Mud}, Spacing: 5},
		{Name: "tyres", Fewest: 12, Most: 12, Kinds: []Choice{{Kind: "tyre", Weight: 1}}, Spacing: 5},
	}
	got, err := Resolve(spec, groups, 3, 8)
	if err != nil {
		t.Fatal(err)
	}
	if len(got.Objects) != 24 || len(spec.Objects) != 2 || got.Objects[0].Name != "wreck" || got.Objects[2].Name != "stones-1" || got.Objects[23].Name != "tyres-12" {
		t.Fatalf("objects are %+v", got.Objects)
	}
	again, err := Resolve(spec, groups, 3, 8)
	if err != nil || again.Objects[5] != got.Objects[5] {
		t.Errorf("again: %+v, %v", again.Objects[5], err)
	}
	other, err := Resolve(spec, groups, 3, 9)
	if err != nil || other.Objects[5] == got.Objects[5] {
		t.Errorf("another seed of objects changes nothing: %v", err)
	}
	built := seabed.New(got, 3)
	for i, o := range got.Objects {
		whole := o.Whole()
		if strings.HasPrefix(o.Name, "stones") && built.ClassAt(o.At.X, o.At.Y) != seabed.Mud {
			t.Errorf("%s lies on %v", o.Name, built.ClassAt(o.At.X, o.At.Y))
		}
		for _, p := range got.Objects[:i] {
			w := p.Whole()
			if apart := math.Hypot(o.At.X-p.At.X, o.At.Y-p.At.Y) - whole.Radius() - w.Radius(); i > 1 && apart < 5 {
				t.Errorf("%s and %s are %.2f m apart", o.Name, p.Name, apart)
			}
		}
		// It stands there, and nothing else does: the top of the floor is its own.
		if i > 1 {
			if _, _, object := built.SurfaceAt(o.At.X, o.At.Y); object != i && o.Kind != "tyre" {
				t.Errorf("at %s stands object %d", o.Name, object)
			}
		}
	}
	if same, err := Resolve(spec, nil, 3, 8); err != nil || len(same.Objects) != 2 {
		t.Errorf("with nothing to place: %+v, %v", same.Objects, err)
	}
}

func TestResolveSaysWhichGroup(t *testing.T) {
	spec := seaFloor()
	one := Group{Name: "wreck", Fewest: 1, Most: 1, Kinds: []Choice{{Kind: "tyre", Weight: 1}}}
	bad := one
	bad.Name, bad.Sediments = "lost", []seabed.Class{seabed.Rock}
	var f *Failure
	if got, err := Resolve(spec, []Group{one, bad}, 3, 8); !errors.As(err, &f) || f.Group != 1 || f.Name != "lost" || len(got.Objects) != 2 || strings.Contains(err.Error(), "\n") {
		t.Errorf("got %v", err)
	}
	spec.Pipelines[0].Name = "wreck-1"
	if _, err := Resolve(spec, []Group{one}, 3, 8); !errors.As(err, &f) || !strings.Contains(err.Error(), "wreck-1") {
		t.Errorf("two of one name: %v", err)
	}
}

func BenchmarkResolve(b *testing.B) {
	spec := seaFloor()
	g := mixed()
	g.Sediments, g.Shallowest, g.Deepest = []seabed.Class{seabed.FineSand}, 5, 60
	for b.Loop() {
		if _, err := Resolve(spec, []Group{*g}, 3, 8); err != nil {
			b.Fatal(err)
		}
	}
}
