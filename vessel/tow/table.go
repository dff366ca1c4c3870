package tow

import "math"

// Table holds the steady shapes over speed and cable out, for looking them up
// at every tick.
type Table struct {
	spacing float64 // metres of cable between columns
	shapes  []Shape // speed-major
}

const (
	tableSpeedMax = 6.5  // m/s
	tableSpeeds   = 53   // rows
	tableLengths  = 61   // columns
	tableSlowest  = 0.02 // m/s, stands for no way at all
)

// speedOf is the speed of a row: closer together where the shape changes fast.
func speedOf(row int) float64 {
	t := float64(row) / (tableSpeeds - 1)
	return max(tableSpeedMax*t*(0.35+0.65*t), tableSlowest)
}

func rowOf(speed float64) float64 {
	// Inverse of speedOf: 0.65 t^2 + 0.35 t - v/vmax = 0.
	v := min(max(speed, tableSlowest), tableSpeedMax) / tableSpeedMax
	t := (-0.35 + math.Sqrt(0.35*0.35+4*0.65*v)) / (2 * 0.65)
	return t * (tableSpeeds - 1)
}

// NewTable solves the gear for all speeds up to 6.5 m/s and all its cable.
func NewTable(s Spec, sheaveHeight float64) *Table {
	t := &Table{spacing: s.Cable.Length / (tableLengths - 1)}
	for i := range tableSpeeds {
		for j := range tableLengths {
			t.shapes = append(t.shapes, s.Steady(speedOf(i), float64(j)*t.spacing, sheaveHeight))
		}
	}
	return t
}

// At interpolates the table bilinearly.
func (t *Table) At(speed, cableOut float64) Shape {
	u := rowOf(speed)
	v := min(max(cableOut/t.spacing, 0), tableLengths-1)
	i, j := min(int(u), tableSpeeds-2), min(int(v), tableLengths-2)
	fu, fv := u-float64(i), v-float64(j)
	k := i*tableLengths + j
	return blend(fu,
		blend(fv, t.shapes[k], t.shapes[k+1]),
		blend(fv, t.shapes[k+tableLengths], t.shapes[k+tableLengths+1]))
}

func blend(f float64, a, b Shape) Shape {
	mix := func(p, q float64) float64 { return p + f*(q-p) }
	return Shape{mix(a.Layback, b.Layback), mix(a.Depth, b.Depth), mix(a.Tension, b.Tension), mix(a.Angle, b.Angle)}
}
