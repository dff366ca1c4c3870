package main

import (
	"fmt"
	"io"
	"math"
	"runtime"
	"strings"

	"dryline/sim/dataset/figure"

	"gonum.org/v1/plot/plotter"
)

const caution = "Training aid; not for navigation."

// page is the table, by what is varied.
func page(all []sequence) string {
	var b strings.Builder
	fmt.Fprintf(&b, `# What a survey costs

%s Written by %s on one core of %s/%s with %s: parallel lines over rippled sand, two channels of 2000
samples, desk and mosaic included, nothing written to disk. Where nothing else is said there are %d lines of %g m at a range scale of %g m,
and %d objects. See [speed.md](speed.md) for where the time goes.

![Seconds by area, objects, range scale and line length](cost.png)

`, caution, "`go run ./cmd/cost -o docs`", runtime.GOOS, runtime.GOARCH, runtime.Version(), usual.lines, usual.length, usual.scale, usual.objects)
	b.WriteString("| what | of it | simulated, s | pings | seconds | times real time | µs a ping | over the first, of it | over the first, seconds |\n|---|---|---|---|---|---|---|---|---|\n")
	for _, q := range all {
		first := q.points[0]
		for _, p := range q.points {
			fmt.Fprintf(&b, "| %s | %s | %.0f | %d | %.2f | %.0f | %.0f | %.1f | %.2f |\n", q.title, strings.TrimSpace(fmt.Sprintf("%.4g %s", p.value, q.unit)),
				p.flown.simulated, p.flown.pings, p.seconds, p.flown.simulated/p.seconds, 1e6*p.seconds/float64(max(p.flown.pings, 1)), p.value/first.value, p.seconds/first.seconds)
		}
	}
	return b.String()
}

// draw plots the same, each beside a cost that grows in step from the first.
func draw(out io.Writer, all []sequence) error {
	var panels []figure.Panel
	for _, q := range all {
		p := figure.NewPanel(q.title, strings.TrimSuffix(q.title+", "+q.unit, ", "), "seconds")
		first, last := q.points[0], q.points[len(q.points)-1]
		most := 0.0
		var at []plotter.XY
		for _, x := range q.points {
			at = append(at, plotter.XY{X: x.value, Y: x.seconds})
			most = math.Max(most, x.seconds)
		}
		left := 0.0
		if last.value/first.value > 20 {
			p.LogX()
			left = first.value / 1.5
		}
		p.Range(left, last.value*1.1, 0, most*1.25)
		p.Points(0, "measured", true, at...)
		if left == 0 {
			p.Dashes(1, "in step with the first", plotter.XY{}, plotter.XY{X: last.value, Y: first.seconds * last.value / first.value})
		}
		p.Key(true, true)
		panels = append(panels, p)
	}
	return figure.Draw(out, "What a survey costs", caution, 2, panels...)
}
