package tiles_test

import (
	"bytes"
	"encoding/json"
	"image"
	"image/png"
	"math"
	"slices"
	"testing"

	"dryline/sim"
	"dryline/sim/dataset/coco"
	"dryline/sim/dataset/tiles"
	"dryline/sim/product"
	"dryline/sim/simtest"
)

// The tiles of a line with a block to starboard: what is in the pictures is what was
// recorded, the block is where it lies, and its shadow falls away from the track.
func TestTiles(t *testing.T) {
	ex := simtest.PastTheBlock(t, 270, 325)
	s, err := sim.New(ex, 1)
	if err != nil {
		t.Fatal(err)
	}
	s.AttachMate()
	var files product.Memory
	w := tiles.Attach(s, &files, "scene")
	type seen struct{ port, starboard []uint16 }
	pings := map[uint64]seen{}
	track := map[uint64]float64{} // true northing
	s.Observe(sim.Observer{Truth: true, Ping: func(p *sim.Ping) {
		pings[p.Number] = seen{slices.Clone(p.Port[0]), slices.Clone(p.Starboard[0])}
		track[p.Number] = p.Truth.Pose.Y
	}})
	for !s.Done() {
		s.Advance(100)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	var f coco.File
	if err := json.Unmarshal(files.Content(tiles.AnnotationFile), &f); err != nil {
		t.Fatal(err)
	}
	names := map[int]string{}
	for _, c := range f.Categories {
		names[c.ID] = c.Name
	}
	images := map[int]coco.Image{}
	for _, img := range f.Images {
		images[img.ID] = img
		deep := decode(t, &files, img.Deep).(*image.Gray16)
		shallow := decode(t, &files, img.File).(*image.Gray)
		if deep.Rect.Dx() != img.Width || deep.Rect.Dy() != img.Height || shallow.Rect != deep.Rect {
			t.Fatalf("%s is %v and %v, said to be %d by %d", img.File, deep.Rect, shallow.Rect, img.Width, img.Height)
		}
		if img.Geometry != "slant" {
			continue
		}
		for row := 0; row < img.Height; row += 13 { // a sample to a column here
			p := pings[*img.First+uint64(row)]
			for x := 0; x < img.Width; x += 7 {
				want := p.starboard[min(x, len(p.starboard)-1)]
				if img.Side == "port" {
					want = p.port[img.Width-1-x]
				}
				if got := deep.Gray16At(x, row).Y; got != want {
					t.Fatalf("%s: %d counts at %d, %d; recorded were %d", img.Deep, got, x, row, want)
				}
				level := 255 * math.Log(float64(max(want, 1))) / math.Log(65535)
				if got := shallow.GrayAt(x, row).Y; math.Abs(float64(got)-level) > 0.51 {
					t.Fatalf("%s: level %d at %d, %d, want %.1f", img.File, got, x, row, level)
				}
			}
		}
	}
	if len(f.Images) != 4*((len(f.Images)+3)/4) || len(f.Images) == 0 {
		t.Errorf("%d images", len(f.Images))
	}
	for _, geometry := range []string{"slant", "ground"} {
		found := map[coco.Role]coco.Annotation{}
		for _, a := range f.Annotations {
			img := images[a.Image]
			if img.Side != "starboard" || a.Object != 1 {
				t.Errorf("annotation %+v in %s", a, img.File)
			}
			if img.Geometry == geometry && a.Area > found[a.Role].Area {
				found[a.Role] = a
			}
		}
		echo, shadow, whole := found[coco.Echo], found[coco.Shadow], found[coco.Whole]
		if names[echo.Category] != "block echo" || names[shadow.Category] != "block shadow" || names[whole.Category] != "block" {
			t.Fatalf("%s: found %v", geometry, found)
		}
		if echo.Area+shadow.Area != whole.Area || !slices.Contains(whole.Linked, echo.ID) || !slices.Contains(echo.Linked, shadow.ID) {
			t.Errorf("%s: %v and %v are not the whole %v, or not joined", geometry, echo.Area, shadow.Area, whole.Area)
		}
		if shadow.Box[0]+shadow.Box[2]/2 <= echo.Box[0]+echo.Box[2] {
			t.Errorf("%s: the shadow %v is not beyond the echo %v", geometry, shadow.Box, echo.Box)
		}
		img := images[echo.Image]
		// The middle of its rows is where the fish passed it.
		y := track[*img.First+uint64(echo.Box[1]+echo.Box[3]/2)]
		if math.Abs(y-300) > 0.6 {
			t.Errorf("%s: the block lies at %.2f m north, want 300", geometry, y)
		}
		if geometry == "ground" { // its near face is 29 m from the line; a raised top lies nearer on a flat floor
			near := echo.Box[0] * img.Across
			if near < 27 || near > 29.6 {
				t.Errorf("the block begins %.2f m off, want near 29", near)
			}
		}
		// It is brighter than the ground about it, and its shadow darker.
		picture := decode(t, &files, img.File).(*image.Gray)
		mean := func(box [4]float64) float64 {
			sum, n := 0.0, 0.0
			for x := int(box[0]); x < int(box[0]+box[2]); x++ {
				for y := int(box[1]); y < int(box[1]+box[3]); y++ {
					sum, n = sum+float64(picture.GrayAt(x, y).Y), n+1
				}
			}
			return sum / n
		}
		aside := shadow.Box
		aside[1] -= 20
		if d, b := mean(shadow.Box), mean(aside); d > b-20 {
			t.Errorf("%s: its shadow has a level of %.1f, the ground beside it %.1f", geometry, d, b)
		}
	}
}

func decode(t *testing.T, files *product.Memory, name string) image.Image {
	t.Helper()
	img, err := png.Decode(bytes.NewReader(files.Content(name)))
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	return img
}
