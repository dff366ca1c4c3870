package coco

import (
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// unpack decodes the format's text, after rleFrString of the reference code, and fills a
// picture row by row.
func unpack(s string, width, height int) []bool {
	var runs []int
	for p := 0; p < len(s); {
		x, k, more := 0, 0, true
		for more {
			c := int(s[p]) - 48
			x |= (c & 0x1f) << (5 * k)
			more = c&0x20 != 0
			p++
			k++
			if !more && c&0x10 != 0 {
				x |= -1 << (5 * k)
			}
		}
		if len(runs) > 2 {
			x += runs[len(runs)-2]
		}
		runs = append(runs, x)
	}
	out := make([]bool, width*height)
	at, set := 0, false
	for _, n := range runs {
		for range n {
			out[at%height*width+at/height] = set
			at++
		}
		set = !set
	}
	return out
}

func block(width, height, x0, x1, y0, y1 int) *Mask {
	m := NewMask(width, height)
	for y := y0; y < y1; y++ {
		for x := x0; x < x1; x++ {
			m.Set[y*width+x] = true
		}
	}
	return m
}

// Vectors worked with the reference code (cocodataset/cocoapi, common/maskApi.c): 4 rows by
// 5 columns with rows 1-2 of columns 1-3 set, and 100 by 100 with rows 10-29 of columns 20-49.
func TestRunsOfTheReference(t *testing.T) {
	m := block(5, 4, 1, 4, 1, 3)
	if diff := cmp.Diff([]int{5, 2, 2, 2, 2, 2, 5}, m.Runs()); diff != "" {
		t.Error(diff)
	}
	if got := Pack(m.Runs()); got != "5220003" || m.Area() != 6 || m.Box() != [4]float64{1, 1, 3, 2} {
		t.Errorf("%q, area %d, box %v", got, m.Area(), m.Box())
	}
	m = block(100, 100, 20, 50, 10, 30)
	if got := Pack(m.Runs()); !strings.HasPrefix(got, "jn1d0`200000") || len(m.Runs()) != 61 {
		t.Errorf("%q, %d runs", got, len(m.Runs()))
	}
}

func anyMask(t *rapid.T) *Mask {
	m := NewMask(rapid.IntRange(1, 14).Draw(t, "width"), rapid.IntRange(1, 14).Draw(t, "height"))
	for i := range m.Set {
		m.Set[i] = rapid.IntRange(0, 2).Draw(t, "set") > 0
	}
	return m
}

// Whatever is packed comes out again.
func TestPackedMasksComeOutAgain(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := anyMask(t)
		if got := unpack(Pack(m.Runs()), m.Width, m.Height); !slices.Equal(got, m.Set) {
			t.Fatalf("%v, was %v", got, m.Set)
		}
	})
}

// Polygons, filled by the rule of crossings at the middles of pixels, are the mask with its
// holes filled: every set pixel is in one, and no pixel that reaches the picture's edge over
// unset ones is.
func TestPolygonsOutlineTheMask(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := anyMask(t)
		polygons := m.Polygons()
		inside := func(x, y float64) bool {
			for _, p := range polygons {
				odd := false
				for i := 0; i < len(p); i += 2 {
					j := (i + 2) % len(p)
					if (p[i+1] > y) != (p[j+1] > y) && x < p[i]+(y-p[i+1])/(p[j+1]-p[i+1])*(p[j]-p[i]) {
						odd = !odd
					}
				}
				if odd {
					return true
				}
			}
			return false
		}
		outside := make([]bool, len(m.Set))
		var flood func(x, y int)
		flood = func(x, y int) {
			if x < 0 || y < 0 || x >= m.Width || y >= m.Height || m.Set[y*m.Width+x] || outside[y*m.Width+x] {
				return
			}
			outside[y*m.Width+x] = true
			for dx := -1; dx <= 1; dx++ {
				for dy := -1; dy <= 1; dy++ {
					flood(x+dx, y+dy)
				}
			}
		}
		for x := range m.Width {
			flood(x, 0)
			flood(x, m.Height-1)
		}
		for y := range m.Height {
			flood(0, y)
			flood(m.Width-1, y)
		}
		for i := range m.Set {
			x, y := i%m.Width, i/m.Width
			got := inside(float64(x)+0.5, float64(y)+0.5)
			if m.Set[i] && !got || outside[i] && got {
				t.Fatalf("pixel %d, %d: inside is %v, set %v, outside %v\n%v\n%v", x, y, got, m.Set[i], outside[i], m, polygons)
			}
		}
	})
}
