package app

import (
	"fmt"
	"image"
	"math"
	"sync/atomic"
	"time"

	"dryline/cmd/dryline-desk/look"
	"dryline/sonar"

	"github.com/ebitenui/ebitenui"
	"github.com/ebitenui/ebitenui/input"
	"github.com/ebitenui/ebitenui/widget"
	"github.com/hajimehoshi/ebiten/v2"
)

// Game is the window.
type Game struct {
	Look      *look.Look
	Settings  Settings
	Store     Store
	Apart     bool             // the crew has a goroutine of its own
	Step      sonar.GroundStep // of sessions begun
	Seed      uint64           // for sessions begun, 0 for the exercise's own
	Silent    bool             // the machine cannot play sounds: asking it to would end the window
	InspectTo string           // file for what is shown, empty for none
	Notice    string           // a line shown at the foot for a while, or until Esc

	// Clock is read once an update: time passes by it alone.
	Clock func() time.Time

	ui      ebitenui.UI
	screen  Screen
	next    Screen
	size    image.Rectangle
	device  float64
	stale   bool     // controls have to be built again
	keyTaps []keyTap // where keys stand in the overlay
	tap     *keyTap  // that was tapped, for the next update
	changed bool     // another screen has come
	help    bool
	sounds  sounder
	quit    atomic.Bool
	updates int    // since the window opened
	typed   bool   // a field had the keys when the frame began
	skipped bool   // the last frame was left out
	hover   string // what the control under the pointer does

	now    time.Time     // by the clock
	passed time.Duration // since the update before

	resizing  resizing
	unkept    bool   // the settings
	noticed   string // shown last
	noticeAge time.Duration
	noticeSo  func() bool // nil, or whether it is still so
	parting   string      // for the next screen
}

// NewGame opens the window on a screen.
func NewGame(store Store, apart bool) *Game {
	g := &Game{Store: store, Apart: apart, Clock: time.Now, device: 1, Settings: DefaultSettings()}
	g.ui.DisableDefaultFocus = true          // the tab key is the watch's
	ebiten.SetScreenClearedEveryFrame(false) // a frame that is left out stays as it was
	g.loadSettings()
	g.relook()
	return g
}

// loadSettings reads the settings file; a broken one is set aside and said.
func (g *Game) loadSettings() {
	data, err := g.Store.Settings()
	if err != nil {
		g.say("The settings cannot be read, and the defaults are used: " + err.Error())
		return
	}
	if data == nil {
		return
	}
	s, err := ParseSettings(data)
	if err == nil {
		g.Settings = s
		return
	}
	where, asideErr := g.Store.SetAside()
	if asideErr != nil {
		g.say(fmt.Sprintf("The defaults are used: %v.", err))
		return
	}
	g.say(fmt.Sprintf("The defaults are used (%v), and the old file is kept as %s.", err, where))
	g.keepSettings()
}

func (g *Game) keepSettings() {
	err := g.Store.KeepSettings(g.Settings.Encode())
	if g.unkept = err != nil; g.unkept {
		g.sayWhile("The settings could not be saved: "+err.Error(), func() bool { return g.unkept })
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
	g.Look = look.New(theme, g.device*min(g.Settings.Scale, g.MostScale()))
	g.stale = true
}

// The least a window may measure at scale 1, points: below it lettering would
// be cut.
const LeastWide, LeastTall = 1024, 600

// MostScale is the largest scale at which everything fits the window, at least
// 1.
func (g *Game) MostScale() float64 {
	if g.size.Empty() {
		return math.Inf(1)
	}
	return max(min(float64(g.size.Dx())/LeastWide, float64(g.size.Dy())/LeastTall)/g.device, 1)
}

// Go shows another screen from the next frame on.
func (g *Game) Go(s Screen) { g.next = s }

// Rebuild has the controls built again.
func (g *Game) Rebuild() { g.stale = true }

// Pointer is where the pointer is, and whether a control is under it.
func (g *Game) Pointer() (x, y int, taken bool) {
	x, y = pointed.at.X, pointed.at.Y
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

// Keep has a watch under way written down to its last order and moment, for a
// window that may be closed without a word.
func (g *Game) Keep() {
	if g.screen != nil {
		g.screen.Keep()
	}
}

// UnderWay reports whether a session is under way.
func (g *Game) UnderWay() bool { return g.screen != nil && g.screen.UnderWay() }

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
	g.readClock()
	g.Store.Poll()
	g.change()
	if g.size.Empty() || g.screen == nil {
		return nil
	}
	if g.tooSmall() != "" {
		g.inspectToFile()
		return nil // and time stands still
	}
	pointed.read(g.Look.Scale)
	if tapped.on = g.tap != nil; tapped.on {
		tapped.key, tapped.shift, g.tap = g.tap.key, g.tap.shift, nil
	}
	g.updateControls()
	if g.overlayTakes() {
		return nil
	}
	x, y := pointed.at.X, pointed.at.Y
	g.resizing.settle(g, image.Pt(x, y))
	g.ageNotice(justPressed(ebiten.KeyEscape))
	g.inspectToFile()
	return g.screen.Update(g)
}

// change shows the next screen, if there is one.
func (g *Game) change() {
	if g.next == nil {
		return
	}
	if g.screen != nil {
		g.screen.Close(g)
	}
	if g.screen != nil || g.parting != "" {
		g.changeNotice()
	}
	g.screen, g.next, g.stale, g.help = g.next, nil, true, false
	g.changed = true
}

// updateControls builds the controls if they are stale, and has them take input.
func (g *Game) updateControls() {
	if g.stale {
		g.stale = false
		g.hover = ""
		g.ui.Container = g.screen.Build(g, g.area())
	}
	g.typed = g.inField()
	g.ui.Update()
	if g.changed {
		g.changed = false
		g.letGo()
	}
	if g.Typing() && justPressed(ebiten.KeyEscape) {
		g.Unfocus()
	}
}

// overlayTakes shows and hides the overlay of the keys, and reports whether what was
// pressed was meant for it.
func (g *Game) overlayTakes() bool {
	if !g.Typing() && justPressed(ebiten.KeyF1) {
		g.help = !g.help
	}
	if !g.help && wentDown(ebiten.MouseButtonLeft) && pointed.at.In(g.keysRect()) {
		g.help = true
		return true
	}
	if g.help && (justPressed(ebiten.KeyEscape) || wentDown(ebiten.MouseButtonLeft)) {
		g.help = false
		for _, t := range g.keyTaps {
			if wentDown(ebiten.MouseButtonLeft) && pointed.at.In(t.at) {
				g.tap = &t
			}
		}
		return true
	}
	return false
}

// Metronome is a clock that goes on by a sixtieth of a second whenever it is
// read, for tests: however slow the machine, so much passes in so many updates.
func Metronome() func() time.Time {
	now := time.Unix(0, 0)
	return func() time.Time {
		now = now.Add(time.Second / 60)
		return now
	}
}

// readClock takes the time that has passed since the update before.
func (g *Game) readClock() {
	now := g.Clock()
	if !g.now.IsZero() {
		g.passed = max(now.Sub(g.now), 0)
	}
	g.now = now
}

// Draw implements [ebiten.Game]. Where the machine is too slow for both, the
// session goes first: every other frame stays as it was.
func (g *Game) Draw(dst *ebiten.Image) {
	if g.skipped = !g.skipped && g.screen != nil && g.screen.Late(); g.skipped {
		return
	}
	dst.Fill(g.Look.Desk)
	if says := g.tooSmall(); says != "" {
		l, y := g.Look, float64(g.Look.Px(16))
		for _, line := range wrapped(says, l.Body, float64(g.size.Dx()-l.Px(32))) {
			look.Write(dst, line, l.Body, float64(l.Px(16)), y, l.Ink, look.Left)
			y += look.Tall(l.Body)
		}
		return
	}
	if g.screen == nil || g.ui.Container == nil {
		return
	}
	g.screen.Draw(g, dst)
	g.ui.Draw(dst)
	g.screen.Over(g, dst)
	g.strip(dst)
	if g.help {
		g.keysOverlay(dst)
	}
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
	if device != g.device || size != g.size {
		g.device, g.size = device, size
		g.relook()
	}
}

// Unfocus takes the keys back from a field.
func (g *Game) Unfocus() { g.ui.ClearFocus() }
