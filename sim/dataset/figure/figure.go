package figure

import (
	"image/color"
	"io"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgimg"
)

// Sizes, points; a figure has 1.5 pixels to the point.
const (
	panelWide = 250
	panelHigh = 190
	margin    = 10
	head      = 30
	foot      = 18
	dpi       = 108
)

var (
	paper = color.RGBA{0xff, 0xff, 0xff, 0xff}
	ink   = color.RGBA{0x22, 0x26, 0x2a, 0xff}
	faint = color.RGBA{0xd4, 0xd4, 0xd0, 0xff}
)

// Colours of what a panel shows, in order.
var colours = []color.RGBA{
	{0x00, 0x72, 0xb2, 0xff}, // blue
	{0xd5, 0x5e, 0x00, 0xff}, // vermillion
	{0x00, 0x9e, 0x73, 0xff}, // bluish green
	{0xcc, 0x79, 0xa7, 0xff}, // reddish purple
}

var glyphs = []draw.GlyphDrawer{draw.CircleGlyph{}, draw.PyramidGlyph{}, draw.SquareGlyph{}, draw.CrossGlyph{}}

func lettering(size vg.Length) font.Font {
	return font.Font{Typeface: "Liberation", Variant: "Sans", Size: size}
}

// Panel is a plot in the making.
type Panel struct{ p *plot.Plot }

// NewPanel is a panel with its axes.
func NewPanel(title, x, y string) Panel {
	p := plot.New()
	p.BackgroundColor = paper
	p.Title.Text, p.X.Label.Text, p.Y.Label.Text = title, x, y
	p.Title.TextStyle.Font = lettering(10)
	p.Title.TextStyle.Color, p.Title.Padding = ink, 3
	for _, axis := range []*plot.Axis{&p.X, &p.Y} {
		axis.Label.TextStyle.Font, axis.Tick.Label.Font, axis.Tick.Marker = lettering(8), lettering(7.5), evenTicks{}
		axis.Color, axis.Tick.Color, axis.Label.TextStyle.Color, axis.Tick.Label.Color = ink, ink, ink, ink
	}
	p.Legend.TextStyle.Font, p.Legend.Top, p.Legend.Padding, p.Legend.ThumbnailWidth = lettering(7.5), true, 1, 18
	grid := plotter.NewGrid()
	grid.Vertical.Color, grid.Horizontal.Color = faint, faint
	p.Add(grid)
	return Panel{p}
}

// Range sets what the axes span.
func (p Panel) Range(x0, x1, y0, y1 float64) {
	p.p.X.Min, p.p.X.Max, p.p.Y.Min, p.p.Y.Max = x0, x1, y0, y1
}

// Key is where the key stands.
func (p Panel) Key(top, left bool) { p.p.Legend.Top, p.p.Legend.Left = top, left }

// LogX has the x axis go by powers.
func (p Panel) LogX() {
	p.p.X.Scale, p.p.X.Tick.Marker = plot.LogScale{}, plot.LogTicks{Prec: -1}
}

// Rows names the rows of the y axis, at 0, 1 and so on from below.
func (p Panel) Rows(names ...string) {
	p.p.NominalY(names...)
	p.p.Y.Min, p.p.Y.Max = -0.6, float64(len(names))-0.4
}

// Columns names the columns of the x axis, at 0, 1 and so on.
func (p Panel) Columns(names ...string) {
	p.p.NominalX(names...)
	p.p.X.Min, p.p.X.Max = -0.6, float64(len(names))-0.4
}

// Points are places, joined by a line if joined is set; which says their colour and glyph, and
// name what the key has of them, nothing for none.
func (p Panel) Points(which int, name string, joined bool, at ...plotter.XY) {
	points := &plotter.Scatter{XYs: at, GlyphStyle: draw.GlyphStyle{Color: colours[which], Radius: 2.4, Shape: glyphs[which]}}
	p.p.Add(points)
	thumbs := []plot.Thumbnailer{points}
	if joined {
		line := &plotter.Line{XYs: at, LineStyle: draw.LineStyle{Color: colours[which], Width: 1}}
		p.p.Add(line)
		thumbs = append(thumbs, line)
	}
	p.inKey(name, len(at), thumbs...)
}

// Dashes are a dashed line.
func (p Panel) Dashes(which int, name string, at ...plotter.XY) {
	line := &plotter.Line{XYs: at, LineStyle: draw.LineStyle{Color: colours[which], Width: 1.2, Dashes: []vg.Length{4, 2.5}}}
	p.p.Add(line)
	p.inKey(name, len(at), line)
}

// Bars are a bar to each column, beside those of others: shift is by how many bars to the
// right of the column's middle.
func (p Panel) Bars(which int, name string, shift float64, values ...float64) error {
	const wide = 6
	bars, err := plotter.NewBarChart(plotter.Values(values), wide)
	if err != nil {
		return err
	}
	bars.Color, bars.LineStyle.Width, bars.Offset = colours[which], 0, vg.Length(shift*wide)
	p.p.Add(bars)
	p.inKey(name, len(values), bars)
	return nil
}

// Words are texts to the right of places.
func (p Panel) Words(at []plotter.XY, words []string) error {
	labels, err := plotter.NewLabels(plotter.XYLabels{XYs: at, Labels: words})
	if err != nil {
		return err
	}
	for i := range labels.TextStyle {
		labels.TextStyle[i].Font, labels.TextStyle[i].YAlign, labels.TextStyle[i].Color = lettering(7.5), text.YCenter, ink
	}
	labels.Offset.X = 5
	p.p.Add(labels)
	return nil
}

func (p Panel) inKey(name string, n int, thumbs ...plot.Thumbnailer) {
	if name != "" && n > 0 {
		p.p.Legend.Add(name, thumbs...)
	}
}

// Draw writes panels as a PNG, in rows of some columns at most.
func Draw(out io.Writer, title, caution string, columns int, panels ...Panel) error {
	columns = max(min(columns, len(panels)), 1)
	rows := max((len(panels)+columns-1)/columns, 1)
	wide, high := vg.Length(max(columns*panelWide, 2*panelWide)+2*margin), vg.Length(rows*panelHigh+head+foot+2*margin)
	img := vgimg.NewWith(vgimg.UseWH(wide, high), vgimg.UseDPI(dpi), vgimg.UseBackgroundColor(paper))
	all := draw.New(img)
	write := func(size, y vg.Length, words string) {
		all.FillText(draw.TextStyle{Color: ink, Font: lettering(size), Handler: plot.DefaultTextHandler}, vg.Point{X: margin, Y: y}, words)
	}
	write(13, high-margin-12, title)
	write(8, margin, caution)
	body := draw.Crop(all, margin, -margin, margin+foot, -margin-head)
	grid := make([][]*plot.Plot, rows)
	for i := range grid {
		grid[i] = make([]*plot.Plot, columns)
		for j := range grid[i] {
			if k := i*columns + j; k < len(panels) {
				grid[i][j] = panels[k].p
			}
		}
	}
	if len(panels) == 0 {
		write(9, high/2, "nothing to show")
	}
	tiles := draw.Tiles{Rows: rows, Cols: columns, PadX: 12, PadY: 10}
	for i, row := range plot.Align(grid, tiles, body) {
		for j, canvas := range row {
			if grid[i][j] != nil {
				grid[i][j].Draw(canvas)
			}
		}
	}
	_, err := vgimg.PngCanvas{Canvas: img}.WriteTo(out)
	return err
}
