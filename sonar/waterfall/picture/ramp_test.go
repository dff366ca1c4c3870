package picture

import (
	"image/color"
	"math"
	"testing"
)

// toOKLab is the published forward transform, with Ottosson's own matrices
// (https://bottosson.github.io/posts/oklab/), so that it checks the inverse
// used for the ramps.
func toOKLab(c color.RGBA) (lightness, a, b float64) {
	r, g, bl := decode(c.R), decode(c.G), decode(c.B)
	l := math.Cbrt(0.4122214708*r + 0.5363325363*g + 0.0514459929*bl)
	m := math.Cbrt(0.2119034982*r + 0.6806995451*g + 0.1073969566*bl)
	s := math.Cbrt(0.0883024619*r + 0.2817188376*g + 0.6299787005*bl)
	return 0.2104542553*l + 0.7936177850*m - 0.0040720468*s,
		1.9779984951*l - 2.4285922050*m + 0.4505937099*s,
		0.0259040371*l + 0.7827717662*m - 0.8086757660*s
}

func decode(v uint8) float64 {
	x := float64(v) / 255
	if x <= 0.04045 {
		return x / 12.92
	}
	return math.Pow((x+0.055)/1.055, 2.4)
}

// luminance is the Y of sRGB, what a grey print or a colour-blind eye keeps.
func luminance(c color.RGBA) float64 {
	return 0.2126*decode(c.R) + 0.7152*decode(c.G) + 0.0722*decode(c.B)
}

func ramps() map[string]*Ramp {
	all := map[string]*Ramp{}
	for _, r := range Ramps() {
		all[r.Name] = r.Ramp
	}
	return all
}

// Rounding to eight bits moves a colour by up to half a level, so single steps
// are uneven; over eight values they must come out even.
func TestRampLightnessRisesEvenly(t *testing.T) {
	const even = (lightest - darkest) / 255
	for name, ramp := range ramps() {
		for i := 8; i < len(ramp); i++ {
			l, _, _ := toOKLab(ramp[i])
			before, _, _ := toOKLab(ramp[i-8])
			if step := (l - before) / 8; step < 0.8*even || step > 1.2*even {
				t.Errorf("%s: lightness from %d to %d rises by %.5f a value, want %.5f within a fifth", name, i-8, i, step, even)
			}
		}
	}
}

// Two neighbouring values must never look alike. Grey has too few levels for
// that: the 256 steps of a ramp share some 240 of them.
func TestRampSmallestStep(t *testing.T) {
	const even = (lightest - darkest) / 255
	// Greens are coarser in eight bits than violets: of a step of Kelp hue may carry a part.
	smallest := map[string]float64{"Kelp": even / 8, "Tern": even / 4, "Grey": 0}
	for name, ramp := range ramps() {
		for i := 1; i < len(ramp); i++ {
			l, a, b := toOKLab(ramp[i])
			before, a0, b0 := toOKLab(ramp[i-1])
			if l-before < smallest[name] {
				t.Errorf("%s: lightness steps by %.5f to %d, want at least %.5f", name, l-before, i, smallest[name])
			}
			if d := math.Hypot(l-before, math.Hypot(a-a0, b-b0)); smallest[name] > 0 && d < even/4 {
				t.Errorf("%s: the colour steps by %.5f to %d, want at least %.5f", name, d, i, even/4)
			}
		}
	}
}

func TestRampReadableInGrey(t *testing.T) {
	for name, ramp := range ramps() {
		for i := 4; i < len(ramp); i++ {
			if y, before := luminance(ramp[i]), luminance(ramp[i-4]); y <= before {
				t.Errorf("%s: luminance %.5f at %d, want more than %.5f at %d", name, y, i, before, i-4)
			}
		}
	}
}

func TestRampEnds(t *testing.T) {
	for name, ramp := range ramps() {
		dark, _, _ := toOKLab(ramp[0])
		light, _, _ := toOKLab(ramp[255])
		if math.Abs(dark-darkest) > 0.005 || math.Abs(light-lightest) > 0.005 {
			t.Errorf("%s: got lightness %.3f to %.3f, want %.2f to %.2f", name, dark, light, darkest, lightest)
		}
	}
}

// A colour clipped to the gamut would come back with another hue.
func TestRampsStayInGamut(t *testing.T) {
	for _, test := range []struct {
		name                    string
		ramp                    *Ramp
		most, power, hue, sweep float64
	}{{"Kelp", Kelp(), 0.065, 1, 195, -90}, {"Tern", Tern(), 0.08, 0.8, 340, -105}} {
		for i, c := range test.ramp {
			at := float64(i) / 255
			chroma := test.most * math.Sin(math.Pi*math.Pow(at, test.power))
			hue := (test.hue + test.sweep*at) * math.Pi / 180
			_, a, b := toOKLab(c)
			if d := math.Hypot(a-chroma*math.Cos(hue), b-chroma*math.Sin(hue)); d > 0.012 {
				t.Errorf("%s: value %d, colour %v: off by %.4f in a and b", test.name, i, c, d)
			}
		}
	}
}

func TestGreyHasNoColour(t *testing.T) {
	for i, c := range Grey() {
		if c.R != c.G || c.G != c.B || c.A != 0xff {
			t.Errorf("value %d: got %v, want an opaque grey", i, c)
		}
	}
}
