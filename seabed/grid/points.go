package grid

import (
	"bytes"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
)

// sounding is a line of a file of points.
type sounding struct{ x, y, z float64 }

// headings are the names of columns that are known, in small letters.
var headings = [3][]string{
	{"x", "e", "east", "easting", "east_m", "easting_m", "x_m", "lon", "long", "longitude", "lon_deg", "longitude_deg"},
	{"y", "n", "north", "northing", "north_m", "northing_m", "y_m", "lat", "latitude", "lat_deg", "latitude_deg"},
	{"z", "depth", "depth_m", "z_m", "elevation", "elevation_m", "height", "height_m", "d"},
}

// readPoints reads a point a line: x, y, z set apart by commas, semicolons, tabs or
// spaces; or by a line of headings the columns that it names.
func readPoints(data []byte, o Options) (*Raster, error) {
	columns := table{columns: [3]int{0, 1, 2}, values: Auto}
	var points []sounding
	number := 0
	for line := range bytes.Lines(data) {
		number++
		text := strings.TrimSpace(string(line))
		if number == 1 {
			text = strings.TrimPrefix(text, "\ufeff")
		}
		if text == "" || text[0] == '#' {
			continue
		}
		words := strings.FieldsFunc(text, func(c rune) bool { return c == ',' || c == ';' || c == ' ' || c == '\t' })
		if points == nil && len(words) > 0 {
			if _, err := strconv.ParseFloat(words[0], 64); err != nil {
				var missing string
				if columns, missing = headed(words); missing != "" {
					return nil, fmt.Errorf("line %d names no column of %s: want x, y, z, or east, north, depth, or lon, lat, depth", number, missing)
				}
				points = []sounding{}
				continue
			}
		}
		p, err := columns.read(words)
		if err != nil {
			return nil, fmt.Errorf("line %d has %v", number, err)
		}
		points = append(points, p)
	}
	if len(points) < 4 {
		return nil, fmt.Errorf("it holds %d points, want 4 at least", len(points))
	}
	r, err := gather(points, o.Cell)
	if err != nil {
		return nil, err
	}
	if columns.geographic {
		r.EPSG = wgs84
	}
	said := columns.values
	if said == Down && slices.ContainsFunc(points, func(p sounding) bool { return p.z < 0 }) {
		said = Auto // some write depths below zero all the same
	}
	return r, r.finish(o, said)
}

// table is which columns of a file hold what.
type table struct {
	columns    [3]int // of x, y and z
	values     Values // what z is, as far as its heading says
	geographic bool   // x and y are longitude and latitude
}

// read is the point of a line.
func (t *table) read(words []string) (sounding, error) {
	var p [3]float64
	for k, c := range t.columns {
		if c >= len(words) {
			return sounding{}, fmt.Errorf("%d columns, want %d", len(words), c+1)
		}
		v, err := strconv.ParseFloat(words[c], 64)
		if err != nil || math.IsInf(v, 0) || k < 2 && math.IsNaN(v) {
			return sounding{}, fmt.Errorf("%.20q, want a number", words[c])
		}
		p[k] = v
	}
	return sounding{p[0], p[1], p[2]}, nil
}

func heading(word string) string { return strings.ToLower(strings.Trim(word, `"'`)) }

// headed finds the columns by their headings, and says what it does not find.
func headed(words []string) (t table, missing string) {
	t.values = Auto
	for k, names := range headings {
		t.columns[k] = slices.IndexFunc(words, func(w string) bool { return slices.Contains(names, heading(w)) })
		if t.columns[k] < 0 {
			missing = [3]string{"easting", "northing", "depth"}[k]
		}
	}
	if missing != "" {
		return t, missing
	}
	t.geographic = strings.HasPrefix(heading(words[t.columns[0]]), "lon")
	switch z := heading(words[t.columns[2]]); {
	case strings.HasPrefix(z, "depth"), z == "d":
		t.values = Down
	case strings.HasPrefix(z, "elev"), strings.HasPrefix(z, "height"):
		t.values = Up
	}
	return t, ""
}

// gather makes a raster of points: one cell to each if they lie on a grid, or their
// mean in cells of a size.
func gather(points []sounding, cell float64) (*Raster, error) {
	r := &Raster{DX: cell, DY: cell}
	var nx, ny float64
	var okX, okY bool
	if cell > 0 {
		x, y := points[0].x, points[0].y
		x1, y1 := x, y
		for _, p := range points {
			x, x1, y, y1 = min(x, p.x), max(x1, p.x), min(y, p.y), max(y1, p.y)
		}
		r.X0, r.Y0 = math.Floor(x/cell)*cell+cell/2, math.Floor(y/cell)*cell+cell/2
		nx, ny = math.Floor((x1-r.X0)/cell+0.5)+1, math.Floor((y1-r.Y0)/cell+0.5)+1
		okX, okY = true, true
	} else {
		r.X0, r.DX, nx, okX = spaced(points, func(p sounding) float64 { return p.x })
		r.Y0, r.DY, ny, okY = spaced(points, func(p sounding) float64 { return p.y })
	}
	// A handful of points far apart claims no more than a bounded number of cells each.
	if !okX || !okY || nx < 2 || ny < 2 || nx*ny > float64(64*len(points)+1024) || nx*ny > most {
		if cell > 0 {
			return nil, fmt.Errorf("its %d points are strewn over %g x %g cells of %g: want larger cells", len(points), nx, ny, cell)
		}
		return nil, fmt.Errorf("its points do not lie on a grid: give the size of cells to average them in")
	}
	r.NX, r.NY = int(nx), int(ny)
	r.Z = make([]float32, r.NX*r.NY)
	sum, n := make([]float64, len(r.Z)), make([]float64, len(r.Z))
	for _, p := range points {
		if math.IsNaN(p.z) {
			continue
		}
		i, j := int(math.Round((p.x-r.X0)/r.DX)), int(math.Round((p.y-r.Y0)/r.DY))
		k := r.at(min(max(i, 0), r.NX-1), min(max(j, 0), r.NY-1))
		sum[k] += p.z
		n[k]++
	}
	for k := range r.Z {
		r.Z[k] = float32(sum[k] / n[k]) // NaN where there are none
	}
	return r, nil
}

// spaced finds the even step that one coordinate of all points goes by.
func spaced(points []sounding, of func(sounding) float64) (first, step, count float64, ok bool) {
	all := make([]float64, len(points))
	for i, p := range points {
		all[i] = of(p)
	}
	slices.Sort(all)
	first, last := all[0], all[len(all)-1]
	const same = 1e-7 // of the extent: rounding in the file
	step = math.Inf(1)
	for i := 1; i < len(all); i++ {
		if gap := all[i] - all[i-1]; gap > same*(last-first) {
			step = min(step, gap)
		}
	}
	if math.IsInf(step, 1) {
		return first, 1, 1, false
	}
	count = math.Round((last-first)/step) + 1
	step = (last - first) / (count - 1)
	for _, v := range all {
		k := (v - first) / step
		if math.Abs(k-math.Round(k)) > 0.1 {
			return first, step, count, false
		}
	}
	return first, step, count, true
}
