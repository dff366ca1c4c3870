package main

import (
	_ "embed"
	"flag"
	"fmt"
	"image"
	"image/draw"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync"

	"dryline/scenarios"
	"dryline/sim"
	"dryline/sim/exercise"
	"dryline/sim/product"
	"dryline/sim/survey"
	"dryline/sonar/waterfall/picture"
)

//go:embed ground.yaml
var ground []byte

func main() {
	out := flag.String("o", "docs/gallery", "folder to write")
	only := flag.String("only", "", "render only the plate of this name")
	flag.Parse()
	if err := run(*out, *only); err != nil {
		fmt.Fprintln(os.Stderr, "gallery:", err)
		os.Exit(1)
	}
}

func run(out, only string) error {
	if err := os.MkdirAll(out, 0o755); err != nil {
		return err
	}
	var (
		group sync.WaitGroup
		lanes = make(chan struct{}, runtime.GOMAXPROCS(0))
		errs  = make([]error, len(plates))
	)
	for i, p := range plates {
		if only != "" && p.file != only {
			continue
		}
		group.Go(func() {
			lanes <- struct{}{}
			errs[i] = p.write(out)
			<-lanes
		})
	}
	group.Wait()
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	if only != "" {
		return nil
	}
	return os.WriteFile(filepath.Join(out, "README.md"), []byte(page()), 0o644)
}

const (
	halfWidth, height = 640, 620 // pixels of half a plate
	gap               = 12
)

func (p *plate) write(out string) error {
	left, err := p.left.render()
	if err != nil {
		return fmt.Errorf("%s: %w", p.file, err)
	}
	right, err := p.right.render()
	if err != nil {
		return fmt.Errorf("%s: %w", p.file, err)
	}
	tall := max(left.Rect.Dy(), right.Rect.Dy())
	both := image.NewRGBA(image.Rect(0, 0, 2*halfWidth+gap, tall))
	draw.Draw(both, both.Rect, image.White, image.Point{}, draw.Src)
	draw.Draw(both, left.Rect, left, image.Point{}, draw.Src)
	draw.Draw(both, right.Rect.Add(image.Pt(halfWidth+gap, 0)), right, image.Point{}, draw.Src)
	f, err := os.Create(filepath.Join(out, p.file+".png"))
	if err != nil {
		return err
	}
	defer f.Close()
	return product.EncodePNG(f, both)
}

// render flies the view's session and draws its line.
func (v *view) render() (*image.RGBA, error) {
	ex, err := scenarios.Parse("gallery.yaml", ground)
	if err != nil {
		return nil, err
	}
	if v.change != nil {
		v.change(ex)
	}
	s, err := sim.New(ex, ex.Seed)
	if err != nil {
		return nil, err
	}
	s.Workers = 1
	s.AttachMate()
	for !s.Done() {
		s.Advance(1000)
	}
	if len(s.Desk.Lines) == 0 {
		return nil, fmt.Errorf("%s: no line was logged", v.caption)
	}
	return drawLine(ex, s.Desk.Lines[0], v), nil
}

func drawLine(ex *exercise.Exercise, l *survey.LineRecord, v *view) *image.RGBA {
	w := picture.Waterfall{
		Title: v.caption, Channel: product.ChannelLabel(ex.Sonar.Channels[v.channel]), RangeScale: ex.Sonar.RangeScale,
	}
	for i, row := range l.Rows[v.channel] {
		w.Port, w.Starboard = append(w.Port, row.Port), append(w.Starboard, row.Starboard)
		w.BottomTrack = append(w.BottomTrack, l.Pings[i].Height)
		w.AlongTrack = append(w.AlongTrack, l.Pings[i].Along)
	}
	return picture.Draw(w, halfWidth, height)
}

// page is the gallery's own page.
func page() string {
	var b strings.Builder
	b.WriteString("# Gallery\n\nThe same ground seen in two ways. Every picture is rendered by `go generate ./cmd/gallery` from a short\nsession: sea floor, fish, water, receiver and desk; nothing is painted by hand. Synthetic data, not for navigation.\n")
	for _, p := range plates {
		fmt.Fprintf(&b, "\n## %s\n\n%s\n\nLeft: %s. Right: %s.\n\n![%s](%s.png)\n", p.title, p.why, p.left.caption, p.right.caption, p.title, p.file)
	}
	return b.String()
}
