package tiles

import (
	"bytes"
	"encoding/json"
	"fmt"
	"image"
	"image/png"
	"io"
	"maps"
	"math"
	"slices"
	"sync"

	"dryline/seabed"
	"dryline/sim"
	"dryline/sim/dataset/coco"
	"dryline/sim/product"
	"dryline/sim/provenance"
)

// fewestPixels is how large a mask has to be to be annotated.
const fewestPixels = 4

// Sheet gathers the annotations of the tiles of a scene.
type Sheet struct {
	objects []seabed.Object
	out     coco.File
}

// NewSheet is one without tiles.
func NewSheet(s *sim.Session) *Sheet {
	return &Sheet{objects: s.Exercise.Seabed.Objects, out: coco.File{
		Info: coco.Info{
			Description: "Synthetic side-scan sonar: no evidence of anything at sea", Version: fmt.Sprintf("engine %d", provenance.Engine), Synthetic: true,
			Engine: provenance.Engine, Hash: s.Exercise.Hash, Seed: &s.Seeds.One,
		},
		Licenses:   Licenses(),
		Categories: Categories(), Images: []coco.Image{}, Annotations: []coco.Annotation{},
	}}
}

// kinds are all kinds of thing, in the order of their categories.
func kinds() []string { return append(slices.Sorted(maps.Keys(seabed.Kinds)), "pipeline") }

// Licenses are those that images refer to.
func Licenses() []coco.License {
	return []coco.License{{ID: 1, Name: provenance.Licence, URL: "https://creativecommons.org/publicdomain/zero/1.0/"}}
}

// Categories are those of every set: for each kind of object the whole, its echo and its
// shadow.
func Categories() []coco.Category {
	var all []coco.Category
	for _, kind := range kinds() {
		for _, role := range coco.Roles() {
			name := kind
			if role != coco.Whole {
				name += " " + string(role)
			}
			all = append(all, coco.Category{ID: len(all) + 1, Name: name, Super: string(role)})
		}
	}
	return all
}

// categoryOf is the category of a role of an object, by its number.
func (s *Sheet) categoryOf(number int, role int) int {
	kind := "pipeline"
	if number <= len(s.objects) {
		kind = s.objects[number-1].Kind
	}
	return slices.Index(kinds(), kind)*len(coco.Roles()) + role + 1
}

// Add adds a tile and what lies in it: of each object the whole, its echo and its shadow,
// as far as they are to be seen. echo and shadow are numbers of objects, pixel by pixel.
func (s *Sheet) Add(img coco.Image, echo, shadow []uint16) {
	img.ID = len(s.out.Images) + 1
	s.out.Images = append(s.out.Images, img)
	var numbers []uint16
	for _, list := range [][]uint16{echo, shadow} {
		for _, o := range list {
			if o != 0 && !slices.Contains(numbers, o) {
				numbers = append(numbers, o)
			}
		}
	}
	slices.Sort(numbers)
	for _, o := range numbers {
		masks := [3]*coco.Mask{}
		for i := range masks {
			masks[i] = coco.NewMask(img.Width, img.Height)
		}
		for i := range echo {
			echo, shadow := echo[i] == o, shadow[i] == o
			masks[0].Set[i], masks[1].Set[i], masks[2].Set[i] = echo || shadow, echo, shadow
		}
		from := len(s.out.Annotations)
		for i, m := range masks {
			if m.Area() < fewestPixels {
				continue
			}
			a := coco.Annotate(m, img.ID, s.categoryOf(int(o), i))
			a.ID, a.Object, a.Role = len(s.out.Annotations)+1, int(o), coco.Roles()[i]
			s.out.Annotations = append(s.out.Annotations, a)
		}
		for i := from; i < len(s.out.Annotations); i++ {
			s.out.Annotations[i].Linked = []int{}
			for j := from; j < len(s.out.Annotations); j++ {
				if j != i {
					s.out.Annotations[i].Linked = append(s.out.Annotations[i].Linked, s.out.Annotations[j].ID)
				}
			}
		}
	}
}

// Write writes the file of annotations.
func (s *Sheet) Write(out io.Writer) error {
	e := json.NewEncoder(out)
	e.SetEscapeHTML(false)
	return e.Encode(&s.out)
}

// WritePictures writes a tile of a session as recorded, 16 bits, and by its level, 8 bits. Both
// say where they come from.
func WritePictures(to product.Sink, s *sim.Session, img *coco.Image, counts []uint16) error {
	says := product.Provenance(s)
	at := image.Rect(0, 0, img.Width, img.Height)
	deep, shallow := image.NewGray16(at), image.NewGray(at)
	level := grey()
	for i, c := range counts {
		deep.Pix[2*i], deep.Pix[2*i+1] = uint8(c>>8), uint8(c)
		shallow.Pix[i] = level[c]
	}
	if err := encode(to, img.File, shallow, says); err != nil {
		return err
	}
	return encode(to, img.Deep, deep, says)
}

func encode(to product.Sink, name string, picture image.Image, says []product.Text) error {
	return to.Write(name, func(out io.Writer) error {
		e := png.Encoder{CompressionLevel: png.BestSpeed}
		var b bytes.Buffer
		if err := e.Encode(&b, picture); err != nil {
			return err
		}
		_, err := out.Write(product.WithTexts(b.Bytes(), says))
		return err
	})
}

// grey is a count in 8 bits, even steps of decibels.
var grey = sync.OnceValue(func() *[math.MaxUint16 + 1]uint8 {
	table := new([math.MaxUint16 + 1]uint8)
	for c := range table {
		table[c] = uint8(math.Round(255 * math.Log10(float64(max(c, 1))) / math.Log10(math.MaxUint16)))
	}
	return table
})
