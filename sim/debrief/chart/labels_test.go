package chart

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestLabelsNeverCollide(t *testing.T) {
	within := Rect{10, 10, 500, 400}
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(0, 40).Draw(t, "labels")
		anchors := make([]Anchor, n)
		for i := range anchors {
			anchors[i] = Anchor{
				X:      rapid.Float64Range(within.X0, within.X1).Draw(t, "x"),
				Y:      rapid.Float64Range(within.Y0, within.Y1).Draw(t, "y"),
				Radius: rapid.Float64Range(0, 8).Draw(t, "radius"),
				W:      rapid.Float64Range(5, 120).Draw(t, "width"),
				H:      rapid.Float64Range(8, 20).Draw(t, "height"),
				Angle:  rapid.Float64Range(-4, 4).Draw(t, "angle"),
			}
		}
		obstacle := Rect{100, 100, 200, 150}
		boxes := PlaceLabels(within, anchors, []Rect{obstacle})
		for i, b := range boxes {
			if b.Empty() {
				continue
			}
			if !b.Inside(within) {
				t.Fatalf("label %d at %v, want it inside %v", i, b, within)
			}
			if w, h := b.X1-b.X0, b.Y1-b.Y0; math.Abs(w-anchors[i].W) > 1e-9 || math.Abs(h-anchors[i].H) > 1e-9 {
				t.Fatalf("label %d: got %g by %g, want %g by %g", i, w, h, anchors[i].W, anchors[i].H)
			}
			if b.Overlaps(obstacle) {
				t.Fatalf("label %d at %v lies on the obstacle", i, b)
			}
			for j, a := range anchors {
				if mark := (Rect{a.X, a.Y, a.X, a.Y}).Grow(a.Radius); b.Overlaps(mark) {
					t.Fatalf("label %d at %v lies on mark %d at %v", i, b, j, mark)
				}
				if j != i && b.Overlaps(boxes[j]) && !boxes[j].Empty() {
					t.Fatalf("labels %d at %v and %d at %v overlap", i, b, j, boxes[j])
				}
			}
		}
	})
}

func TestPlaceLabels(t *testing.T) {
	within := Rect{0, 0, 200, 100}
	one := Anchor{X: 100, Y: 50, Radius: 4, W: 40, H: 12}
	side := func(b Rect, a Anchor) string {
		switch {
		case b.Empty():
			return "none"
		case b.X0 >= a.X:
			return "right"
		case b.X1 <= a.X:
			return "left"
		case b.Y1 <= a.Y:
			return "above"
		}
		return "below"
	}
	for _, tt := range []struct {
		name   string
		change func(*Anchor)
		block  []Rect
		want   string
	}{
		{"to the right by choice", func(*Anchor) {}, nil, "right"},
		{"above when told", func(a *Anchor) { a.Angle = -math.Pi / 2 }, nil, "above"},
		{"at the right edge", func(a *Anchor) { a.X, a.Angle = 198, 0 }, nil, "left"},
		{"right side taken", func(a *Anchor) { a.Reach = 4 }, []Rect{{103, 0, 200, 100}}, "left"},
		{"no room within reach", func(a *Anchor) { a.Reach = 5 }, []Rect{{80, 30, 120, 70}}, "none"},
		{"wider than the sheet", func(a *Anchor) { a.W = 300 }, nil, "none"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			a := one
			tt.change(&a)
			box := PlaceLabels(within, []Anchor{a}, tt.block)[0]
			got := side(box, a)
			if tt.want == "left" && got == "above" || tt.want == "left" && got == "below" {
				if box.X0 < a.X-a.W/2 {
					got = "left" // up or down and to the left will do
				}
			}
			if got != tt.want {
				t.Errorf("got %s at %v, want %s", got, box, tt.want)
			}
		})
	}
}

// A crowd of marks with room around it loses no label.
func TestCrowdKeepsItsLabels(t *testing.T) {
	var anchors []Anchor
	for i := range 25 {
		anchors = append(anchors, Anchor{X: 300 + 6*float64(i%5), Y: 200 + 6*float64(i/5), Radius: 5, W: 60, H: 14})
	}
	for i, b := range PlaceLabels(Rect{0, 0, 600, 400}, anchors, nil) {
		if b.Empty() {
			t.Errorf("label %d has no place", i)
		}
	}
}
