package sonar

import (
	"math"
	"testing"

	"dryline/seabed"

	"gonum.org/v1/gonum/dsp/fourier"
)

// Ground does not repeat: over 1 km by 100 m of bare sediment, as rendered without
// noise and speckle and high-passed at 2 m, no shift of 3 to 500 m matches the picture
// with itself. Nor is one sediment's ground the scaled ground of another.
//
// Independent of how ground is made: the correlation at every shift comes of one
// Fourier transform of the picture. Chance gives about 0.02.
func TestGroundDoesNotRepeat(t *testing.T) {
	const most = 0.05
	sand := renderGround(t, seabed.MediumSand)
	if r, east, north := worstShift(sand, sand, 3); r > most {
		t.Errorf("shifted by (%.1f, %.1f) m the ground matches itself: correlation %.3f, want at most %.2f", east, north, r, most)
	}
	if r, east, north := worstShift(sand, renderGround(t, seabed.Silt), 0); r > most {
		t.Errorf("shifted by (%.1f, %.1f) m sand matches silt: correlation %.3f, want at most %.2f", east, north, r, most)
	}
}

// A picture of 1 km by 100 m in square cells, cell metres on a side.
const (
	cell     = 0.4
	pictureX = 2500
	pictureY = 250
	paddedX  = 4096 // shifts to 500 m do not meet round the end
	paddedY  = 512
)

// renderGround sails 1 km east past 100 m of ground to starboard and returns the
// picture: the echo's logarithm, high-passed at 2 m, each range of one variance.
func renderGround(t *testing.T, class seabed.Class) []float64 {
	t.Helper()
	const depth, altitude, first = 20.0, 14.0, 6.0
	ground := Ground{seabed.New(seabed.Spec{East: 1060, North: 160, Depth: depth, Base: class, Relief: seabed.Relief{Wavelength: 100}}, 4)}
	spec := twoChannels()
	spec.Channels, spec.RangeScale, spec.Samples, spec.Rays = spec.Channels[:1], 110, 2200, 3
	e := newEngine(t, spec)
	e.SpeckleOff, e.NoiseOff = true, true
	picture, count := make([]float64, pictureX*pictureY), make([]float64, pictureX*pictureY)
	ws, echo := e.NewWorkspace(), e.NewEcho()
	for i := range pictureX {
		x := 30 + (float64(i)+0.5)*cell
		e.Ping(ws, &echo, ground, Pose{X: x, Y: 140, Z: altitude - depth, Heading: math.Pi / 2}, Starboard, uint64(i))
		for k, v := range echo.Samples[0] {
			r := (float64(k) + 0.5) * e.Bin()
			g := math.Sqrt(max(r*r-altitude*altitude, 0)) - first
			if j := int(g / cell); g >= 0 && j < pictureY {
				picture[j*pictureX+i] += math.Log(float64(v)/float64(e.channels[0].gain[k]) + 1e-9)
				count[j*pictureX+i]++
			}
		}
	}
	for n := range picture {
		picture[n] /= max(count[n], 1)
	}
	return highPass(picture)
}

// highPass takes off the mean over 2 m by 2 m and gives every range one variance.
func highPass(picture []float64) []float64 {
	const half = 2 // cells: five, 2 m
	out := make([]float64, len(picture))
	for j := range pictureY {
		square := 0.0
		for i := range pictureX {
			sum, n := 0.0, 0.0
			for dj := max(j-half, 0); dj <= min(j+half, pictureY-1); dj++ {
				for di := max(i-half, 0); di <= min(i+half, pictureX-1); di++ {
					sum += picture[dj*pictureX+di]
					n++
				}
			}
			v := picture[j*pictureX+i] - sum/n
			out[j*pictureX+i] = v
			square += v * v
		}
		for i := range pictureX {
			out[j*pictureX+i] /= math.Sqrt(square / pictureX)
		}
	}
	return out
}

// worstShift returns the largest correlation of a with b shifted by at least so many
// metres and at most 500, among shifts that leave two fifths of the picture in common.
func worstShift(a, b []float64, least float64) (worst, east, north float64) {
	fa, fb := spectrum(a), spectrum(b)
	for n := range fa {
		fa[n] *= complex(real(fb[n]), -imag(fb[n]))
	}
	transform(fa)
	for j := range paddedY {
		for i := range paddedX {
			di, dj := i, j
			if di > paddedX/2 {
				di -= paddedX
			}
			if dj > paddedY/2 {
				dj -= paddedY
			}
			common := float64((pictureX - max(di, -di)) * (pictureY - max(dj, -dj)))
			shift := math.Hypot(float64(di), float64(dj)) * cell
			if common < 0.4*pictureX*pictureY || shift < least || shift > 500 {
				continue
			}
			if r := real(fa[j*paddedX+i]) / (paddedX * paddedY) / common; math.Abs(r) > worst {
				worst, east, north = math.Abs(r), -float64(di)*cell, float64(dj)*cell
			}
		}
	}
	return worst, east, north
}

// spectrum is the transform of a picture with room about it.
func spectrum(picture []float64) []complex128 {
	field := make([]complex128, paddedX*paddedY)
	for j := range pictureY {
		for i := range pictureX {
			field[j*paddedX+i] = complex(picture[j*pictureX+i], 0)
		}
	}
	transform(field)
	return field
}

func transform(field []complex128) {
	rows, columns := fourier.NewCmplxFFT(paddedX), fourier.NewCmplxFFT(paddedY)
	for j := range paddedY {
		row := field[j*paddedX : (j+1)*paddedX]
		rows.Coefficients(row, row)
	}
	column := make([]complex128, paddedY)
	for i := range paddedX {
		for j := range paddedY {
			column[j] = field[j*paddedX+i]
		}
		columns.Coefficients(column, column)
		for j := range paddedY {
			field[j*paddedX+i] = column[j]
		}
	}
}
