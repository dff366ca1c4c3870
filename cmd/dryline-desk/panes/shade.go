package panes

import (
	_ "embed"
	"image/color"
	"math"
	"sync"

	"dryline/sonar/waterfall/picture"

	"github.com/hajimehoshi/ebiten/v2"
)

//go:embed waterfall.kage
var waterfallShader []byte

//go:embed mosaic.kage
var mosaicShader []byte

//go:embed section.kage
var sectionShader []byte

// Shaders compile on first use: there is no graphics before the window opens.
var (
	waterfallProgram = compiled(waterfallShader)
	mosaicProgram    = compiled(mosaicShader)
	sectionProgram   = compiled(sectionShader)
)

func compiled(source []byte) func() *ebiten.Shader {
	return sync.OnceValue(func() *ebiten.Shader {
		s, err := ebiten.NewShader(source)
		if err != nil {
			panic("panes: embedded shader does not compile: " + err.Error())
		}
		return s
	})
}

// Shade is how grey becomes colour.
type Shade struct {
	Ramp     *picture.Ramp
	Lift     float64 // added to the grey, 0..1
	Contrast float64 // times that, 1 as it comes
	Stretch  Stretch // before either
}

// shadeSteps is how many colours of a ramp the shaders hold; they mix between.
const shadeSteps = 64

// OrdinaryEcho is the grey of one, 0 to 1: contrast turns about it.
const OrdinaryEcho = 0.43

// Table gives what every grey becomes, as the shaders have it.
func (s *Shade) Table() (out [256]color.RGBA) {
	u := s.uniforms()
	lift, gain := float64(u["Lift"].(float32)), float64(u["Gain"].(float32))
	for grey := range out {
		t := (float64(grey)/255 + lift) * gain
		out[grey] = s.Ramp[int(math.Round(255*min(max(t, 0), 1)))]
	}
	return out
}

// uniforms are the shader's values for a shade.
func (s *Shade) uniforms() map[string]any {
	ramp := make([]float32, 0, 3*shadeSteps)
	for i := range shadeSteps {
		ramp = append(ramp, triple(s.Ramp[i*255/(shadeSteps-1)])...)
	}
	contrast := s.Contrast
	if contrast <= 0 {
		contrast = 1
	}
	times, plus := s.Stretch.Times, s.Stretch.Plus
	if times <= 0 {
		times = 1
	}
	// (times g + plus - OrdinaryEcho) contrast + OrdinaryEcho + lift, as a sum that is then multiplied.
	gain := times * contrast
	return map[string]any{
		"Ramp": ramp, "Gain": float32(gain), "Lift": float32((contrast*(plus-OrdinaryEcho) + OrdinaryEcho + s.Lift) / gain),
	}
}

func triple(c color.RGBA) []float32 {
	return []float32{float32(c.R) / 255, float32(c.G) / 255, float32(c.B) / 255}
}
