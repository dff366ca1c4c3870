//go:build !js

package main

import (
	"image"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"dryline/scenarios"

	"github.com/hajimehoshi/ebiten/v2"
)

// A pipeline that is charted is on the chart of the watch where it runs; one that is
// not shows only in the debrief.
func TestChartedPipelinesAreOnTheChart(t *testing.T) {
	ex, err := scenarios.Find("sloping-bank")
	if err != nil {
		t.Fatal(err)
	}
	source := string(ex.Source)
	if strings.Count(source, "charted: true") != 1 {
		t.Fatal("the exercise charts something else as well")
	}
	charts := map[bool][2]*image.RGBA{}
	var pane, debriefPane image.Rectangle
	for _, charted := range []bool{true, false} {
		name := filepath.Join(t.TempDir(), "bank.yaml")
		text := source
		if !charted {
			text = strings.Replace(text, "charted: true", "charted: false", 1)
		}
		if err := os.WriteFile(name, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		d := openDesk(t, newHome(t), 1280, 720, name)
		d.tap(ebiten.KeySpace)
		s := d.until("time stands still", 600, func(s *shown) bool { return s.watch.Paused })
		pane = area(s.Panes["chart"])
		watch := d.picture("watch")
		s = d.toDebrief(1200)
		debrief := d.picture("debrief")
		debriefPane = area(s.Panes["chart"])
		charts[charted] = [2]*image.RGBA{watch.SubImage(pane).(*image.RGBA), debrief.SubImage(debriefPane).(*image.RGBA)}
		d.close()
	}
	// The chart shows the lines, a run-in and a range scale about them (K).
	x0, y0, x1, y1 := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, l := range ex.Lines {
		x0, y0 = min(x0, l.A.X, l.B.X), min(y0, l.A.Y, l.B.Y)
		x1, y1 = max(x1, l.A.X, l.B.X), max(y1, l.A.Y, l.B.Y)
	}
	reach := ex.Sonar.RangeScale + ex.Plan.RunIn
	at := func(pane image.Rectangle, x, y float64) image.Point {
		perM := min(float64(pane.Dx())/(x1-x0+2*reach), float64(pane.Dy())/(y1-y0+2*reach))
		return middle(pane).Add(image.Pt(int(math.Round((x-(x0+x1)/2)*perM)), -int(math.Round((y-(y0+y1)/2)*perM))))
	}
	differ := func(page int, p image.Point, reach int) bool {
		for j := -reach; j <= reach; j++ {
			for i := -reach; i <= reach; i++ {
				if q := p.Add(image.Pt(i, j)); apart(charts[true][page].RGBAAt(q.X, q.Y), charts[false][page].RGBAAt(q.X, q.Y)) > 30 {
					return true
				}
			}
		}
		return false
	}
	// In the debrief both are what truly lies there: along the pipeline nothing tells one
	// from the other. (Elsewhere the tracks do: time stood still a moment later.)
	on, all, told := 0, 0, 0
	path := ex.Seabed.Pipelines[0].Path
	for i := 1; i < len(path); i++ {
		for f := 0.05; f < 1; f += 0.05 {
			x, y := path[i-1].X+f*(path[i].X-path[i-1].X), path[i-1].Y+f*(path[i].Y-path[i-1].Y)
			all++
			if differ(0, at(pane, x, y), 2) {
				on++
			}
			if differ(1, at(debriefPane, x, y), 2) {
				told++
			}
		}
	}
	if told > 0 {
		t.Errorf("at %d of %d places of the pipeline the debriefs differ, want none", told, all)
	}
	if on < all*3/4 {
		t.Errorf("on the chart of the watch %d of %d places of the pipeline show it", on, all)
	}
	changed := 0
	for y := pane.Min.Y; y < pane.Max.Y; y++ {
		for x := pane.Min.X; x < pane.Max.X; x++ {
			if apart(charts[true][0].RGBAAt(x, y), charts[false][0].RGBAAt(x, y)) > 30 {
				changed++
			}
		}
	}
	if changed > pane.Dx()*pane.Dy()/20 {
		t.Errorf("%d pixels differ, want those of a line", changed)
	}
}
