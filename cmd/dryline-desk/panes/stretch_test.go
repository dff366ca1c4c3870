package panes

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"dryline/cmd/dryline-desk/crew"
	"dryline/sonar/mosaic"
	"dryline/sonar/waterfall/picture"
)

// Of a mosaic painted with known greys all but two per cent at either end lie within the ramp, by sorting the
// greys themselves; a tile put in again takes the place of what it was; even ground is not drawn out beyond the
// bound; and before much is painted hardly anything changes.
func TestTheStretchIsByWhatIsPainted(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	painted := func(tiles int, from, to float64) (*Mosaic, []float64) {
		m := NewMosaic(0.25, 0, 0)
		var all []float64
		for k := range tiles {
			junk := &crew.Tile{I: k * mosaic.TileCells}
			for n := range junk.Grey {
				junk.Grey[n] = 255
			}
			m.Put(junk)
			tile := &crew.Tile{I: k * mosaic.TileCells}
			for n := range tile.Grey {
				if n%7 == 0 {
					continue // not painted
				}
				tile.Grey[n] = uint8(math.Round(255 * (from + (to-from)*rng.Float64())))
				all = append(all, float64(tile.Grey[n])/255)
			}
			m.Put(tile)
		}
		slices.Sort(all)
		return m, all
	}
	m, all := painted(40, 0.3, 0.8)
	s := Shade{Ramp: picture.Grey(), Stretch: m.Painted()}
	u := s.uniforms()
	tone := func(g float64) float64 { return (g + float64(u["Lift"].(float32))) * float64(u["Gain"].(float32)) }
	if low, high := tone(all[len(all)/50]), tone(all[len(all)*49/50]); math.Abs(low-rampLow) > 0.01 || math.Abs(high-rampHigh) > 0.01 {
		t.Errorf("2 %% of what is painted lies under %.3f of the ramp and 2 %% over %.3f, want %g and %g", low, high, rampLow, rampHigh)
	}
	if m, _ := painted(40, 0.42, 0.46); m.Painted().Times != mostTimes {
		t.Errorf("even ground is stretched %g times, want %g", m.Painted().Times, mostTimes)
	}
	if m, _ := painted(1, 0.3, 0.5); math.Abs(m.Painted().Times-1) > 0.2 {
		t.Errorf("one tile is stretched %g times already", m.Painted().Times)
	}
	if s := NewMosaic(0.25, 0, 0).Painted(); s != (Stretch{1, 0}) {
		t.Errorf("nothing painted is stretched by %+v", s)
	}
	// With contrast and brightness as before where nothing is stretched.
	plain, same := Shade{Ramp: picture.Grey(), Contrast: 1.4, Lift: 0.1}, Shade{Ramp: picture.Grey(), Contrast: 1.4, Lift: 0.1, Stretch: Stretch{1, 0}}
	for _, key := range []string{"Lift", "Gain"} {
		if a, b := plain.uniforms()[key], same.uniforms()[key]; a != b {
			t.Errorf("%s is %v unstretched and %v stretched by nothing", key, a, b)
		}
	}
}
