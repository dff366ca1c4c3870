package main

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/browser"
	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/dom"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
)

// chromium is a browser to test with. Without one the test is skipped, unless
// DRYLINE_REQUIRE_TOOLS=1 says that it must be there.
func chromium(t *testing.T) string {
	t.Helper()
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome"} {
		if path, err := exec.LookPath(name); err == nil {
			return path
		}
	}
	if os.Getenv("DRYLINE_REQUIRE_TOOLS") == "1" {
		t.Fatal("chromium is required by DRYLINE_REQUIRE_TOOLS=1")
	}
	t.Skip("no chromium to load the page in")
	return ""
}

// told holds what the window says that it shows.
type told struct {
	Screen, Notice string
	Buttons        []struct {
		Label string
		At    [4]int
	}
	Keys []struct { // of the overlay
		Label string
		At    [4]int
	}
	Panes map[string][4]int
	State json.RawMessage
}

// onWatch is the state of the watch screen.
type onWatch struct {
	Exercise, Logging string
	Tick              int64
	Rate              float64
	CableOrdered      float64 `json:"cable_ordered"`
	RangeScale        float64 `json:"range_scale"`
	PerM              float64 `json:"per_m"` // pixels a metre of the chart
	Contacts, Pings   int
	Lines             []string
	Steering          struct{ Do, Line string }
	Restored, Reached float64
	Pending           int
	Paused            bool
}

func (s told) watch() (w onWatch) {
	json.Unmarshal(s.State, &w) // another screen has another state
	return w
}

// window is the trainer window in a browser.
type window struct {
	t         *testing.T
	ctx       context.Context
	downloads string

	mu       sync.Mutex
	faults   []string // of the console, of scripts
	asked    []string // addresses
	loaded   chan string
	begun    map[string]string // names of downloads by their ids
	toUpload string            // what the next file dialog is answered with
	browser  *exec.Cmd
}

// newWindow starts a browser, with some options of its own.
func newWindow(t *testing.T, path string, own ...chromedp.ExecAllocatorOption) *window {
	t.Helper()
	w := &window{t: t, downloads: t.TempDir(), loaded: make(chan string, 8), begun: map[string]string{}}
	opts := append([]chromedp.ExecAllocatorOption{}, chromedp.DefaultExecAllocatorOptions[:]...)
	opts = append(opts, chromedp.ExecPath(path), chromedp.NoSandbox, chromedp.WindowSize(1280, 720),
		chromedp.Flag("headless", "new"), chromedp.Flag("use-angle", "swiftshader"), chromedp.Flag("enable-unsafe-swiftshader", true),
		chromedp.ModifyCmdFunc(func(c *exec.Cmd) { w.browser = c }))
	opts = append(opts, own...)
	ctx, cancel := context.WithTimeout(t.Context(), 4*time.Minute)
	t.Cleanup(cancel)
	ctx, cancel = chromedp.NewExecAllocator(ctx, opts...)
	t.Cleanup(cancel)
	ctx, cancel = chromedp.NewContext(ctx)
	t.Cleanup(cancel)
	w.ctx = ctx
	w.do(chromedp.EmulateViewport(1280, 720)) // starts the browser
	for _, listen := range []func(context.Context, func(any)) error{chromedp.Listen, chromedp.ListenBrowser} {
		if err := listen(ctx, w.hear); err != nil {
			t.Fatal(err)
		}
	}
	yes := true
	call(w, network.Enable, network.EnableParams{})
	call(w, log.Enable, cdp.Empty{})
	call(w, page.SetInterceptFileChooserDialog, page.SetInterceptFileChooserDialogParams{Enabled: true})
	if _, err := chromedp.CallBrowser(ctx, browser.SetDownloadBehavior, browser.SetDownloadBehaviorParams{
		Behavior: browser.SetDownloadBehaviorBehaviorAllow, DownloadPath: w.downloads, EventsEnabled: &yes,
	}); err != nil {
		t.Fatal(err)
	}
	return w
}

// open loads the page at an address.
func (w *window) open(at string) {
	w.t.Helper()
	w.do(chromedp.Navigate(at))
	// Keys that the browser would act on itself, and what sounds.
	eval[int](w, `
		window.leaked = [];
		window.addEventListener("keydown", (e) => { if (!e.defaultPrevented) leaked.push(e.code); });
		window.contexts = [];
		window.AudioContext = class extends AudioContext { constructor(...with_) { super(...with_); contexts.push(this); } };
		0`)
}

func (w *window) do(steps ...chromedp.Action[chromedp.Void]) {
	w.t.Helper()
	if err := chromedp.Do(w.ctx, steps...); err != nil {
		w.t.Fatal(err)
	}
}

// call gives the browser a command.
func call[P, R any](w *window, c cdp.Command[P, R], params P) R {
	w.t.Helper()
	result, err := chromedp.Call(w.ctx, c, params)
	if err != nil {
		w.t.Fatal(err)
	}
	return result
}

// eval returns the value of a script on the page; of a promise, what it keeps.
func eval[T any](w *window, script string) T {
	w.t.Helper()
	result, err := chromedp.Run(w.ctx, chromedp.Evaluate[T](script, chromedp.EvalAwaitPromise))
	if err != nil {
		w.t.Fatalf("%s: %v", script, err)
	}
	return result
}

// hear takes the browser's events.
func (w *window) hear(event any) {
	w.mu.Lock()
	defer w.mu.Unlock()
	switch e := event.(type) {
	case *runtime.EventExceptionThrown:
		says := e.ExceptionDetails.Text
		if x := e.ExceptionDetails.Exception; x != nil {
			says += " " + x.Description
		}
		w.faults = append(w.faults, says)
	case *runtime.EventConsoleAPICalled:
		if e.Type == runtime.ConsoleAPICalledTypeError {
			for _, a := range e.Args {
				w.faults = append(w.faults, string(a.Value))
			}
		}
	case *log.EventEntryAdded:
		if e.Entry.Level == log.EntryLevelError {
			w.faults = append(w.faults, e.Entry.Text)
		}
	case *network.EventRequestWillBeSent:
		w.asked = append(w.asked, e.Request.URL)
	case *browser.EventDownloadWillBegin:
		w.begun[e.GUID] = e.SuggestedFilename
	case *browser.EventDownloadProgress:
		if e.State == browser.DownloadProgressStateCompleted {
			w.loaded <- w.begun[e.GUID]
		}
	case *page.EventJavascriptDialogOpening: // whether the page may be left
		go chromedp.Call(w.ctx, page.HandleJavaScriptDialog, page.HandleJavaScriptDialogParams{Accept: true})
	case *page.EventFileChooserOpened:
		answer := dom.SetFileInputFilesParams{Files: []string{w.toUpload}, BackendNodeID: e.BackendNodeID}
		go chromedp.Call(w.ctx, dom.SetFileInputFiles, answer) // what fails is not uploaded, and waited for in vain
	}
}

// tell reads what is shown; before the window has begun, nothing.
func (w *window) tell() (s told) {
	w.t.Helper()
	text := eval[string](w, `window.drylineInspect ? drylineInspect() : "{}"`)
	if err := json.Unmarshal([]byte(text), &s); err != nil {
		w.t.Fatalf("%q: %v", text, err)
	}
	return s
}

// until waits for something to be shown. How soon depends on the machine.
func (w *window) until(what string, is func(told) bool) told {
	w.t.Helper()
	for begun := time.Now(); ; time.Sleep(30 * time.Millisecond) {
		s := w.tell()
		if is(s) {
			return s
		}
		if time.Since(begun) > enough {
			w.mu.Lock()
			faults := w.faults
			w.mu.Unlock()
			w.t.Fatalf("%s: not within %v; shown %q, notice %q, state %s, faults %q", what, enough, s.Screen, s.Notice, s.State, faults)
		}
	}
}

func (w *window) untilWatch(what string, is func(onWatch) bool) onWatch {
	w.t.Helper()
	return w.until(what, func(s told) bool { return s.Screen == "watch" && is(s.watch()) }).watch()
}

// frames lets the window draw, so that it has seen what was pressed.
func (w *window) frames() {
	w.t.Helper()
	eval[int](w, `new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => done(0))))`)
}

// key presses a key by its place on the keyboard (UI Events KeyboardEvent code
// Values, W3C) and lets it go.
func (w *window) key(code, key string, modifiers int64) {
	w.t.Helper()
	for _, t := range []input.DispatchKeyEventType{input.DispatchKeyEventTypeRawKeyDown, input.DispatchKeyEventTypeKeyUp} {
		call(w, input.DispatchKeyEvent, input.DispatchKeyEventParams{Type: t, Code: code, Key: key, Modifiers: modifiers})
		w.frames()
	}
}

// Modifiers of [window.key] in the browser's protocol.
const (
	ctrlKey  = 2
	shiftKey = 8
)

// click clicks at a place.
func (w *window) click(x, y float64) {
	w.t.Helper()
	for _, p := range []input.DispatchMouseEventParams{
		{Type: input.DispatchMouseEventTypeMouseMoved},
		{Type: input.DispatchMouseEventTypeMousePressed, Button: input.MouseButtonLeft, ClickCount: 1},
		{Type: input.DispatchMouseEventTypeMouseReleased, Button: input.MouseButtonLeft, ClickCount: 1},
	} {
		p.X, p.Y = x, y
		call(w, input.DispatchMouseEvent, p)
		w.frames()
	}
}

// press clicks the button of that label.
func (w *window) press(label string) {
	w.t.Helper()
	s := w.tell()
	for _, b := range s.Buttons {
		if b.Label == label {
			w.click(float64(b.At[0]+b.At[2])/2, float64(b.At[1]+b.At[3])/2)
			return
		}
	}
	w.t.Fatalf("no button %q on screen %q: %v", label, s.Screen, s.Buttons)
}

// download waits for the next file to come down and reads it.
func (w *window) download() (name string, data []byte) {
	w.t.Helper()
	select {
	case name = <-w.loaded:
	case <-time.After(enough):
		w.t.Fatal("no download")
	}
	data, err := os.ReadFile(filepath.Join(w.downloads, name))
	if err != nil {
		w.t.Fatal(err)
	}
	return name, data
}

// upload has the next file dialog answered with a file.
func (w *window) upload(name string, data []byte) {
	w.t.Helper()
	name = filepath.Join(w.t.TempDir(), name)
	if err := os.WriteFile(name, data, 0o600); err != nil {
		w.t.Fatal(err)
	}
	w.mu.Lock()
	w.toUpload = name
	w.mu.Unlock()
}

// colours counts the different colours of a part of what is shown. With a
// folder in DRYLINE_PICTURES the whole picture is kept there.
func (w *window) colours(name string, at image.Rectangle) int {
	w.t.Helper()
	data, err := chromedp.Run(w.ctx, chromedp.CaptureScreenshot())
	if err != nil {
		w.t.Fatal(err)
	}
	if dir := os.Getenv("DRYLINE_PICTURES"); dir != "" {
		if err := os.WriteFile(filepath.Join(dir, name+".png"), data, 0o666); err != nil {
			w.t.Fatal(err)
		}
	}
	picture, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		w.t.Fatal(err)
	}
	seen := map[color.Color]bool{}
	at = at.Intersect(picture.Bounds())
	for y := at.Min.Y; y < at.Max.Y; y++ {
		for x := at.Min.X; x < at.Max.X; x++ {
			seen[picture.At(x, y)] = true
		}
	}
	return len(seen)
}

// pace is how many frames a second the browser draws, over two seconds.
func (w *window) pace() float64 {
	w.t.Helper()
	return eval[float64](w, `new Promise((done) => {
		let n = 0;
		const from = performance.now();
		const count = (now) => { n++; if (now - from > 2000) done(n / (now - from) * 1000); else requestAnimationFrame(count); };
		requestAnimationFrame(count);
	})`)
}

// clean reports what the browser complained of and where the page reached.
func (w *window) clean(at string) {
	w.t.Helper()
	leaked := eval[[]string](w, `leaked`)
	w.mu.Lock()
	defer w.mu.Unlock()
	for _, f := range w.faults {
		w.t.Errorf("the browser complains: %s", f)
	}
	for _, a := range w.asked {
		if !strings.HasPrefix(a, at) && !strings.HasPrefix(a, "blob:"+at) && !strings.HasPrefix(a, "data:") {
			w.t.Errorf("the page reached for %s", a)
		}
	}
	if len(leaked) > 0 {
		w.t.Errorf("keys %v went to the browser, want them all with the window", leaked)
	}
}

func rectOf(r [4]int) image.Rectangle { return image.Rect(r[0], r[1], r[2], r[3]) }

// builtSite builds the window for the browser and serves it.
func builtSite(t *testing.T) (at string) {
	t.Helper()
	cache, err := os.UserCacheDir()
	if err != nil {
		t.Fatal(err)
	}
	b, err := buildBundle(t.Context(), cache, os.Stderr)
	if err != nil {
		t.Fatal(err)
	}
	s, err := newSite(b, true)
	if err != nil {
		t.Fatal(err)
	}
	t.Logf("bundle %.1f MB, %.1f MB with gzip", float64(len(b.wasm))/1e6, float64(len(s.files["/dryline.wasm"].zipped))/1e6)
	return fmt.Sprintf("http://%s/", served(t, s))
}
