package main

import (
	"bytes"
	"image/png"
	"io"
	"math"
	"strings"
	"testing"
)

// The surveys differ in the one thing that is varied, and have of it what is said.
func TestOneThingIsVaried(t *testing.T) {
	for _, q := range series() {
		for _, p := range q.points {
			ex, err := p.survey.exercise()
			if err != nil {
				t.Fatal(err)
			}
			if len(ex.Lines) != p.survey.lines || len(ex.Seabed.Objects) != p.survey.objects || ex.Sonar.RangeScale != p.survey.scale {
				t.Errorf("%s %g: %d lines, %d objects, scale %g", q.title, p.value, len(ex.Lines), len(ex.Seabed.Objects), ex.Sonar.RangeScale)
			}
			if l := ex.Lines[0]; math.Hypot(l.B.X-l.A.X, l.B.Y-l.A.Y) != p.survey.length {
				t.Errorf("%s %g: a line from %v to %v", q.title, p.value, l.A, l.B)
			}
		}
	}
}

// The table and the plot of costs that are made up.
func TestThePageSaysWhatWasMeasured(t *testing.T) {
	all := series()
	for i := range all {
		for j := range all[i].points {
			p := &all[i].points[j]
			p.seconds, p.flown = 2*float64(j+1), flown{simulated: 600, pings: 4000}
		}
	}
	text := page(all)
	if want := "| range scale | 50 m | 600 | 4000 | 4.00 | 150 | 1000 | 2.0 | 2.00 |\n"; !strings.Contains(text, want) {
		t.Errorf("no line %q in\n%s", want, text)
	}
	var b bytes.Buffer
	if err := draw(&b, all); err != nil {
		t.Fatal(err)
	}
	if _, err := png.Decode(&b); err != nil {
		t.Error(err)
	}
}

func TestNothingIsMeasuredForNowhere(t *testing.T) {
	if err := run(t.TempDir()+"/none", 1, io.Discard); err == nil || !strings.Contains(err.Error(), "is no folder") {
		t.Errorf("got %v", err)
	}
}
