package figure

import (
	"math"
	"strconv"

	"gonum.org/v1/plot"
)

// evenTicks are at whole multiples of 1, 2 or 5 times a power of ten, every one lettered, seven
// at most.
type evenTicks struct{}

func (evenTicks) Ticks(low, high float64) []plot.Tick {
	const most = 7
	if !(high > low) {
		return nil
	}
	power := math.Floor(math.Log10((high - low) / most))
	for {
		for _, by := range []float64{1, 2, 5} {
			step := by * math.Pow(10, power)
			from, to := math.Ceil(low/step), math.Floor(high/step)
			if to-from+1 > most {
				continue
			}
			var ticks []plot.Tick
			for k := from; k <= to; k++ {
				ticks = append(ticks, plot.Tick{Value: k * step, Label: strconv.FormatFloat(k*step+0, 'f', int(max(-power, 0)), 64)})
			}
			return ticks
		}
		power++
	}
}
