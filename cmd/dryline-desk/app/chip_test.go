package app

import (
	"image/color"
	"math"
	"testing"

	"dryline/cmd/dryline-desk/crew"
	"dryline/cmd/dryline-desk/panes"
	"dryline/sim/survey"
)

// A chip has the contact in its middle, what lies farther out on the side away from the track, and what is newer
// at the top: worked out from the metres of a bin and a row, on either side.
func TestAChipIsTheGroundAboutTheContact(t *testing.T) {
	const scale, height, speed, every, at = 50.0, 6.0, 2.0, 0.1, 300 // a bin is 0.1 m, a row 0.2 m
	for beam, name := range []string{"port", "starboard"} {
		w := &waterfall{rows: newRowStore(1, nil), post: &post{}}
		slant := math.Hypot(30, height)
		for n := range 600 {
			side := make([]uint8, panes.RowBins)
			for i := range side {
				side[i] = 80
			}
			if n == at || n == at+1 { // the echo
				side[int(slant/0.1)] = 240
				side[int(slant/0.1)+1] = 240
			}
			if n >= at+20 && n < at+26 { // 4 to 5 m ahead, 5 to 6 m farther out
				for i := range 10 {
					side[int((slant+5)/0.1)+i] = 16
				}
			}
			p := crew.Ping{Number: uint64(n + 1), Fix: survey.Fix{Time: float64(n) * every, Speed: speed}, RangeScale: scale}
			p.Rows, p.Plain = [][2][]uint8{{side, side}}, [][2][]uint8{{side, side}}
			w.history = append(w.history, p)
			w.rows.add(&p, height/scale)
		}
		var grey [256]color.RGBA
		for v := range grey {
			grey[v] = color.RGBA{uint8(v), uint8(v), uint8(v), 255}
		}
		const side = 96 // four pixels a metre
		pixels := w.cut(&survey.Contact{Range: 30, Altitude: height, Side: name}, at, speed*every, side, grey)
		mean := func(x0, y0, x1, y1 float64) (sum float64) { // metres from the contact, to the right and ahead
			n := 0.0
			for y := int(side/2 - 4*y1); y < int(side/2-4*y0); y++ {
				for x := int(side/2 + 4*x0); x < int(side/2+4*x1); x++ {
					sum += float64(pixels[4*(y*side+x)])
					n++
				}
			}
			return sum / n
		}
		out := func(x0, x1 float64) (float64, float64) {
			if beam == 0 {
				return -x1, -x0
			}
			return x0, x1
		}
		x0, x1 := out(0, 0.25)
		if v := mean(x0, 0, x1, 0.25); v < 150 {
			t.Errorf("%s: %.0f in the middle, want the echo", name, v)
		}
		x0, x1 = out(5.25, 5.75)
		if v := mean(x0, 4.25, x1, 4.75); v > 40 {
			t.Errorf("%s: %.0f ahead and farther out, want the dark", name, v)
		}
		x0, x1 = out(-5.75, -5.25)
		if v := mean(x0, -4.75, x1, -4.25); v < 70 || v > 90 {
			t.Errorf("%s: %.0f astern and nearer, want even ground", name, v)
		}
	}
}
