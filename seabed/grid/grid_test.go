package grid_test

import (
	"math"
	"runtime"
	"strings"
	"testing"

	"dryline/seabed/grid"
)

func TestPointsOnAGrid(t *testing.T) {
	var xyz, csv strings.Builder
	csv.WriteString("id;Lon;Lat;Depth_m\n")
	for j := range 5 {
		for i := range 4 {
			if i == 2 && j == 1 {
				continue // a hole
			}
			x, y, z := 318000+2.5*float64(i), 5230000+2*float64(j), 10+float64(i)+2*float64(j)
			xyz.WriteString(strings.Join([]string{ftoa(x), ftoa(y), ftoa(z)}, " ") + "\r\n")
			csv.WriteString("7;" + ftoa(-33.4+1e-5*float64(i)) + ";" + ftoa(47.2+1e-5*float64(j)) + ";" + ftoa(z) + "\n")
		}
	}
	for name, text := range map[string]string{"a.xyz": xyz.String(), "a.csv": csv.String()} {
		o := grid.Options{Name: name}
		if name == "a.xyz" {
			o.EPSG = 32625
		}
		r, err := grid.Read([]byte(text), o)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if r.NX != 4 || r.NY != 5 || r.Holes != 1 || r.Z[0] != -10 || r.Z[4*4+3] != -21 {
			t.Errorf("%s: %d x %d, %d holes, %g to %g", name, r.NX, r.NY, r.Holes, r.Z[0], r.Z[19])
		}
		if name == "a.csv" && !r.Geographic() {
			t.Errorf("columns of longitude and latitude are EPSG:%d", r.EPSG)
		}
	}
	scattered := "318000 5230000 10\n318001.3 5230000.4 12\n318003 5230004 9\n318004 5230001.1 8\n318000.4 5230000.2 14\n"
	if _, err := grid.Read([]byte(scattered), grid.Options{Name: "s.xyz", EPSG: 32625}); err == nil || !strings.Contains(err.Error(), "size of cells") {
		t.Errorf("scattered soundings without cells: %v", err)
	}
	r, err := grid.Read([]byte(scattered), grid.Options{Name: "s.xyz", EPSG: 32625, Cell: 2})
	if err != nil || r.Z[0] != -12 { // the mean of 10, 12 and 14
		t.Errorf("scattered soundings in cells of 2 m: %v, %v", r, err)
	}
}

func ftoa(v float64) string {
	return strings.TrimRight(strings.TrimRight(strconvFormat(v), "0"), ".")
}

func TestFaultsOfFiles(t *testing.T) {
	tiny := "ncols 2\nnrows 2\nxllcorner 0\nyllcorner 0\ncellsize 1\n"
	for _, c := range []struct{ name, data, want string }{
		{"a.asc", tiny + "1 2 3", "holds 3 of 4"},
		{"a.asc", tiny + "1 2 3 x", "want a number"},
		{"a.asc", tiny + "-1 2 -3 4", "up or down"},
		{"a.asc", tiny + "1 2 3 99999", "value for missing cells"},
		{"a.asc", "ncols 60000\nnrows 60000\ncellsize 1\n1 2", "do not hold"},
		{"a.asc", "ncols x\n", "want a number"},
		{"a.asc", "hello", "no ESRI ASCII grid"},
		{"a.tif", "hello", "no TIFF"},
		{"a.dat", "1 2 3\n", "no format that is known"},
		{"a.tif", "II*\x00\x08\x00\x00\x00", "cut short"},
		{"a.xyz", "1 2\n3 4\n", "line 1 has 2 columns"},
		{"a.csv", "a,b,c\n1,2,3\n", "names no column"},
		{"a.xyz", "1 2 3\n", "4 at least"},
	} {
		_, err := grid.Read([]byte(c.data), grid.Options{Name: c.name, EPSG: 32625})
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%.30q: %v, want %q", c.data, err, c.want)
		}
	}
	if _, err := grid.Read([]byte(tiny+"-1 -2 -3 -4"), grid.Options{Name: "a.asc"}); err == nil || !strings.Contains(err.Error(), "EPSG") {
		t.Errorf("no frame is said: %v", err)
	}
}

// A header that lies is refused before memory is taken for what it claims.
func TestALyingHeaderTakesNoMemory(t *testing.T) {
	head := func(w, h uint32) []byte {
		b := []byte("II*\x00\x08\x00\x00\x00")
		put16 := func(v uint16) { b = append(b, byte(v), byte(v>>8)) }
		put32 := func(v uint32) { b = append(b, byte(v), byte(v>>8), byte(v>>16), byte(v>>24)) }
		entries := [][3]uint32{{256, 4, w}, {257, 4, h}, {258, 3, 32}, {259, 3, 8}, {273, 4, 8}, {278, 4, h}, {279, 4, 20}, {339, 3, 3}}
		put16(uint16(len(entries)))
		for _, e := range entries {
			put16(uint16(e[0]))
			put16(uint16(e[1]))
			put32(1)
			put32(e[2])
		}
		put32(0)
		return b
	}
	lies := map[string][]byte{
		"cells":     head(8000, 8000),
		"more":      head(1<<31, 1<<31),
		"one strip": head(1<<26, 1),
		"ascii":     []byte("ncols 8000\nnrows 8000\nxllcorner 0\nyllcorner 0\ncellsize 1\n1 2 3"),
	}
	for name, data := range lies {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		if _, err := grid.Read(data, grid.Options{Name: "a.asc", EPSG: 32625}); err == nil {
			t.Errorf("%s: it was read", name)
		}
		runtime.ReadMemStats(&after)
		if took := after.TotalAlloc - before.TotalAlloc; took > 1<<20 {
			t.Errorf("%s: %d bytes were taken for a file of %d", name, took, len(data))
		}
	}
}

// Between the nodes of a plane lies the plane, and a hole in it is filled with it.
func TestAPlaneStaysAPlane(t *testing.T) {
	r := read(t, "testdata/slope.asc", grid.Options{EPSG: 32625})
	g, err := r.Under(west+20, south+10, 100, 60, 0.5)
	if err != nil {
		t.Fatal(err)
	}
	filled, unknown := g.Fill(12)
	if filled != 1 || unknown != 0 {
		t.Fatalf("%d cells filled, %d unknown, want the one hole", filled, unknown)
	}
	for _, p := range [][2]float64{{0, 0}, {15, 5}, {16.2, 7.7}, {40.1, 33.3}, {99, 59}} {
		want := plane(0, 0) - (p[0]+20)/5 - 2*(p[1]+10)/5 - 0.5
		if got := g.HeightAt(p[0], p[1]); math.Abs(got-want) > 0.01 {
			t.Errorf("the floor at %v is %g, want %g", p, got, want)
		}
	}
	if m := g.MarkAt(15, 5); m != grid.Filled {
		t.Errorf("the hole is marked %d, want filled", m)
	}
	if m := g.MarkAt(20, 5); m != grid.Known {
		t.Errorf("a cell beside the hole is marked %d, want known", m)
	}
	if m := g.MarkAt(1e4, 5); m != grid.Unknown {
		t.Errorf("beyond the edge is marked %d, want unknown", m)
	}
	if _, err := r.Under(0, 0, 100, 100, 0); err == nil {
		t.Error("a world elsewhere was laid on the raster")
	}
}

// What is too far from any value stays unknown.
func TestHolesBeyondTheDistanceStayUnknown(t *testing.T) {
	g := &grid.Grid{DX: 1, DY: 1, NX: 21, NY: 21, Z: make([]float32, 441), Mark: make([]grid.Mark, 441)}
	for k := range g.Z {
		g.Z[k] = -10
		if math.Hypot(float64(k%21-10), float64(k/21-10)) < 6 {
			g.Z[k] = float32(math.NaN())
		}
	}
	g.Fill(3)
	for x := range 21 {
		away := 6 - math.Abs(float64(x-10)) // from the rim, within a cell
		m := g.MarkAt(float64(x), 10)
		if z := g.HeightAt(float64(x), 10); z != -10 {
			t.Errorf("at %d the floor is %g", x, z)
		}
		switch {
		case away <= 0 && m != grid.Known, away > 0 && away <= 3 && m != grid.Filled, away > 4 && m != grid.Unknown:
			t.Errorf("%g m inside the rim it is marked %d", away, m)
		}
	}
}

func FuzzRead(f *testing.F) {
	for _, name := range []string{"float32-tiles-deflate-3.tif", "float64-strips-lzw-2.tif", "int16-strips-none-big.tif", "float32-strips-lzw-3-bigtiff.tif", "slope.asc"} {
		f.Add(readFile(f, "testdata/"+name), name)
	}
	f.Add([]byte("x,y,z\n1,2,3\n2,2,3\n1,3,4\n2,3,5\n"), "a.csv")
	f.Fuzz(func(t *testing.T, data []byte, name string) {
		r, err := grid.Read(data, grid.Options{Name: name, EPSG: 32625})
		if err != nil {
			return
		}
		if len(r.Z) != r.NX*r.NY || r.NX < 1 || r.NY < 1 || !(r.DX > 0) || !(r.DY > 0) {
			t.Fatalf("%d x %d cells of %g x %g, %d values", r.NX, r.NY, r.DX, r.DY, len(r.Z))
		}
		if g, err := r.Under(r.X0, r.Y0, 2*r.DX, 2*r.DY, 0); err == nil {
			g.Fill(3 * g.Cell())
			if z := g.HeightAt(r.DX, r.DY); math.IsNaN(z) {
				t.Fatal("a filled grid has no height")
			}
		}
	})
}
