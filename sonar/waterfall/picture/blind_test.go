package picture

import (
	"image/color"
	"math"
	"testing"
)

// How colours look to those who lack one kind of cone: the matrices of severity
// 1.0 of Machado, Oliveira and Fernandes, "A physiologically-based model for
// simulation of color vision deficiency", IEEE Trans. Visualization and Computer
// Graphics 15 (2009), on linear sRGB; from memory. Their rows add up to one, so
// that greys stay grey, which TestBlindMatrices checks.
var blindness = []struct {
	name string
	m    [3][3]float64
}{
	{"protanopia", [3][3]float64{
		{0.152286, 1.052583, -0.204868}, {0.114503, 0.786281, 0.099216}, {-0.003882, -0.048116, 1.051998}}},
	{"deuteranopia", [3][3]float64{
		{0.367322, 0.860646, -0.227968}, {0.280085, 0.672501, 0.047413}, {-0.011820, 0.042940, 0.968881}}},
	{"tritanopia", [3][3]float64{
		{1.255528, -0.076749, -0.178779}, {-0.078411, 0.930809, 0.147602}, {0.004733, 0.691367, 0.303900}}},
}

func seenBy(m [3][3]float64, c color.RGBA) color.RGBA {
	in := [3]float64{decode(c.R), decode(c.G), decode(c.B)}
	var out [3]uint8
	for i, row := range m {
		out[i] = encode(row[0]*in[0] + row[1]*in[1] + row[2]*in[2])
	}
	return color.RGBA{out[0], out[1], out[2], 0xff}
}

func TestBlindMatrices(t *testing.T) {
	for _, b := range blindness {
		for i, row := range b.m {
			if sum := row[0] + row[1] + row[2]; math.Abs(sum-1) > 1e-5 {
				t.Errorf("%s: row %d adds up to %.6f, want 1", b.name, i, sum)
			}
		}
	}
}

// Sixteen levels must be told apart by every eye: lightness rises from each to
// the next by at least three quarters of an even step, and from value to value
// over eight it never falls.
func TestRampsForEveryEye(t *testing.T) {
	const even = (lightest - darkest) / 15
	for name, ramp := range ramps() {
		for _, b := range blindness {
			light := func(i int) float64 {
				l, _, _ := toOKLab(seenBy(b.m, ramp[i]))
				return l
			}
			for i := 17; i <= 255; i += 17 {
				if step := light(i) - light(i-17); step < 0.75*even {
					t.Errorf("%s, %s: lightness from %d to %d rises by %.4f, want at least %.4f", name, b.name, i-17, i, step, 0.75*even)
				}
			}
			for i := 8; i < 256; i++ {
				if light(i) <= light(i-8) {
					t.Errorf("%s, %s: lightness does not rise from %d to %d", name, b.name, i-8, i)
				}
			}
		}
	}
}
