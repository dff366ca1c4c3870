package app

import (
	"fmt"
	"image"
	"math"
	"sync/atomic"

	"dryline/cmd/dryline-desk/look"

	"github.com/ebitenui/ebitenui"
	"github.com/ebitenui/ebitenui/input"
	"github.com/ebitenui/ebitenui/widget"
	"github.com/hajimehoshi/ebiten/v2"
	"github.com/hajimehoshi/ebiten/v2/inpututil"
)

// Screen is one state of the window.
type Screen interface {
	// Build lays out the controls for a size and a look.
	Build(g *Game, size image.Rectangle) *widget.Container
	// Update takes input and moves on; it runs after the controls have had
	// theirs.
	Update(g *Game) error
	// Draw draws what lies under the controls.
	Draw(g *Game, dst *ebiten.Image)
	// Over draws what lies over them.
	Over(g *Game, dst *ebiten.Image)
	// Keys are the keys of the screen, for the overlay.
	Keys() []Key
	// Close is called when the window or the screen closes.
	Close(g *Game)
}

// Game is the window.
type Game struct {
	Look     *look.Look
	Settings Settings
	Store    Store
	Apart    bool   // the crew has a goroutine of its own
	Seed     uint64 // for sessions begun, 0 for the exercise's own
	Silent   bool   // the machine cannot play sounds: asking it to would end the window
	TellTo   string // file that tells what is shown, empty for none
	Notice   string // a line shown at the foot until the next key or click

	ui     ebitenui.UI
	screen Screen
	next   Screen
	size   image.Rectangle
	device float64
	stale  bool // controls have to be built again
	help   bool
	sounds sounder
	quit   atomic.Bool
	told   int  // updates since the window opened
	typed  bool // a field had the keys when the frame began
}

// NewGame opens the window on a screen.
func NewGame(store Store, apart bool) *Game {
	g := &Game{Store: store, Apart: apart, device: 1, Settings: DefaultSettings()}
	g.ui.DisableDefaultFocus = true // the tab key is the watch's
	g.loadSettings()
	g.relook()
	return g
}

// loadSettings reads the settings file; a broken one is set aside and said.
func (g *Game) loadSettings() {
	data, err := g.Store.Settings()
	if err != nil || data == nil {
		return
	}
	s, err := ParseSettings(data)
	if err == nil {
		g.Settings = s
		return
	}
	where, asideErr := g.Store.SetAside()
	if asideErr != nil {
		g.Notice = fmt.Sprintf("%v; using the defaults", err)
		return
	}
	g.Notice = fmt.Sprintf("%v; using the defaults, the old file is kept as %s", err, where)
	g.keepSettings()
}

func (g *Game) keepSettings() {
	if err := g.Store.KeepSettings(g.Settings.Encode()); err != nil {
		g.Notice = "the settings could not be kept: " + err.Error()
	}
}

// Change changes the settings, keeps them and builds the window anew.
func (g *Game) Change(f func(*Settings)) {
	f(&g.Settings)
	g.keepSettings()
	g.relook()
}

func (g *Game) relook() {
	theme := look.Themes[g.Settings.Theme]
	if theme == nil {
		theme = &look.Day
	}
	g.Look = look.New(theme, g.device*g.Settings.Scale)
	g.stale = true
}

// Go shows another screen from the next frame on.
func (g *Game) Go(s Screen) { g.next = s }

// Screen is what is shown.
func (g *Game) Screen() Screen { return g.screen }

// Rebuild has the controls built again.
func (g *Game) Rebuild() { g.stale = true }

// Pointer is where the pointer is, and whether a control is under it.
func (g *Game) Pointer() (x, y int, taken bool) {
	x, y = ebiten.CursorPosition()
	return x, y, input.UIHovered || g.help
}

// Typing reports whether this frame's keys go, or have gone, into a field: the
// one that ends the typing is no order to the screen as well.
func (g *Game) Typing() bool { return g.typed || g.inField() }

func (g *Game) inField() bool {
	t, ok := g.ui.GetFocusedWidget().(*widget.TextInput)
	return ok && t != nil
}

// Quit ends the window at the next frame; it may be called from anywhere.
func (g *Game) Quit() { g.quit.Store(true) }

// Leave closes the screen for good: a watch under way is kept.
func (g *Game) Leave() {
	if g.screen != nil {
		g.screen.Close(g)
		g.screen = nil
	}
}

// Update implements [ebiten.Game].
func (g *Game) Update() error {
	if ebiten.IsWindowBeingClosed() || g.quit.Load() {
		g.Leave()
		return ebiten.Termination
	}
	g.Store.Poll()
	if g.next != nil {
		if g.screen != nil {
			g.screen.Close(g)
		}
		g.screen, g.next, g.stale, g.help = g.next, nil, true, false
	}
	if g.size.Empty() || g.screen == nil {
		return nil
	}
	if g.stale {
		g.stale = false
		g.ui.Container = g.screen.Build(g, g.size)
	}
	g.typed = g.inField()
	g.ui.Update()
	if g.Typing() && inpututil.IsKeyJustPressed(ebiten.KeyEscape) {
		g.Unfocus()
	}
	if !g.Typing() && inpututil.IsKeyJustPressed(ebiten.KeyF1) {
		g.help = !g.help
	}
	if g.help && (inpututil.IsKeyJustPressed(ebiten.KeyEscape) || inpututil.IsMouseButtonJustPressed(ebiten.MouseButtonLeft)) {
		g.help = false
		return nil
	}
	if g.Notice != "" && (inpututil.IsKeyJustPressed(ebiten.KeyEscape) || inpututil.IsMouseButtonJustPressed(ebiten.MouseButtonLeft)) {
		g.Notice = ""
	}
	g.tellFile()
	return g.screen.Update(g)
}

// Draw implements [ebiten.Game].
func (g *Game) Draw(dst *ebiten.Image) {
	dst.Fill(g.Look.Desk)
	if g.screen == nil || g.ui.Container == nil {
		return
	}
	g.screen.Draw(g, dst)
	g.ui.Draw(dst)
	g.screen.Over(g, dst)
	g.notice(dst)
	if g.help {
		g.keysOverlay(dst)
	}
}

// notice letters the line at the foot.
func (g *Game) notice(dst *ebiten.Image) {
	if g.Notice == "" {
		return
	}
	l := g.Look
	h := int(look.Tall(l.Body)) + l.Px(12)
	r := image.Rect(g.size.Min.X, g.size.Max.Y-h, g.size.Max.X, g.size.Max.Y)
	look.Fill(dst, r, l.Ink)
	look.Write(dst, fitted(g.Notice, l, r.Dx()-l.Px(24)), l.Body, float64(l.Px(12)), float64(r.Min.Y+l.Px(6)), l.Panel, look.Left)
}

// fitted cuts a line of body lettering that is too long for a width.
func fitted(s string, l *look.Look, width int) string {
	if look.Wide(s, l.Body) <= float64(width) {
		return s
	}
	runes := []rune(s)
	for len(runes) > 0 && look.Wide(string(runes)+"...", l.Body) > float64(width) {
		runes = runes[:len(runes)-1]
	}
	return string(runes) + "..."
}

// LayoutF implements [ebiten.LayoutFer]: a pixel of ours is a pixel of the
// screen.
func (g *Game) LayoutF(wide, tall float64) (float64, float64) {
	device := ebiten.Monitor().DeviceScaleFactor()
	if device <= 0 {
		device = 1
	}
	g.Resize(int(math.Ceil(wide*device)), int(math.Ceil(tall*device)), device)
	return float64(g.size.Dx()), float64(g.size.Dy())
}

// Layout implements [ebiten.Game]; LayoutF is called in its place.
func (g *Game) Layout(int, int) (int, int) { panic("app: Layout is not called") }

// Resize sets the size of the window in pixels and how many of them the screen
// gives a point.
func (g *Game) Resize(wide, tall int, device float64) {
	size := image.Rect(0, 0, max(wide, 320), max(tall, 240))
	if device != g.device {
		g.device = device
		g.relook()
	}
	if size != g.size {
		g.size, g.stale = size, true
	}
}

// Unfocus takes the keys back from a field.
func (g *Game) Unfocus() { g.ui.ClearFocus() }
