package coco

// File is a whole file of annotations.
type File struct {
	Info        Info         `json:"info"`
	Licenses    []License    `json:"licenses"`
	Categories  []Category   `json:"categories"`
	Images      []Image      `json:"images"`
	Annotations []Annotation `json:"annotations"`
}

// Info holds what a file says of itself.
type Info struct {
	Description string `json:"description"`
	Version     string `json:"version"`
	Synthetic   bool   `json:"synthetic"`
	Engine      int    `json:"dryline_engine"`

	// Of a scene: what it was flown from.
	Hash string  `json:"exercise_sha256,omitempty"`
	Seed *uint64 `json:"seed,omitempty"`
}

// License is a licence that images refer to.
type License struct {
	ID   int    `json:"id"`
	Name string `json:"name"`
	URL  string `json:"url"`
}

// Category is a kind of object, or its echo or shadow; see [Role].
type Category struct {
	ID    int    `json:"id"`
	Name  string `json:"name"`
	Super string `json:"supercategory"`
}

// Image is a tile.
type Image struct {
	ID       int     `json:"id"`
	File     string  `json:"file_name"`
	Deep     string  `json:"file_name_16bit"` // the same as recorded, counts
	Width    int     `json:"width"`
	Height   int     `json:"height"`
	License  int     `json:"license"`
	Scene    string  `json:"scene"`
	Channel  string  `json:"channel"`
	Geometry string  `json:"geometry"`         // slant, ground or mosaic
	Across   float64 `json:"metres_per_pixel"` // across the track, by the sound speed entered; of a mosaic both ways

	// Of a waterfall.
	Line  string  `json:"line,omitempty"`
	Side  string  `json:"side,omitempty"`
	First *uint64 `json:"first_ping,omitempty"`      // number of the ping of row 0
	Range string  `json:"range_increases,omitempty"` // to the left or to the right

	// Of a mosaic, north up.
	Easting  *float64 `json:"easting,omitempty"` // of the upper left outer corner, metres
	Northing *float64 `json:"northing,omitempty"`
	EPSG     int      `json:"epsg,omitempty"`
}

// Role says what of an object an annotation is of.
type Role string

// The roles.
const (
	Whole  Role = "object" // echo and shadow together
	Echo   Role = "echo"
	Shadow Role = "shadow"
)

// Roles are all of them, in the order of their categories.
func Roles() []Role { return []Role{Whole, Echo, Shadow} }

// Annotation is one thing in an image.
type Annotation struct {
	ID       int         `json:"id"`
	Image    int         `json:"image_id"`
	Category int         `json:"category_id"`
	Box      [4]float64  `json:"bbox"`
	Area     float64     `json:"area"`
	Polygons [][]float64 `json:"segmentation"`
	RLE      RLE         `json:"segmentation_rle"`
	Crowd    int         `json:"iscrowd"`
	Object   int         `json:"object_id"` // number of the object in its scene
	Role     Role        `json:"role"`
	Linked   []int       `json:"linked"` // annotations of the same object in this image
}

// RLE is a mask by run lengths, packed as text.
type RLE struct {
	Size   [2]int `json:"size"` // height, width
	Counts string `json:"counts"`
}

// Annotate is the annotation of a mask in a category.
func Annotate(m *Mask, image, category int) Annotation {
	return Annotation{
		Image: image, Category: category, Box: m.Box(), Area: float64(m.Area()), Polygons: m.Polygons(),
		RLE: RLE{[2]int{m.Height, m.Width}, Pack(m.Runs())},
	}
}
