package dataset

import (
	"math"
	"math/rand/v2"
	"testing"

	"dryline/seabed"
	"dryline/sonar"
)

// Independent samples of fully developed speckle have a contrast of twice the variance of
// their level: 5.57 dB (one look: pi/sqrt(6) times 10/ln 10; Goodman, Speckle Phenomena in
// Optics, 2007), a level being 3.01 dB, in every direction, and no correlation. Pairs are
// those of one sediment, within a ping and with the one right before it.
func TestTextureOfSpeckle(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	const n, pings = 600, 60
	samples, labels := make([]uint16, n), make([]sonar.Label, n)
	var g grain
	for p := range uint64(pings) {
		for k := range samples {
			samples[k] = uint16(2000 * math.Sqrt(rng.ExpFloat64()))
			labels[k] = sonar.Label{Kind: sonar.FloorLabel, Class: seabed.Mud}
			switch {
			case k < 50:
				labels[k].Kind = sonar.WaterLabel
			case k >= 400:
				labels[k].Class = seabed.Gravel
			}
		}
		number := p
		if p >= pings/2 {
			number++ // one was lost
		}
		g.add(sonar.Starboard, number, samples, labels)
	}
	list := g.all()
	if len(list) != 2 || list[0].Sediment != "mud" || list[1].Sediment != "gravel" {
		t.Fatalf("textures of %d sediments", len(list))
	}
	sum := map[string]*Texture{}
	mergeTextures(sum, list)
	mergeTextures(sum, list)
	for i, wide := range []int64{350, 200} {
		follow := int64(pings - 2)
		want := [4]int64{pings * (wide - 1), follow * wide, follow * (wide - 1), follow * (wide - 1)}
		for d := range directions {
			m := &list[i].Pairs[d]
			if m.Pairs() != want[d] || sum[list[i].Sediment].Pairs[d].Pairs() != 2*want[d] {
				t.Errorf("%s, %s: %d pairs, want %d", list[i].Sediment, directions[d], m.Pairs(), want[d])
			}
			step := 20 * math.Log10(math.MaxUint16) / 32
			speckle := math.Pi / math.Sqrt(6) * 10 / math.Ln10 / step
			f := m.Features()
			if by := 2*speckle*speckle + 1.0/6; math.Abs(f.Contrast-by) > 0.35 || math.Abs(speckleContrast()-by) > 1e-3 || math.Abs(f.Correlation) > 0.03 {
				t.Errorf("%s, %s: contrast %.2f and correlation %.3f, want %.2f and none", list[i].Sediment, directions[d], f.Contrast, f.Correlation, by)
			}
		}
	}
}
