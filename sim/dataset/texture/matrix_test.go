package texture_test

import (
	"encoding/json"
	"math"
	"testing"

	"dryline/sim/dataset/texture"
)

// The worked example of Haralick, Shanmugam and Dinstein (1973), figure 3: a picture of 4 by 4
// pixels of four levels and its matrices at distance 1, as printed there; what the features
// come to was worked out by hand from them. For the horizontal matrix, of 24: contrast
// (4*1 + 2*4 + 2*1)/24 = 14/24; angular second moment (16+4+1+4+16+1+36+1+1+4)/576 = 84/576;
// inverse difference moment (16 + 4/2 + 2/5 + 2/2)/24 = 19.4/24.
func TestTheExampleOfHaralick(t *testing.T) {
	picture := [4][4]uint8{{0, 0, 1, 1}, {0, 0, 1, 1}, {0, 2, 2, 2}, {2, 2, 3, 3}}
	for _, c := range []struct {
		name         string
		down, across int
		printed      [4][4]int64
	}{
		{"0 degrees", 0, 1, [4][4]int64{{4, 2, 1, 0}, {2, 4, 0, 0}, {1, 0, 6, 1}, {0, 0, 1, 2}}},
		{"90 degrees", 1, 0, [4][4]int64{{6, 0, 2, 0}, {0, 4, 2, 0}, {2, 2, 2, 2}, {0, 0, 2, 0}}},
		{"135 degrees", 1, 1, [4][4]int64{{2, 1, 3, 0}, {1, 2, 1, 0}, {3, 1, 0, 2}, {0, 0, 2, 0}}},
		{"45 degrees", 1, -1, [4][4]int64{{4, 1, 0, 0}, {1, 2, 2, 0}, {0, 2, 4, 1}, {0, 0, 1, 0}}},
	} {
		var m texture.Matrix
		for y := range 4 {
			for x := range 4 {
				if v, u := y+c.down, x+c.across; v < 4 && u >= 0 && u < 4 {
					m.Add(picture[y][x], picture[v][u])
				}
			}
		}
		sum := int64(0)
		for i := range 4 {
			for j := range 4 {
				n := m[min(i, j)][max(i, j)]
				if i == j {
					n *= 2 // a pair of equal levels counts both ways
				}
				if n != c.printed[i][j] {
					t.Errorf("%s: %d of %d beside %d, printed are %d", c.name, n, i, j, c.printed[i][j])
				}
				sum += c.printed[i][j]
			}
		}
		if 2*m.Pairs() != sum {
			t.Errorf("%s: %d pairs, printed are %d both ways", c.name, m.Pairs(), sum)
		}
		f := m.Features()
		if c.across == 1 && c.down == 0 {
			for name, v := range map[string][2]float64{
				"contrast": {f.Contrast, 14.0 / 24}, "second moment": {f.SecondMoment, 84.0 / 576}, "homogeneity": {f.Homogeneity, 19.4 / 24},
				// Levels 0 to 3 stand there 7, 6, 8 and 3 times of 24: mean 31/24, of squares 65/24; of
				// products (4 + 24 + 12 + 18)/24, of 1 by 1, 2 by 2, 2 by 3 both ways and 3 by 3.
				"correlation": {f.Correlation, (58.0/24 - 31.0*31/576) / (65.0/24 - 31.0*31/576)},
			} {
				if math.Abs(v[0]-v[1]) > 1e-12 {
					t.Errorf("%s of the example is %v, want %v", name, v[0], v[1])
				}
			}
		}
		b, err := json.Marshal(&m)
		var again texture.Matrix
		if err == nil {
			err = json.Unmarshal(b, &again)
		}
		if err != nil || again != m {
			t.Errorf("written and read again it is another: %v", err)
		}
	}
}

// A picture of one level has a second moment and homogeneity of 1 and nothing else; levels
// that stand beside any other alike have the entropy ln n^2 and no correlation.
func TestPlainAndMixedPictures(t *testing.T) {
	var plain, mixed, none texture.Matrix
	plain.Add(7, 7)
	for i := range uint8(4) {
		for j := range uint8(4) {
			mixed.Add(i, j)
		}
	}
	if f := plain.Features(); f != (texture.Features{SecondMoment: 1, Homogeneity: 1}) {
		t.Errorf("plain: %+v", f)
	}
	if f := mixed.Features(); math.Abs(f.Entropy-math.Log(16)) > 1e-12 || math.Abs(f.Correlation) > 1e-12 || math.Abs(f.Contrast-2.5) > 1e-12 {
		t.Errorf("mixed: %+v", f)
	}
	if f := none.Features(); f != (texture.Features{}) {
		t.Errorf("none: %+v", f)
	}
	for _, bad := range []string{`[]`, `"x"`, `["-1"]`} {
		if json.Unmarshal([]byte(bad), &none) == nil {
			t.Errorf("%s is read", bad)
		}
	}
}
