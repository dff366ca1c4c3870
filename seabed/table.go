package seabed

// table is a field worked out once at evenly spaced nodes and interpolated
// between them: noise costs a hundred times as much to evaluate.
type table struct {
	x0, y0   float64
	perMetre float64
	nx, ny   int
	v        []float32
}

// bake evaluates f over r at nodes step metres apart, or as much further apart
// as keeps the table under 64 kB.
func bake(r rect, step float64, f func(x, y float64) float64) *table {
	const most = 16384
	for (r.x1-r.x0)*(r.y1-r.y0) > most*step*step {
		step *= 1.25
	}
	t := &table{x0: r.x0, y0: r.y0, perMetre: 1 / step}
	t.nx = int((r.x1-r.x0)/step) + 2
	t.ny = int((r.y1-r.y0)/step) + 2
	t.v = make([]float32, t.nx*t.ny)
	for j := range t.ny {
		for i := range t.nx {
			t.v[j*t.nx+i] = float32(f(r.x0+float64(i)*step, r.y0+float64(j)*step))
		}
	}
	return t
}

// at interpolates bilinearly inside the table's rectangle.
func (t *table) at(x, y float64) float64 {
	u, v := (x-t.x0)*t.perMetre, (y-t.y0)*t.perMetre
	i, j := min(max(int(u), 0), t.nx-2), min(max(int(v), 0), t.ny-2)
	fu, fv := u-float64(i), v-float64(j)
	low, high := t.v[j*t.nx+i:j*t.nx+i+2], t.v[(j+1)*t.nx+i:(j+1)*t.nx+i+2]
	a := float64(low[0]) + fu*float64(low[1]-low[0])
	b := float64(high[0]) + fu*float64(high[1]-high[0])
	return a + fv*(b-a)
}
