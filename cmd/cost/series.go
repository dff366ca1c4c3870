package main

import (
	"runtime"
	"time"
)

// sequence is surveys of which one thing is varied.
type sequence struct {
	title, unit string
	points      []point
}

// point is a survey with what it has of the thing, and what it costs.
type point struct {
	value   float64
	survey  survey
	flown   flown
	seconds float64 // the least of the rounds
}

// series are all sequences.
func series() []sequence {
	vary := func(title, unit string, values []float64, set func(v *survey, value float64), value func(v survey) float64) sequence {
		q := sequence{title: title, unit: unit}
		for _, x := range values {
			v := usual
			set(&v, x)
			q.points = append(q.points, point{value: value(v), survey: v})
		}
		return q
	}
	return []sequence{
		vary("area", "hectares", []float64{2, 4, 8, 16}, func(v *survey, x float64) { v.lines = int(x) }, func(v survey) float64 { return v.area() / 1e4 }),
		vary("objects", "", []float64{10, 100, 1000}, func(v *survey, x float64) { v.lines, v.length, v.objects = 6, 600, int(x) }, func(v survey) float64 { return float64(v.objects) }),
		vary("range scale", "m", []float64{25, 50, 100, 200}, func(v *survey, x float64) { v.scale = x }, func(v survey) float64 { return v.scale }),
		vary("line length", "m", []float64{150, 300, 600, 1200}, func(v *survey, x float64) { v.length = x }, func(v survey) float64 { return v.length }),
	}
}

// measure flies the survey once more.
func (p *point) measure() error {
	runtime.GC() // what the one before left is not paid for here
	begun := time.Now()
	f, err := p.survey.fly()
	if err != nil {
		return err
	}
	if took := time.Since(begun).Seconds(); p.seconds == 0 || took < p.seconds {
		p.seconds = took
	}
	p.flown = f
	return nil
}
