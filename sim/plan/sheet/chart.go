package sheet

import (
	"bytes"
	"encoding/base64"
	"fmt"
	"html"
	"image"
	"image/color"
	"image/png"
	"math"
	"strings"

	"dryline/seabed/units"
	"dryline/sim/plan"
)

// chart is the plan seen from above, as SVG: north up, one unit a pixel.
type chart struct {
	in             Input
	x0, y0, x1, y1 float64 // metres
	scale          float64 // pixels a metre
	b              strings.Builder
}

const chartWide, chartHigh = 760, 680 // pixels at most

func (c *chart) px(p plan.Point) (x, y float64) {
	return (p.X - c.x0) * c.scale, (c.y1 - p.Y) * c.scale
}

func (c *chart) f(format string, args ...any) { fmt.Fprintf(&c.b, format, args...) }

// Chart draws it.
func Chart(in Input) string {
	c := &chart{in: in}
	c.x0, c.y0, c.x1, c.y1 = Extent(in.Plan)
	pad := 0.03 * max(c.x1-c.x0, c.y1-c.y0)
	c.x0, c.y0, c.x1, c.y1 = c.x0-pad, c.y0-pad, c.x1+pad, c.y1+pad
	c.scale = min(chartWide/(c.x1-c.x0), chartHigh/(c.y1-c.y0))
	w, h := (c.x1-c.x0)*c.scale, (c.y1-c.y0)*c.scale
	c.f(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %.0f %.0f" width="%.0f" height="%.0f" role="img" aria-label="Chart of the plan" font-family="sans-serif">`, w, h, w, h)
	c.f(`<defs><pattern id="bare" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><path d="M0 0V7" stroke="#b3541e" stroke-width="2.2"/></pattern>` +
		`<pattern id="clear" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(-45)"><path d="M0 0V6" stroke="#7a1f3d" stroke-width="1.6"/></pattern></defs>`)
	c.ground(w, h)
	c.unseen()
	c.area()
	c.keepOuts()
	c.ways()
	c.furniture(w, h)
	c.f(`</svg>`)
	return c.b.String()
}

// Extent is the rectangle that a plan's lines, turns and area take up, metres.
func Extent(p *plan.Plan) (x0, y0, x1, y1 float64) {
	x0, y0, x1, y1 = math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	add := func(q plan.Point) { x0, x1, y0, y1 = min(x0, q.X), max(x1, q.X), min(y0, q.Y), max(y1, q.Y) }
	for i := range p.Lines {
		l := &p.Lines[i]
		n := l.Length()
		ux, uy := (l.B.X-l.A.X)/n, (l.B.Y-l.A.Y)/n
		in, out := p.RunIn+p.Layback, p.RunOut+p.Layback
		add(plan.Point{X: l.A.X - in*ux, Y: l.A.Y - in*uy})
		add(plan.Point{X: l.B.X + out*ux, Y: l.B.Y + out*uy})
	}
	for i := range p.Turns {
		t := &p.Turns[i].Path
		for s := 0.0; s <= t.Length(); s += 5 {
			w, _ := t.At(s)
			add(plan.Point{X: w.X, Y: w.Y})
		}
	}
	for i := range p.Spec.Parts {
		for _, q := range p.Spec.Parts[i].Outer {
			add(q)
		}
	}
	return
}

// ground is the depth as tints with contours, embedded as a picture.
func (c *chart) ground(w, h float64) {
	nx, ny := int(w/2), int(h/2)
	if nx < 1 || ny < 1 {
		return
	}
	depth := make([]float64, nx*ny)
	low, high := math.Inf(1), math.Inf(-1)
	for j := range ny {
		for i := range nx {
			d, known := c.in.Plan.Spec.Ground.DepthAt(c.x0+(float64(i)+0.5)*2/c.scale, c.y1-(float64(j)+0.5)*2/c.scale)
			if !known {
				d = math.NaN()
			} else {
				low, high = min(low, d), max(high, d)
			}
			depth[j*nx+i] = d
		}
	}
	if low > high {
		return
	}
	every := contourEvery(high - low)
	img := image.NewNRGBA(image.Rect(0, 0, nx, ny))
	for j := range ny {
		for i := range nx {
			d := depth[j*nx+i]
			if math.IsNaN(d) {
				img.SetNRGBA(i, j, color.NRGBA{222, 218, 210, 255})
				continue
			}
			t := (d - low) / max(high-low, 0.1)
			p := color.NRGBA{uint8(232 - 92*t), uint8(240 - 62*t), uint8(240 - 36*t), 255}
			edge := func(k int) bool { return math.Floor(depth[k]/every) != math.Floor(d/every) && !math.IsNaN(depth[k]) }
			if i > 0 && edge(j*nx+i-1) || j > 0 && edge((j-1)*nx+i) {
				p = color.NRGBA{uint8(192 - 92*t), uint8(204 - 72*t), uint8(208 - 52*t), 255}
			}
			img.SetNRGBA(i, j, p)
		}
	}
	var out bytes.Buffer
	if png.Encode(&out, img) != nil {
		return
	}
	c.f(`<image width="%.0f" height="%.0f" preserveAspectRatio="none" href="data:image/png;base64,%s"/>`, w, h, base64.StdEncoding.EncodeToString(out.Bytes()))
}

// contourEvery is a round distance between some eight contours, metres.
func contourEvery(span float64) float64 {
	for _, e := range []float64{0.2, 0.5, 1, 2, 5, 10, 20, 50} {
		if span/e <= 10 {
			return e
		}
	}
	return 100
}

// unseen hatches the cells that no line reaches, and tints those under the fish only.
func (c *chart) unseen() {
	v := &c.in.Plan.Covered
	for j := range v.NY {
		for i := 0; i < v.NX; i++ {
			if v.Looks[j*v.NX+i] != 0 {
				continue
			}
			from := i
			for i+1 < v.NX && v.Looks[j*v.NX+i+1] == 0 {
				i++
			}
			x, y := c.px(plan.Point{X: v.X0 + float64(from)*v.Cell, Y: v.Y0 + float64(j+1)*v.Cell})
			c.f(`<rect x="%.1f" y="%.1f" width="%.1f" height="%.1f" fill="url(#bare)" fill-opacity=".75"/>`, x, y, float64(i-from+1)*v.Cell*c.scale, v.Cell*c.scale)
		}
	}
}

func (c *chart) path(points []plan.Point, closed bool) string {
	var b strings.Builder
	for i, p := range points {
		x, y := c.px(p)
		fmt.Fprintf(&b, "%c%.1f %.1f", "ML"[min(i, 1)], x, y)
	}
	if closed {
		b.WriteByte('Z')
	}
	return b.String()
}

func (c *chart) area() {
	s := c.in.Plan.Spec
	for i := range s.Parts {
		d := c.path(s.Parts[i].Outer, true)
		for _, h := range s.Parts[i].Holes {
			d += c.path(h, true)
		}
		c.f(`<path d="%s" fill="none" stroke="#1d2b34" stroke-width="1.8" stroke-dasharray="9 4"/>`, d)
	}
	if len(s.Route) > 1 {
		c.f(`<path d="%s" fill="none" stroke="#1d2b34" stroke-width="1.8" stroke-dasharray="9 4"/>`, c.path(s.Route, false))
	}
}

func (c *chart) keepOuts() {
	for _, k := range c.in.Plan.Spec.KeepOuts {
		x, y := c.px(k.Path[0])
		switch {
		case k.Ring:
			c.f(`<path d="%s" fill="url(#clear)" stroke="#7a1f3d" stroke-width="1.5"/>`, c.path(k.Path, true))
		case len(k.Path) == 1:
			c.f(`<circle cx="%.1f" cy="%.1f" r="%.1f" fill="url(#clear)" stroke="#7a1f3d" stroke-width="1.5"/>`, x, y, max(k.Radius*c.scale, 3))
		default:
			c.f(`<path d="%s" fill="none" stroke="#7a1f3d" stroke-opacity=".25" stroke-width="%.1f"/><path d="%s" fill="none" stroke="#7a1f3d" stroke-width="1.5"/>`, c.path(k.Path, false), 2*k.Radius*c.scale, c.path(k.Path, false))
		}
		c.f(`<text x="%.1f" y="%.1f" font-size="12" fill="#5d1730" stroke="#fff" stroke-width="3" paint-order="stroke">%s</text>`, x+max(k.Radius*c.scale, 3)*0.7+4, y-max(k.Radius*c.scale, 3)*0.7-2, html.EscapeString(k.Name))
	}
}

func (c *chart) ways() {
	p := c.in.Plan
	for i := range p.Turns {
		t := &p.Turns[i]
		var way []plan.Point
		for s := 0.0; ; s += 6 {
			w, _ := t.Path.At(min(s, t.Path.Length()))
			way = append(way, plan.Point{X: w.X, Y: w.Y})
			if s >= t.Path.Length() {
				break
			}
		}
		before, after := &p.Lines[t.After], &p.Lines[t.Before]
		way = append(append([]plan.Point{before.B}, way...), after.A)
		stroke := `stroke="#52707c" stroke-width="1"`
		if t.Unsafe != "" {
			stroke = `stroke="#c01f2e" stroke-width="1.8" stroke-dasharray="2 3"`
		}
		c.f(`<path d="%s" fill="none" %s/>`, c.path(way, false), stroke)
	}
	// Names at alternate ends collide least; small plans show all, large ones every few.
	every := max(len(p.Lines)/40+1, 1)
	for i := range p.Lines {
		l := &p.Lines[i]
		x0, y0 := c.px(l.A)
		x1, y1 := c.px(l.B)
		style := map[plan.Kind]string{
			plan.Main: `stroke="#0b3a53" stroke-width="2"`, plan.Edge: `stroke="#0b3a53" stroke-width="1.6" stroke-dasharray="10 3 2 3"`,
			plan.Second: `stroke="#2f6f4f" stroke-width="1.8"`, plan.Across: `stroke="#6b4a8a" stroke-width="1.5"`,
		}[l.Kind]
		c.f(`<path d="M%.1f %.1fL%.1f %.1f" %s/>`, x0, y0, x1, y1, style)
		a := math.Atan2(y1-y0, x1-x0)
		mx, my := x0+(x1-x0)*0.55, y0+(y1-y0)*0.55
		c.f(`<path d="M%.1f %.1fL%.1f %.1fL%.1f %.1f" fill="none" stroke="#0b3a53" stroke-width="1.6"/>`,
			mx-7*math.Cos(a-0.5), my-7*math.Sin(a-0.5), mx, my, mx-7*math.Cos(a+0.5), my-7*math.Sin(a+0.5))
		if i%every == 0 {
			tx, ty := x0+(x1-x0)*0.06, y0+(y1-y0)*0.06
			c.f(`<text x="%.1f" y="%.1f" font-size="12" fill="#0b3a53" stroke="#fff" stroke-width="3" paint-order="stroke" text-anchor="middle">%s</text>`, tx, ty+4, html.EscapeString(l.Name))
		}
	}
	if len(p.Lines) > 0 {
		x, y := c.px(p.Lines[0].A)
		c.f(`<circle cx="%.1f" cy="%.1f" r="5" fill="#fff" stroke="#0b3a53" stroke-width="2"/>`, x, y)
		x, y = c.px(p.Lines[len(p.Lines)-1].B)
		c.f(`<rect x="%.1f" y="%.1f" width="9" height="9" fill="#fff" stroke="#0b3a53" stroke-width="2"/>`, x-4.5, y-4.5)
	}
}

// furniture is scale, north and stream.
func (c *chart) furniture(w, h float64) {
	bar := 10.0
	for _, b := range []float64{20, 50, 100, 200, 500, 1000, 2000} {
		if b*c.scale < w/4 {
			bar = b
		}
	}
	n := bar * c.scale
	c.f(`<rect x="8" y="%.1f" width="%.1f" height="30" fill="#fff" fill-opacity=".85"/><path d="M16 %.1fv5h%.1fv-5" fill="none" stroke="#1d2b34" stroke-width="1.6"/><text x="%.1f" y="%.1f" font-size="12" fill="#1d2b34" text-anchor="middle">%g m</text>`,
		h-38, n+16, h-20, n, 16+n/2, h-22, bar)
	c.f(`<g transform="translate(%.1f 30)"><circle r="17" fill="#fff" fill-opacity=".85"/><path d="M0 -14L5 8L0 4L-5 8Z" fill="#1d2b34"/><text y="-17" font-size="12" text-anchor="middle" fill="#1d2b34" stroke="#fff" stroke-width="3" paint-order="stroke">N</text></g>`, w-26)
	if s := c.in.Plan.Spec; s.Stream > 0 {
		c.f(`<g transform="translate(%.1f 78)"><circle r="17" fill="#fff" fill-opacity=".85"/><path transform="rotate(%.0f)" d="M0 12V-10M-5 -4L0 -11L5 -4" fill="none" stroke="#1f5f8b" stroke-width="2"/><text y="30" font-size="12" text-anchor="middle" fill="#1f5f8b" stroke="#fff" stroke-width="3" paint-order="stroke">%.1f kn</text></g>`, w-26, s.StreamSet*180/math.Pi, units.InKnots(s.Stream))
	}
}
