package scenarios

import (
	"fmt"
	"math"
	"path/filepath"
	"slices"
	"strings"

	"dryline/seabed/grid"
	"dryline/sim/exercise"
	"dryline/vessel/nav/geodesy"
)

type depthsSection struct {
	File   string  `key:"file" runes:"200" absent:"the floor has a relief of its own" doc:"File of depths, in the folder of this one: GeoTIFF, ESRI ASCII grid, .xyz or .csv."`
	Hash   string  `key:"sha256" runes:"64" absent:"there is no file" doc:"SHA-256 of the file, 64 hexadecimal digits: the exercise is the same only on the same depths."`
	Values string  `key:"values" enum:"depthvalues" default:"auto" doc:"Whether values count up (heights) or down (depths); auto takes what the file says, or the sign of all of them."`
	EPSG   int     `key:"epsg" min:"0" max:"32767" default:"0" doc:"EPSG code of its coordinates, a UTM zone on WGS84 or 4326; 0 is as the file says."`
	Cell   float64 `key:"cell_m" unit:"m" min:"0" max:"1000" default:"0" doc:"Size of the cells that scattered soundings are averaged in; 0 is for points on a grid."`
	Within float64 `key:"fill_holes_m" unit:"m" min:"0" max:"5000" default:"20" doc:"Holes are interpolated this far from a value; beyond it the nearest one stands in, and nothing is known."`
	Water  float64 `key:"water_above_zero_m" unit:"m" min:"-20" max:"20" default:"0" doc:"How much higher the still water of the exercise stands than the zero of the file."`
}

// products are the files of a survey that a file of depths could be mistaken for: it is handed over
// beside them.
var products = []string{"mosaic.tif", "coverage.tif", "mosaic-remade.tif", "coverage-remade.tif", "track.csv", "bottom-track.csv", "line-log.csv", "contact-report.csv"}

// lay puts the depths under the world.
func (d depthsSection) lay(c *checker, place geodesy.LocalGrid) {
	const path = "seabed.depths"
	if !c.sound(path, "seabed.east_m", "seabed.north_m", "seabed.depth_m", "place.latitude_deg", "place.longitude_deg") || !c.given(path) {
		return
	}
	for _, key := range []string{".file", ".sha256"} {
		if !c.given(path + key) {
			c.fault(path+key, "", "is missing", "")
		}
	}
	if !c.given(path+".file") || !c.given(path+".sha256") {
		return
	}
	if !filepath.IsLocal(d.File) || strings.ContainsAny(d.File, `/\`) {
		c.fault(path+".file", shorten(d.File), "is not a file in the folder of the exercise", "a name alone")
		return
	}
	if slices.Contains(products, strings.ToLower(d.File)) {
		c.fault(path+".file", shorten(d.File), "is the name of a file that every survey writes", "another name")
		return
	}
	if c.given("seabed.relief") {
		c.fault("seabed.relief", "", "stands beside measured depths", "one of the two")
	}
	hash := strings.ToLower(d.Hash)
	if !isHash(hash) {
		c.fault(path+".sha256", shorten(d.Hash), "is no SHA-256", "64 hexadecimal digits")
		return
	}
	kept, ok := shelf.get(hash)
	if !ok {
		c.fault(path+".file", shorten(d.File), "is not at hand", "the file with this SHA-256, in the folder of the exercise")
		return
	}
	o := grid.Options{Name: d.File, Values: grid.Values(d.Values), EPSG: d.EPSG, Cell: d.Cell}
	r, err := kept.raster(o)
	if err != nil {
		c.fault(path+".file", shorten(d.File), "cannot be used: "+err.Error(), "")
		return
	}
	s := c.file.Seabed
	g, err := LayDepths(r, place, s.East, s.North, d.Water)
	if err != nil {
		c.fault(path+".file", shorten(d.File), "cannot be used: "+err.Error(), "")
		return
	}
	g.Fill(d.Within)
	low, mean, high := g.Span(0, 0, s.East, s.North)
	if s.Depth < math.Floor(-high) || s.Depth > math.Ceil(-low) {
		c.fault("seabed.depth_m", c.number(s.Depth), "is not the mean of the depths measured", c.number(math.Round(-mean*10)/10)+" m")
		return
	}
	c.depths = g
	c.files = append(c.files, exercise.File{Name: d.File, Hash: hash, Data: kept.data})
}

// LayDepths lays a raster of depths under a world of (east, north) metres whose still
// water stands water metres higher than the raster's zero. Of a raster in another frame
// than the world's it takes nodes as far apart as its cells are on the ground.
func LayDepths(r *grid.Raster, place geodesy.LocalGrid, east, north, water float64) (*grid.Grid, error) {
	zone, south := r.UTM()
	if zone == place.Zone() && south == place.South() {
		return r.Under(place.OriginEasting, place.OriginNorthing, east, north, water)
	}
	if r.Geographic() {
		const metresPerDegree = 111_320
		lat, _ := place.ToLatLon(east/2, north/2).Degrees()
		step := min(r.DY, r.DX*math.Cos(lat*degree)) * metresPerDegree
		return r.Through(func(x, y float64) (fx, fy float64) {
			lat, lon := place.ToLatLon(x, y).Degrees()
			return lon, lat
		}, step, east, north, water)
	}
	other, err := geodesy.UTM(zone, south)
	if err != nil {
		return nil, err
	}
	if !other.Covers(place.ToLatLon(0, 0)) {
		return nil, fmt.Errorf("its zone, UTM %s, does not reach where the world lies", other)
	}
	return r.Through(func(x, y float64) (fx, fy float64) { return other.Forward(place.ToLatLon(x, y)) },
		min(r.DX, r.DY), east, north, water)
}
