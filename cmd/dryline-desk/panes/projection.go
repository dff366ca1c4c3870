package panes

import "image"

// Projection puts the ground on a pane, north up.
type Projection struct {
	Pane image.Rectangle
	X, Y float64 // on the ground at the middle of the pane, metres
	PerM float64 // pixels a metre
}

// At is where a point of the ground lies, pixels.
func (p *Projection) At(x, y float64) (px, py float64) {
	cx, cy := float64(p.Pane.Min.X+p.Pane.Max.X)/2, float64(p.Pane.Min.Y+p.Pane.Max.Y)/2
	return cx + (x-p.X)*p.PerM, cy - (y-p.Y)*p.PerM
}

// Ground returns the place under a pixel, metres.
func (p *Projection) Ground(px, py float64) (x, y float64) {
	cx, cy := float64(p.Pane.Min.X+p.Pane.Max.X)/2, float64(p.Pane.Min.Y+p.Pane.Max.Y)/2
	return p.X + (px-cx)/p.PerM, p.Y - (py-cy)/p.PerM
}

// Fit makes the projection show a rectangle of the ground whole.
func (p *Projection) Fit(x0, y0, x1, y1 float64) {
	p.X, p.Y = (x0+x1)/2, (y0+y1)/2
	p.PerM = min(float64(p.Pane.Dx())/max(x1-x0, 1), float64(p.Pane.Dy())/max(y1-y0, 1))
}

// Zoom changes the scale and keeps the ground under a pixel where it is.
func (p *Projection) Zoom(factor, px, py float64) {
	x, y := p.Ground(px, py)
	p.PerM = min(max(p.PerM*factor, 0.02), 60)
	nx, ny := p.Ground(px, py)
	p.X += x - nx
	p.Y += y - ny
}
