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
	"slices"
	"strings"
	"sync"

	"dryline/sim/product"
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
		errs  = make([]error, len(all()))
	)
	for i, p := range all() {
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
	var halves [2]*image.RGBA
	for i, v := range []*view{&p.left, &p.right} {
		r, err := v.fly()
		if err != nil {
			return fmt.Errorf("%s: %w", p.file, err)
		}
		halves[i] = r.draw(v)
	}
	left, right := halves[0], halves[1]
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

// page is the gallery's own page.
func page() string {
	var b strings.Builder
	b.WriteString("# Gallery\n\nEvery picture is rendered by `go generate ./cmd/gallery` from a short session: sea floor, fish, water, receiver\nand desk; nothing is painted by hand. Synthetic data, not for navigation.\n")
	section := func(title, what string, plates []plate) {
		fmt.Fprintf(&b, "\n## %s\n\n%s\n", title, what)
		for _, p := range plates {
			fmt.Fprintf(&b, "\n### %s\n\n%s\n\nLeft: %s. Right: %s.\n\n![%s](%s.png)\n", p.title, p.why, p.left.title(), p.right.title(), p.title, p.file)
		}
	}
	section("What tells them apart", "Things that look alike, and the fact that tells one from the other. The tests of `cmd/gallery` measure each on the\nrecord that is shown here.", pairs)
	section("One thing changed", "The same ground seen in two ways.", plates)
	return b.String()
}

// all are the plates in the order of the page.
func all() []plate { return slices.Concat(pairs, plates) }
