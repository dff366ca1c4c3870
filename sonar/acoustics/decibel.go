package acoustics

import "math"

// Decibels returns 10 log10 of a power ratio. A ratio of zero gives -Inf.
func Decibels(power float64) float64 { return 10 * math.Log10(power) }

// FromDecibels returns the power ratio 10^(level/10).
func FromDecibels(level float64) float64 { return math.Exp(level * (math.Ln10 / 10)) }
