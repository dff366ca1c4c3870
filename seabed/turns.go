package seabed

import "math"

// turnsOf is the angle of (x, y) in turns, exactly float32(math.Atan2(y, x) / (2 pi)), in
// less time: by a table and a short series it is known to far more places than a float32
// has, and asked of math.Atan2 only where that leaves open which way it is rounded.
func turnsOf(y, x float32) float32 {
	const perTurn = 1 / (2 * math.Pi)
	long, short := math.Abs(float64(x)), math.Abs(float64(y))
	from, along := 0.0, 1.0 // the axis it is near, and whether it is counted on or back from there
	if short > long {
		long, short = short, long
		from, along = 0.25, -1
	}
	if x < 0 {
		from, along = 0.5-from, -along
	}
	// The angle between this direction and that of the nearest entry.
	k := int(short/long*angleSteps + 0.5)
	if k < 0 || k > angleSteps {
		k = 0 // of what is no number
	}
	slope := float64(k) * (1. / angleSteps)
	d := (short - slope*long) / (long + slope*short)
	d2 := d * d
	t := from + along*(angles[k]+d*(perTurn-d2*(perTurn/3-d2*(perTurn/5))))
	// What a float32 has no place for, in units of the last place of t; a half is where
	// rounding turns. Table and series are off by a twentieth of what is allowed.
	const (
		half  = 1 << 28
		sure  = 1 << 13
		least = 1e-30 // below come float32s of fewer places
	)
	if rest := math.Float64bits(t) % (2 * half); t > least && (rest < half-sure || rest > half+sure) {
		return float32(math.Copysign(t, float64(y)))
	}
	return float32(math.Atan2(float64(y), float64(x)) / (2 * math.Pi))
}

// angles are those of slopes from 0 to 1, in turns.
const angleSteps = 64

var angles = func() (a [angleSteps + 1]float64) {
	for k := range a {
		a[k] = math.Atan(float64(k)/angleSteps) / (2 * math.Pi)
	}
	return a
}()
