package picture

import (
	"image/color"
	"math"
	"sync"
)

// Ramp gives the colour of each grey value. A value of 0 is the darkest.
type Ramp [256]color.RGBA

// Ends of the lightness of all ramps. Below the first, eight bits of sRGB are
// too coarse for 256 distinct steps.
const (
	darkest  = 0.17
	lightest = 0.97
)

// Kelp is the ramp for sonar amplitude: from a cold green-black through moss to
// the white of a bleached shell, in even steps of lightness.
//
//	L = 0.17 + 0.80 t    h = 195° - 90° t    C = 0.065 sin(π t)    t = value/255
//
// in OKLab, chroma C and hue h. The one sweep of hue only helps to tell levels
// apart; lightness alone carries them, so the ramp survives grey printing and
// every kind of colour blindness.
var Kelp = sync.OnceValue(func() *Ramp {
	return newRamp(func(t float64) (chroma, hue float64) {
		return 0.065 * math.Sin(math.Pi*t), (195 - 90*t) * math.Pi / 180
	})
})

// Tern is a second ramp for sonar amplitude, cool where [Kelp] is warm: from
// near-black plum through violet to a white with a breath of blue, in the same
// steps of lightness.
//
//	L = 0.17 + 0.80 t    h = 340° - 105° t    C = 0.08 sin(π t^0.8)    t = value/255
var Tern = sync.OnceValue(func() *Ramp {
	return newRamp(func(t float64) (chroma, hue float64) {
		return 0.08 * math.Sin(math.Pi*math.Pow(t, 0.8)), (340 - 105*t) * math.Pi / 180
	})
})

// Named is a ramp and what it is called.
type Named struct {
	Name string
	Ramp *Ramp
}

// Ramps returns the ramps there are to choose from, the usual one first.
func Ramps() []Named {
	return []Named{{"Kelp", Kelp()}, {"Tern", Tern()}, {"Grey", Grey()}}
}

// Grey is the ramp without colour, in the same steps of lightness as [Kelp].
var Grey = sync.OnceValue(func() *Ramp {
	return newRamp(func(float64) (chroma, hue float64) { return 0, 0 })
})

func newRamp(tint func(t float64) (chroma, hue float64)) *Ramp {
	r := new(Ramp)
	for i := range r {
		t := float64(i) / 255
		chroma, hue := tint(t)
		sin, cos := math.Sincos(hue)
		r[i] = fromOKLab(darkest+(lightest-darkest)*t, chroma*cos, chroma*sin)
	}
	return r
}

// fromOKLab returns the sRGB colour of an OKLab one, clipped to the gamut.
func fromOKLab(lightness, a, b float64) color.RGBA {
	l := cube(lightness + 0.3963377774*a + 0.2158037573*b)
	m := cube(lightness - 0.1055613458*a - 0.0638541728*b)
	s := cube(lightness - 0.0894841775*a - 1.2914855480*b)
	return color.RGBA{
		R: encode(4.0767416621*l - 3.3077115913*m + 0.2309699292*s),
		G: encode(-1.2684380046*l + 2.6097574011*m - 0.3413193965*s),
		B: encode(-0.0041960863*l - 0.7034186147*m + 1.7076147010*s),
		A: 0xff,
	}
}

func cube(x float64) float64 { return x * x * x }

// encode turns linear light into an sRGB byte by the curve of IEC 61966-2-1.
func encode(linear float64) uint8 {
	v := 12.92 * linear
	if linear > 0.0031308 {
		v = 1.055*math.Pow(linear, 1/2.4) - 0.055
	}
	return uint8(math.Round(255 * min(max(v, 0), 1)))
}
