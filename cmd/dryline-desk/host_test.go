//go:build !js

package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"image"
	"image/png"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"dryline/cmd/dryline-desk/app"

	"github.com/hajimehoshi/ebiten/v2"
	"github.com/hajimehoshi/ebiten/v2/exp/vmhost"
)

// The window is driven as a person drives it: the built program runs as a guest
// of a host that hands it keys, the mouse and ticks, draws what it draws on a
// real screen and reads the pixels back. Ticks, not the clock, drive the guest.

var (
	program   string // built once
	noWindows string // why there is no screen here, empty if there is one
)

// runner runs the tests inside a frame, where drawing and reading pixels are
// allowed.
type runner struct {
	m    *testing.M
	code int
}

func (r *runner) Update() error {
	r.code = r.m.Run()
	return ebiten.Termination
}
func (*runner) Draw(*ebiten.Image)         {}
func (*runner) Layout(w, h int) (int, int) { return w, h }
func TestMain(m *testing.M)                { os.Exit(runTests(m)) }
func say(format string, a ...any)          { fmt.Fprintf(os.Stderr, format+"\n", a...) }
func area(r app.Rect) image.Rectangle      { return image.Rect(r[0], r[1], r[2], r[3]) }

func runTests(m *testing.M) int {
	dir, err := os.MkdirTemp("", "desk")
	if err != nil {
		say("%v", err)
		return 1
	}
	defer os.RemoveAll(dir)
	program = filepath.Join(dir, "dryline-desk")
	// The tag only has the program heed EBITENGINE_VM_ENDPOINT; without that
	// variable it opens a window like any other build.
	build := exec.Command("go", "build", "-tags", "ebitenginevmguest", "-o", program, ".")
	if out, err := build.CombinedOutput(); err != nil {
		say("dryline-desk does not build: %v\n%s", err, out)
		return 1
	}
	if isUnix && os.Getenv("DISPLAY") == "" {
		noWindows = "there is no display (set DISPLAY, or start Xvfb)"
		return m.Run()
	}
	r := &runner{m: m, code: 1}
	ebiten.SetWindowVisible(false)
	if err := ebiten.RunGame(r); err != nil {
		say("no window can be opened on the display: %v", err)
		return 1
	}
	return r.code
}

// needScreen skips a test where there is no screen, unless there has to be one.
func needScreen(t *testing.T) {
	t.Helper()
	if noWindows == "" {
		return
	}
	if os.Getenv("DRYLINE_REQUIRE_TOOLS") == "1" {
		t.Fatalf("a screen is required by DRYLINE_REQUIRE_TOOLS=1: %s", noWindows)
	}
	t.Skip(noWindows)
}

// home is a place of its own for a program's settings and sessions.
type home struct{ dir string }

func newHome(t *testing.T) home { return home{t.TempDir()} }

func (h home) settings() string { return filepath.Join(h.dir, "config", "dryline", "window.json") }
func (h home) out() string      { return filepath.Join(h.dir, "out") }
func (h home) shown() string    { return filepath.Join(h.dir, "shown.json") }

// command runs the program in the home.
func (h home) command(t *testing.T, env []string, args ...string) *exec.Cmd {
	t.Helper()
	c := exec.Command(program, append([]string{"-o", h.out(), "-inspect", h.shown(), "-metronome"}, args...)...)
	for _, v := range os.Environ() {
		switch name, _, _ := strings.Cut(v, "="); name {
		case "HOME", "XDG_CONFIG_HOME", "XDG_RUNTIME_DIR", "PULSE_SERVER", "EBITENGINE_VM_ENDPOINT":
		default:
			c.Env = append(c.Env, v)
		}
	}
	c.Env = append(c.Env, "HOME="+h.dir, "XDG_CONFIG_HOME="+filepath.Join(h.dir, "config"), "GOMAXPROCS=2")
	c.Env = append(c.Env, env...)
	return c
}

// logs are the session logs kept, of one kind.
func (h home) logs(t *testing.T, pattern string) []string {
	t.Helper()
	names, err := filepath.Glob(filepath.Join(h.out(), pattern))
	if err != nil {
		t.Fatal(err)
	}
	return names
}

// desk is a program under way.
type desk struct {
	t      *testing.T
	home   home
	guest  *vmhost.GuestSession
	cmd    *exec.Cmd
	ended  chan error
	stderr bytes.Buffer
	screen *ebiten.Image
	shown  shown
	frames int     // drawn
	passed int     // ticks of the window
	seen   []int64 // ticks of the session, a look each
}

// shown holds what the window last told, see [app.Inspection].
type shown struct {
	app.Inspection
	State json.RawMessage `json:"state"`
	watch watchState
}

// watchState holds what the watch and the debrief tell of themselves.
type watchState struct {
	Exercise     string   `json:"exercise"`
	Tick         int64    `json:"tick"`
	Logging      string   `json:"logging"`
	Rate         float64  `json:"rate"`
	Paused       bool     `json:"paused"`
	CableOrdered float64  `json:"cable_ordered"`
	RangeScale   float64  `json:"range_scale"`
	Contacts     int      `json:"contacts"`
	Chosen       int      `json:"chosen"`
	Lines        []string `json:"lines"`
	Pings        int      `json:"pings"`
	Restored     float64  `json:"restored"`
	Steering     struct {
		Do   string
		Line string
	} `json:"steering"`

	Points   *float64 `json:"points"`
	Passed   bool     `json:"passed"`
	Moment   float64  `json:"moment"`
	Gates    []string `json:"gates"`
	Practice string   `json:"practice"`
	Evidence int      `json:"evidence"`
}

// openDesk starts the program in a window of the given size.
func openDesk(t *testing.T, h home, wide, tall int, args ...string) *desk {
	t.Helper()
	needScreen(t)
	// A short path: a socket's may not be longer than about a hundred letters.
	dir, err := os.MkdirTemp("", "vm")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.RemoveAll(dir) })
	listener, err := net.Listen("unix", filepath.Join(dir, "s"))
	if err != nil {
		t.Fatal(err)
	}
	defer listener.Close()
	endpoint, err := vmhost.EndpointURLFromAddr(listener.Addr())
	if err != nil {
		t.Fatal(err)
	}
	d := &desk{t: t, home: h, ended: make(chan error, 1)}
	d.cmd = h.command(t, []string{"EBITENGINE_VM_ENDPOINT=" + endpoint}, args...)
	d.cmd.Stderr = &d.stderr
	if err := d.cmd.Start(); err != nil {
		t.Fatal(err)
	}
	go func() { d.ended <- d.cmd.Wait() }()
	listener.(*net.UnixListener).SetDeadline(time.Now().Add(60 * time.Second))
	conn, err := listener.Accept()
	if err != nil {
		d.cmd.Process.Kill()
		<-d.ended
		t.Fatalf("the program does not come: %v\n%s", err, &d.stderr)
	}
	d.guest, err = vmhost.NewGuestSession(conn, &vmhost.NewGuestSessionOptions{IdleTimeout: 60 * time.Second})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if d.guest != nil {
			d.close()
		}
	})
	d.resize(wide, tall)
	d.ticks(8)
	return d
}

// resize gives the window another size, pixels.
func (d *desk) resize(wide, tall int) {
	d.t.Helper()
	if d.screen != nil {
		d.screen.Deallocate()
	}
	d.screen = ebiten.NewImage(wide, tall)
	if err := d.guest.SetOutsideScreen(d.screen); err != nil {
		d.t.Fatal(err)
	}
}

// close closes the window, waits for the program to end by itself, and returns
// its exit status.
func (d *desk) close() int {
	d.t.Helper()
	if err := d.guest.Close(); err != nil {
		d.t.Errorf("closing the window: %v", err)
	}
	d.guest = nil
	d.screen.Deallocate()
	return d.wait()
}

// kill has the system end the program on the spot, and returns its exit status.
func (d *desk) kill() int {
	d.t.Helper()
	if err := d.cmd.Process.Kill(); err != nil {
		d.t.Fatal(err)
	}
	d.guest.Close() // there is nobody to answer
	d.guest = nil
	d.screen.Deallocate()
	return d.wait()
}

// wait waits for the program to end and returns its exit status.
func (d *desk) wait() int {
	d.t.Helper()
	select {
	case <-d.ended:
	case <-time.After(60 * time.Second):
		d.cmd.Process.Kill()
		<-d.ended
		d.t.Errorf("the program does not end\n%s", &d.stderr)
	}
	return d.cmd.ProcessState.ExitCode()
}

// ticks lets n sixtieths of a second of the window's time pass.
func (d *desk) ticks(n int) {
	d.t.Helper()
	d.passed += n
	d.guest.AdvanceTicks(n)
	if !d.guest.WaitTicks() {
		d.t.Fatalf("the window is gone: %v\n%s", d.guest.Err(), &d.stderr)
	}
}

// look brings what the window tells up to date: it tells every sixth tick, so
// after twelve of them what is told is later than the call.
func (d *desk) look() *shown {
	d.t.Helper()
	d.ticks(12)
	data, err := os.ReadFile(d.home.shown())
	if err != nil {
		d.t.Fatal(err)
	}
	d.shown = shown{}
	if err := json.Unmarshal(data, &d.shown); err != nil {
		d.t.Fatalf("what the window tells is no JSON: %v", err)
	}
	if len(d.shown.State) > 0 && d.shown.State[0] == '{' {
		if err := json.Unmarshal(d.shown.State, &d.shown.watch); err != nil {
			d.t.Fatalf("the state told: %v", err)
		}
	}
	d.seen = append(d.seen, d.shown.watch.Tick)
	return &d.shown
}

// until looks until it is so. The limit is in ticks of the window.
func (d *desk) until(what string, most int, so func(*shown) bool) *shown {
	d.t.Helper()
	for range most / 12 {
		if s := d.look(); so(s) {
			return s
		}
	}
	d.t.Fatalf("%s: not so after %d ticks of the window; %s %s, notice %q", what, most, d.shown.Screen, d.shown.State, d.shown.Notice)
	return nil
}

// frame has the window drawn.
func (d *desk) frame() {
	d.t.Helper()
	d.guest.AdvanceTicks(1)
	d.guest.AdvanceFrame()
	if !d.guest.WaitFrame() || !d.guest.CompositeFrame() {
		d.t.Fatalf("the window is not drawn: %v\n%s", d.guest.Err(), &d.stderr)
	}
	// All tests run within one frame of the host, at whose end alone what is drawn
	// would go to the card: reading a pixel sends it.
	if d.frames++; d.frames%8 == 0 {
		d.screen.At(0, 0)
	}
}

// picture is a screenshot, kept for a person to see if the tests run with -artifacts.
func (d *desk) picture(name string) *image.RGBA {
	d.t.Helper()
	for range 3 { // what was turned on shows a frame later
		d.frame()
	}
	m := image.NewRGBA(d.screen.Bounds())
	d.screen.ReadPixels(m.Pix)
	if f := flag.Lookup("test.artifacts"); f == nil || f.Value.String() != "true" {
		return m // nobody is to look at it
	}
	f, err := os.Create(filepath.Join(d.t.ArtifactDir(), name+".png"))
	if err != nil {
		d.t.Fatal(err)
	}
	if err := errors.Join(png.Encode(f, m), f.Close()); err != nil {
		d.t.Fatal(err)
	}
	return m
}
