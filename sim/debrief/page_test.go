package debrief

import (
	"bytes"
	"encoding/base64"
	"encoding/xml"
	"errors"
	"fmt"
	"image"
	"image/png"
	"io"
	"slices"
	"strings"
	"testing"

	"dryline/vessel/sea"
)

// element is a start tag of a page, with its attributes.
type element struct {
	name  string
	attrs map[string]string
}

// parse reads a page as XML, which asks more of it than HTML does: every tag
// closed and nested, every attribute quoted, every entity known.
func parse(t *testing.T, page string) (elements []element, text string) {
	t.Helper()
	d := xml.NewDecoder(strings.NewReader(page))
	d.Strict = true
	d.Entity = xml.HTMLEntity
	var words strings.Builder
	depth := 0
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatalf("page: %v", err)
		}
		switch v := token.(type) {
		case xml.StartElement:
			depth++
			e := element{name: v.Name.Local, attrs: map[string]string{}}
			for _, a := range v.Attr {
				e.attrs[a.Name.Local] = a.Value
			}
			elements = append(elements, e)
		case xml.EndElement:
			depth--
		case xml.CharData:
			words.Write(v)
		}
	}
	if depth != 0 {
		t.Fatalf("page: %d tags are left open", depth)
	}
	return elements, words.String()
}

func page(t *testing.T, r Report, pictures []Picture) string {
	t.Helper()
	var out bytes.Buffer
	if err := WriteHTML(&out, r, pictures); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

func picture(t *testing.T) []byte {
	t.Helper()
	img := image.NewGray(image.Rect(0, 0, 3, 2))
	img.Pix[4] = 200
	var out bytes.Buffer
	if err := png.Encode(&out, img); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

func TestPage(t *testing.T) {
	ex := small(t)
	current, err := sea.NewProfile([]sea.Current{{Speed: 0.3, Set: 1.4}})
	if err != nil {
		t.Fatal(err)
	}
	ex.Sea.Current = current
	r := report(run(t, ex))
	pic := picture(t)
	text := page(t, r, []Picture{{Title: "Chart", Caption: "The mosaic with its lines", PNG: pic}})
	for _, word := range []string{"http://", "https://", "//cdn", "<script", "url(", "@import", "NaN", "ZgotmplZ", "%!"} {
		if strings.Contains(text, word) {
			t.Errorf("page: holds %q, want it to stand alone", word)
		}
	}
	elements, words := parse(t, text)
	count := map[string]int{}
	for _, e := range elements {
		count[e.name]++
		for _, a := range []string{"src", "href", "srcset", "action", "onload", "onclick", "style"} {
			if v, ok := e.attrs[a]; ok && !(e.name == "img" && strings.HasPrefix(v, "data:image/png;base64,")) {
				t.Errorf("<%s %s=%q>: want no reference out of the page", e.name, a, v)
			}
		}
		if e.name == "polyline" {
			if n := len(strings.Fields(e.attrs["points"])); n < 2 || n > MaxHeights {
				t.Errorf("curve: got %d points, want 2 to %d", n, MaxHeights)
			}
		}
		if e.name == "img" {
			data, err := base64.StdEncoding.DecodeString(strings.TrimPrefix(e.attrs["src"], "data:image/png;base64,"))
			if err != nil || !bytes.Equal(data, pic) {
				t.Errorf("picture: got %d bytes (%v), want those given", len(data), err)
			}
		}
	}
	// Height, and off line of the vessel and the fish, layback and askew,
	// on two lines; on the timeline the height on each.
	if count["img"] != 1 || count["polyline"] != 2*6 {
		t.Errorf("page: got %d pictures and %d curves, want 1 and 12", count["img"], count["polyline"])
	}
	// 33.4 degrees west lies in UTM zone 25, which runs from 36 to 30 west; the
	// EPSG registry numbers the northern zones 32601 to 32660.
	for _, want := range []string{
		"training aid", "Not for navigation", "Never evidence that an area is clear of hazards", "ordnance", "diving",
		"lifting", "towing", "Fenwarra Inlet", "EPSG:32625", "The mosaic with its lines", "block", "Two short lines",
	} {
		if !strings.Contains(words, want) {
			t.Errorf("page: got no %q in it", want)
		}
	}
	for _, it := range r.Score.Items {
		if !strings.Contains(words, it.Why) {
			t.Errorf("page: got no %q in it", it.Why)
		}
	}
}

// Names come from files that anyone may write.
func TestPageEscapes(t *testing.T) {
	const nasty = `"><script>alert('x')</script>&<b onload=1>`
	r := report(start(t, small(t)))
	r.Exercise.Title, r.Exercise.Place, r.PartialReason, r.Another, r.Trainee = nasty, nasty, nasty, nasty, nasty
	r.LinesNotRun = []string{nasty}
	r.Targets[0].Name, r.Targets[0].Kind = nasty, nasty
	r.FalseContacts = []FalseContact{{Number: 1, Lines: []string{nasty}}}
	r.Coverage.Holidays = []Holiday{{Near: nasty}}
	r.Score.Items[0].Causes, r.Score.Items[0].Why = nil, nasty
	r.Score.Better, r.Score.Well = []Cause{{Says: nasty}}, []string{nasty}
	r.Score.Gates[0].Why = nasty
	r.Timeline.Lines = []Stretch{{What: nasty, To: 9}}
	r.Timeline.Hints = []Stretch{{Kind: "note", Says: nasty, To: 9}}
	r.Lines = []Line{{Name: nasty, Series: Series{
		Along: []float64{0, 9}, Altitude: []float64{9, 9}, OffLine: []float64{0, 1}, FishOff: []float64{0, 1},
	}}}
	elements, words := parse(t, page(t, r, []Picture{{nasty, nasty, picture(t), false}, {nasty, nasty, picture(t), true}}))
	known := strings.Fields("html head meta title style body main header div h1 h2 h3 p dl dt dd b small span strong section aside ul ol li table caption thead tbody tr th td br svg text rect line polyline path title figure img figcaption footer")
	for _, e := range elements {
		if !slices.Contains(known, e.name) {
			t.Errorf("page: got a <%s>", e.name)
		}
		if e.name == "b" && len(e.attrs) > 0 {
			t.Errorf("page: got <b %v>", e.attrs)
		}
	}
	if n := strings.Count(words, nasty); n < 11 {
		t.Errorf("page: got the name %d times as words, want at least 11", n)
	}
}

func TestNumbers(t *testing.T) {
	v := func(f float64) *float64 { return &f }
	for _, row := range []struct{ got, want string }{
		{number(1, -0.04), "0.0"},
		{number(1, -2.25), "−2.2"},
		{number(0, 1234.5), "1234"},
		{maybe(1, nil), "–"},
		{signed(1, v(3)), "+3.0"},
		{signed(1, v(0.01)), "0.0"},
		{signed(1, v(-3)), "−3.0"},
		{shareOf(99.97), "99.9"},
		{shareOf(100), "100.0"},
		{duration(59.6), "1 min 00 s"},
		{duration(3723), "1 h 02 min"},
		{fmt.Sprint(ticks(0, 25, 4)), "[0 10 20]"},
		{fmt.Sprint(ticks(-6.4, 6.4, 4)), "[-5 0 5]"},
	} {
		if row.got != row.want {
			t.Errorf("got %q, want %q", row.got, row.want)
		}
	}
}
