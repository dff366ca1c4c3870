package acoustics

import (
	"errors"
	"fmt"
)

// Interval is a closed range of values.
type Interval struct{ Min, Max float64 }

// Contains reports whether x lies in the interval, both ends included.
func (i Interval) Contains(x float64) bool { return i.Min <= x && x <= i.Max }

func (i Interval) check(quantity string, x float64, unit string) error {
	if i.Contains(x) {
		return nil
	}
	if unit != "" {
		unit = " " + unit
	}
	return fmt.Errorf("%s %g%s is outside the published %g to %g", quantity, x, unit, i.Min, i.Max)
}

// Validity is the water a published formula was fitted to. A formula still
// returns a number outside it; the caller decides whether to warn.
type Validity struct {
	Temperature Interval // °C
	Salinity    Interval // PSU
	Depth       Interval // m
}

// Check returns nil when the water lies within v, otherwise one error that
// names every quantity out of range.
func (v Validity) Check(temperatureC, salinityPSU, depthM float64) error {
	return errors.Join(
		v.Temperature.check("temperature", temperatureC, "°C"),
		v.Salinity.check("salinity", salinityPSU, "PSU"),
		v.Depth.check("depth", depthM, "m"),
	)
}

// AbsorptionValidity is the water and the band an absorption formula was
// fitted to.
type AbsorptionValidity struct {
	Validity
	Frequency Interval // Hz
	PH        Interval
}

// Check is like [Validity.Check] with frequency and pH.
func (v AbsorptionValidity) Check(frequencyHz, temperatureC, salinityPSU, depthM, pH float64) error {
	return errors.Join(
		v.Frequency.check("frequency", frequencyHz, "Hz"),
		v.Validity.Check(temperatureC, salinityPSU, depthM),
		v.PH.check("pH", pH, ""),
	)
}
