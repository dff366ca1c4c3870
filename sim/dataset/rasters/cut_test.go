package rasters_test

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
	"dryline/sim/dataset/rasters"
	"dryline/sim/product"
	"dryline/sim/simtest"
)

// The tiles of a mosaic of one line past a block to the east: their pixels are the means of
// the samples that the desk's positions and plain geometry put there, the block's echo lies on the block, and
// its shadow beyond it as seen from the line, as long as similar triangles have it.
func TestTilesOfTheMosaic(t *testing.T) {
	ex := simtest.PastTheBlock(t, 275, 325)
	s, err := sim.New(ex, 1)
	if err != nil {
		t.Fatal(err)
	}
	s.AttachMate()
	var files product.Memory
	w := rasters.Attach(s, &files, rasters.Products{Tiles: true, Scene: "scene"})
	grid, bin := ex.Place.Grid, s.Desk.Recorder.Bin()
	type cell struct{ east, north int }
	sums := map[cell][2]float64{} // counts and samples, by cells of UTM
	height := 0.0
	s.Observe(sim.Observer{Truth: true, Ping: func(p *sim.Ping) {
		open := s.Desk.OpenLine()
		if p.Line == "" || open == nil || len(open.Pings) == 0 {
			return
		}
		height = open.Pings[len(open.Pings)-1].Height
		// Straight to starboard of a fish that makes way: what comes back from a slant range was
		// sent at the fix and answers for where it is half the way later.
		sin, cos := math.Sincos(p.Fix.Heading)
		courseSin, courseCos := math.Sincos(p.Fix.Course)
		for k, v := range p.Starboard[0] {
			slant := (float64(k) + 0.5) * bin
			if slant <= height {
				continue
			}
			across := math.Sqrt(slant*slant - height*height)
			ahead := p.Fix.Speed * slant / ex.Desk.SoundSpeed
			e, n := grid.ToUTM(p.Fix.X+across*cos+ahead*courseSin, p.Fix.Y-across*sin+ahead*courseCos)
			c := cell{int(math.Floor(e / ex.Desk.MosaicCell)), int(math.Floor(n / ex.Desk.MosaicCell))}
			sums[c] = [2]float64{sums[c][0] + float64(v), sums[c][1] + 1}
		}
	}})
	for !s.Done() {
		s.Advance(100)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	var f coco.File
	if err := json.Unmarshal(files.Content(rasters.AnnotationFile), &f); err != nil {
		t.Fatal(err)
	}
	if len(files.Files()) != 2*len(f.Images)+1 || len(f.Images) == 0 {
		t.Fatalf("%d files of %d tiles", len(files.Files()), len(f.Images))
	}
	names := map[int]string{}
	for _, c := range f.Categories {
		names[c.ID] = c.Name
	}
	compared, off, filled := 0, 0, 0
	east, _ := grid.ToUTM(ex.Lines[0].A.X+8, 0) // port's samples are not summed here
	middle := int(east / ex.Desk.MosaicCell)
	images := map[int]coco.Image{}
	for _, img := range f.Images {
		images[img.ID] = img
		deep, shallow := decode(t, &files, img.Deep).(*image.Gray16), decode(t, &files, img.File).(*image.Gray)
		if deep.Rect.Dx() != img.Width || deep.Rect.Dy() != img.Height || img.Geometry != "mosaic" || img.First != nil || img.Side != "" || img.Across != ex.Desk.MosaicCell || img.EPSG != grid.EPSG() {
			t.Fatalf("%v is said to be %+v", deep.Rect, img)
		}
		west, north := int(math.Round(*img.Easting/img.Across)), int(math.Round(*img.Northing/img.Across))
		for y := range img.Height {
			for x := range img.Width {
				at := cell{west + x, north - 1 - y}
				sum := sums[at]
				got := deep.Gray16At(x, y).Y
				if level := 255 * math.Log(float64(max(got, 1))) / math.Log(65535); math.Abs(float64(shallow.GrayAt(x, y).Y)-level) > 0.51 {
					t.Fatalf("level %d of %d counts", shallow.GrayAt(x, y).Y, got)
				}
				if sum[1] == 0 && got != 0 {
					filled++
					near := false // two cells that were recorded lie opposite each other
					for _, d := range [][4]int{{0, 1, 0, -1}, {1, 0, -1, 0}, {1, 1, -1, -1}, {1, -1, -1, 1}} {
						for a := 1; a <= 2; a++ {
							for b := 1; a+b <= 3; b++ {
								near = near || sums[cell{at.east + a*d[0], at.north + a*d[1]}][1] > 0 && sums[cell{at.east + b*d[2], at.north + b*d[3]}][1] > 0
							}
						}
					}
					if !near && at.east > middle {
						t.Errorf("a pixel at %v of %s shows %d counts, and nothing was recorded about it", at, img.File, got)
					}
				}
				if sum[1] < 3 {
					continue // where a cell has few, one that falls beside it by rounding is much
				}
				compared++
				if math.Abs(float64(got)-sum[0]/sum[1]) > 1+0.1*sum[0]/sum[1] {
					off++
				}
			}
		}
	}
	if compared < 5000 || off > compared/50 {
		t.Errorf("%d of %d pixels are not what was recorded there", off, compared)
	}
	if filled < 100 {
		t.Errorf("%d pixels between pings are filled", filled)
	}
	found := map[coco.Role]coco.Annotation{}
	for _, a := range f.Annotations {
		if a.Area > found[a.Role].Area {
			found[a.Role] = a
		}
	}
	echo, shadow, whole := found[coco.Echo], found[coco.Shadow], found[coco.Whole]
	if names[echo.Category] != "block echo" || names[shadow.Category] != "block shadow" || names[whole.Category] != "block" || echo.Image != shadow.Image {
		t.Fatalf("found %v", found)
	}
	if echo.Area+shadow.Area != whole.Area || !slices.Contains(whole.Linked, echo.ID) || !slices.Contains(echo.Linked, shadow.ID) {
		t.Errorf("%v and %v are not the whole %v, or not joined", echo.Area, shadow.Area, whole.Area)
	}
	img := images[echo.Image]
	at := func(a coco.Annotation, right, down float64) (x, y float64) {
		return grid.FromUTM(*img.Easting+(a.Box[0]+right*a.Box[2])*img.Across, *img.Northing-(a.Box[1]+down*a.Box[3])*img.Across)
	}
	// The block is 2 m wide and 1.2 m high, its middle at 130, 300.
	if x, y := at(echo, 0.5, 0.5); math.Hypot(x-130, y-300) > 1.2 {
		t.Errorf("the middle of its echo lies at %.2f, %.2f, the block at 130, 300", x, y)
	}
	_, y := at(shadow, 0.5, 0.5)
	end, _ := at(shadow, 1, 0.5)
	line := ex.Lines[0].A.X
	if want := line + (131-line)*height/(height-1.2); math.Abs(end-want) > 1 || math.Abs(y-300) > 0.6 {
		t.Errorf("its shadow ends at %.2f m east, %.2f m north, want %.2f and 300", end, y, want)
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
