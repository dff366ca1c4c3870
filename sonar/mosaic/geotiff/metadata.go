package geotiff

import (
	"encoding/xml"
	"fmt"
	"strings"
	"unicode/utf8"
)

// Item is a name and a value of a file's metadata.
type Item struct{ Name, Value string }

// metadata is the text of the tag GDAL_METADATA: an XML fragment of items, of
// which those with a role belong to a band (GDAL's driver documentation, "GTiff
// -- GeoTIFF File Format", metadata section). Empty if there are none.
func (r *Raster[T]) metadata() string {
	type item struct {
		Name   string `xml:"name,attr"`
		Sample string `xml:"sample,attr,omitempty"`
		Role   string `xml:"role,attr,omitempty"`
		Value  string `xml:",chardata"`
	}
	var all struct {
		XMLName xml.Name `xml:"GDALMetadata"`
		Items   []item   `xml:"Item"`
	}
	for _, i := range r.Items {
		all.Items = append(all.Items, item{Name: i.Name, Value: i.Value})
	}
	if r.Band != "" {
		all.Items = append(all.Items, item{"DESCRIPTION", "0", "description", r.Band})
	}
	if r.Unit != "" {
		all.Items = append(all.Items, item{"UNITTYPE", "0", "unittype", r.Unit})
	}
	if len(all.Items) == 0 {
		return ""
	}
	var b strings.Builder
	if err := xml.NewEncoder(&b).Encode(all); err != nil {
		return "" // strings always encode
	}
	return escaped(b.String())
}

// escaped writes what is not 7-bit ASCII as XML character references.
func escaped(s string) string {
	var b strings.Builder
	for _, r := range s {
		if r < utf8.RuneSelf {
			b.WriteRune(r)
		} else {
			fmt.Fprintf(&b, "&#%d;", r)
		}
	}
	return b.String()
}
