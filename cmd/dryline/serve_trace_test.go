package main

import (
	"encoding/json"
	"fmt"
	"io"
	"math"
	"net/http"
	"os"
	"slices"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/tracing"
	"github.com/chromedp/chromedp"
)

// traced is an event of the browser's trace (Trace Event Format: times in microseconds).
type traced struct {
	Name     string  `json:"name"`
	Phase    string  `json:"ph"`
	Process  int64   `json:"pid"`
	Thread   int64   `json:"tid"`
	At       float64 `json:"ts"`
	Took     float64 `json:"dur"`
	Computed float64 `json:"tdur"` // of it with the processor
	Args     struct{ Name string }
}

// tracedPace sums up what a trace says of the frames of a page. Frames are calls of the page's animation frame; tasks are those
// of its main thread.
type tracedPace struct {
	frames  int
	rate    float64 // a second
	late    float64 // share of frames that came more than 1/30 s after the one before
	longest float64 // task, ms
	busy    float64 // share of the time that the main thread was in a task
	frame   float64 // processor time of the main thread for a frame and all between two, ms
	drawing float64 // share of the time that the main thread of the process that draws was in a task
}

// String implements [fmt.Stringer].
func (p tracedPace) String() string {
	return fmt.Sprintf("%.1f frames a second, %.0f %% later than 1/30 s, longest task %.0f ms, main thread busy %.0f %% (%.1f ms of processor a frame), drawing busy %.0f %%",
		p.rate, 100*p.late, p.longest, 100*p.busy, p.frame, 100*p.drawing)
}

// paceOf reads the trace of one page: the process whose main thread has animation frames.
func paceOf(all []traced) (p tracedPace) {
	type thread struct{ process, thread int64 }
	names := map[thread]string{}
	at := map[thread][]float64{}
	for _, e := range all {
		switch k := (thread{e.Process, e.Thread}); e.Name {
		case "thread_name":
			names[k] = e.Args.Name
		case "FireAnimationFrame":
			at[k] = append(at[k], e.At)
		}
	}
	var main thread
	for k := range at {
		if len(at[k]) > len(at[main]) {
			main = k
		}
	}
	frames := at[main]
	if len(frames) < 2 {
		return p
	}
	slices.Sort(frames)
	from, to := frames[0], frames[len(frames)-1]
	p.frames = len(frames) - 1 // the gaps between them
	p.rate = float64(p.frames) / (to - from) * 1e6
	for i := range p.frames {
		if frames[i+1]-frames[i] > 1e6/30 {
			p.late += 1 / float64(p.frames)
		}
	}
	for _, e := range all {
		if e.Name != "RunTask" || e.Phase != "X" || e.At < from || e.At >= to {
			continue
		}
		took := min(e.Took, to-e.At)
		switch k := (thread{e.Process, e.Thread}); {
		case k == main:
			p.longest = max(p.longest, e.Took/1000)
			p.busy += took / (to - from)
			p.frame += e.Computed / 1000 / float64(p.frames)
		case names[k] == "CrGpuMain":
			p.drawing += took / (to - from)
		}
	}
	return p
}

// A made-up trace: four frames 20, 20 and 60 ms apart, each in a task of 10 ms of which 8 are computed, and one long task of 30 ms;
// another process that draws for half of the time, and another page that has fewer frames.
func TestPaceOfATrace(t *testing.T) {
	all := []traced{{Name: "thread_name", Process: 9, Thread: 9}}
	all[0].Args.Name = "CrGpuMain"
	for _, at := range []float64{1000, 21000, 41000, 101000} {
		all = append(all, traced{Name: "RunTask", Phase: "X", Process: 7, Thread: 1, At: at, Took: 10000, Computed: 8000},
			traced{Name: "FireAnimationFrame", Phase: "X", Process: 7, Thread: 1, At: at, Took: 9000})
	}
	all = append(all, traced{Name: "RunTask", Phase: "X", Process: 7, Thread: 1, At: 60000, Took: 30000, Computed: 30000},
		traced{Name: "RunTask", Phase: "X", Process: 7, Thread: 2, At: 60000, Took: 40000, Computed: 30000},
		traced{Name: "RunTask", Phase: "X", Process: 9, Thread: 9, At: 11000, Took: 50000},
		traced{Name: "FireAnimationFrame", Process: 8, Thread: 1, At: 2000}, traced{Name: "FireAnimationFrame", Process: 8, Thread: 1, At: 900000})
	slices.Reverse(all) // a trace is in no order
	got := paceOf(all)
	want := tracedPace{frames: 3, rate: 30, late: 1.0 / 3, longest: 30, busy: 0.6, frame: (3*8 + 30) / 3.0, drawing: 0.5}
	for _, row := range [][2]float64{{float64(got.frames), float64(want.frames)}, {got.rate, want.rate}, {got.late, want.late}, {got.longest, want.longest}, {got.busy, want.busy}, {got.frame, want.frame}, {got.drawing, want.drawing}} {
		if math.Abs(row[0]-row[1]) > 1e-9 {
			t.Errorf("got %+v, want %+v", got, want)
			break
		}
	}
	if p := paceOf(nil); p != (tracedPace{}) {
		t.Errorf("of no trace: %+v", p)
	}
}

// trace records what the browser does meanwhile.
func (w *window) trace(meanwhile func()) (all []traced) {
	w.t.Helper()
	var mu sync.Mutex
	over := make(chan bool, 1)
	if err := chromedp.Listen(w.ctx, func(event any) {
		switch e := event.(type) {
		case *tracing.EventDataCollected:
			mu.Lock()
			defer mu.Unlock()
			for _, v := range e.Value {
				var t traced
				if json.Unmarshal(v, &t) == nil { // some have other arguments
					all = append(all, t)
				}
			}
		case *tracing.EventTracingComplete:
			select {
			case over <- e.DataLossOccurred:
			default: // of a trace before
			}
		}
	}); err != nil {
		w.t.Fatal(err)
	}
	call(w, tracing.Start, tracing.StartParams{TraceConfig: &tracing.TraceConfig{
		RecordMode:         tracing.TraceConfigRecordModeRecordUntilFull,
		ExcludedCategories: []string{"*"},
		IncludedCategories: []string{"devtools.timeline", "disabled-by-default-devtools.timeline"},
	}})
	meanwhile()
	call(w, tracing.End, cdp.Empty{})
	select {
	case lost := <-over:
		if lost {
			w.t.Log("the browser lost part of its trace")
		}
	case <-time.After(enough):
		w.t.Fatal("no trace")
	}
	mu.Lock()
	defer mu.Unlock()
	return slices.Clone(all)
}

// mostBundle is the most the window may come to over the wire, bytes.
const mostBundle = 12e6

// What the browser itself says of a watch at the pace of the water, by its trace: figures to be read, as how soon anything
// is done depends on the machine. With DRYLINE_TRACE=1 there are two exercises, and traces of 20 s taken three times, of which the
// best counts; else a short one shows that it can be reached. What a browser without a graphics card draws with is far
// slower than any card: the main thread's share is the window's own.
func TestServeTrace(t *testing.T) {
	if testing.Short() {
		t.Skip("watches in a browser")
	}
	path := chromium(t)
	type watched struct{ exercise, key string } // the key that chooses it
	all := []watched{{"first-line", "Home"}, {"disused-anchorage", "End"}}
	long, times := 20*time.Second, 3
	if os.Getenv("DRYLINE_TRACE") != "1" {
		all, long, times = all[:1], 2*time.Second, 1
	}
	at := builtSite(t)
	if n := wireSize(t, at+"dryline.wasm"); n > mostBundle {
		t.Errorf("the window is %.1f MB over the wire, want at most %.0f", float64(n)/1e6, mostBundle/1e6)
	}
	for _, row := range all {
		var best tracedPace
		soonest, by := math.Inf(1), ""
		for range times {
			t.Run(row.exercise, func(t *testing.T) {
				w := newWindow(t, path)
				began := time.Now()
				w.open(at)
				w.until("exercises to choose from", func(s told) bool { return s.Screen == "choose" })
				soonest = min(soonest, time.Since(began).Seconds())
				w.frames()
				w.key(row.key, row.key, 0)
				w.press("Begin the watch")
				w.untilWatch("the watch", func(s onWatch) bool { return s.Exercise == row.exercise && s.Tick > 20 })
				w.key("Enter", "Enter", 0) // steers to the line
				w.key("KeyL", "l", 0)      // the log is on
				before := w.untilWatch("logging", func(s onWatch) bool { return s.Logging != "" })
				p := paceOf(w.trace(func() { time.Sleep(long) }))
				after := w.tell().watch()
				if p.frames < 1 || after.Tick <= before.Tick || after.Rate != 1 || after.Paused {
					t.Fatalf("%d frames, from tick %d to %d at %g times", p.frames, before.Tick, after.Tick, after.Rate)
				}
				if p.longest <= 0 || p.busy <= 0 || p.busy > 1.2 { // 1, but for tasks within tasks
					t.Errorf("no such trace can be: %+v", p)
				}
				t.Logf("%s; %.1f s of water time passed", p, float64(after.Tick-before.Tick)/10)
				if p.rate > best.rate {
					best = p
				}
				by = eval[string](w, `(() => {
					const gl = document.createElement("canvas").getContext("webgl2"), info = gl.getExtension("WEBGL_debug_renderer_info");
					return gl.getParameter(info ? info.UNMASKED_RENDERER_WEBGL : gl.RENDERER);
				})()`)
				w.clean(at)
			})
		}
		t.Logf("%s, best of %d over %v: %s; first screen to play from after %.1f s; drawn by %s", row.exercise, times, long, best, soonest, by)
	}
}

// wireSize is how many bytes come for an address, packed.
func wireSize(t *testing.T, at string) (n int64) {
	t.Helper()
	r, err := http.NewRequestWithContext(t.Context(), http.MethodGet, at, nil)
	if err != nil {
		t.Fatal(err)
	}
	r.Header.Set("Accept-Encoding", "gzip") // asked for here, it is not unpacked
	got, err := http.DefaultClient.Do(r)
	if err != nil {
		t.Fatal(err)
	}
	defer got.Body.Close()
	n, err = io.Copy(io.Discard, got.Body)
	if err != nil || got.StatusCode != http.StatusOK || got.Header.Get("Content-Encoding") != "gzip" {
		t.Fatalf("%s: %s, encoding %q, %v", at, got.Status, got.Header.Get("Content-Encoding"), err)
	}
	t.Logf("%.2f MB over the wire", float64(n)/1e6)
	return n
}
