package main

import (
	"fmt"
	"slices"
	"testing"
	"time"

	"dryline/sim/order"

	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// kept reads the session of a name from the browser's database, the one written
// last, past the window: the records as they are stored.
func (w *window) kept(name string) *order.Log {
	w.t.Helper()
	return logIn(w.t, []byte(eval[string](w, `new Promise((done, fail) => {
		const asked = indexedDB.open("dryline");
		asked.onerror = () => fail(asked.error);
		asked.onsuccess = () => {
			const t = asked.result.transaction(["sessions", "records"]);
			const sessions = t.objectStore("sessions").getAll(), keys = t.objectStore("records").getAllKeys(), records = t.objectStore("records").getAll();
			t.oncomplete = () => {
				asked.result.close();
				const last = sessions.result.filter((s) => s.name === "`+name+`").sort((a, b) => a.when < b.when ? 1 : -1)[0];
				done(last ? records.result.filter((_, i) => keys.result[i][0] === last.id).join("") : "");
			};
		};
	})`)))
}

// away waits until the page of the watch is gone. While another is loaded the browser
// answers nothing.
func (w *window) away() {
	w.t.Helper()
	const gone = `!window.drylineInspect || JSON.parse(drylineInspect()).screen !== "watch"`
	for begun := time.Now(); ; time.Sleep(30 * time.Millisecond) {
		if is, err := chromedp.Run(w.ctx, chromedp.Evaluate[bool](gone)); err == nil && is {
			return
		}
		if time.Since(begun) > enough {
			w.t.Fatalf("the page is not left within %v", enough)
		}
	}
}

// goOnWith takes up the first session on the list.
func (w *window) goOnWith() onWatch {
	w.t.Helper()
	w.until("exercises to choose from", func(s told) bool { return s.Screen == "choose" })
	w.frames()
	w.press("Resume a session")
	w.until("the sessions kept", func(s told) bool { return s.Screen == "sessions" })
	w.frames()
	w.press("Resume it")
	return w.untilWatch("the session back where it was", func(s onWatch) bool { return s.Restored == 1 })
}

// No order is lost in the browser: not one that has taken effect when the browser
// is killed, and not those just given when the page is loaded again.
func TestServeLosesNoOrder(t *testing.T) {
	if testing.Short() {
		t.Skip("a browser started twice")
	}
	path, at := chromium(t), builtSite(t)
	profile := chromedp.UserDataDir(t.TempDir())
	w := newWindow(t, path, profile)
	w.open(at)
	w.until("exercises to choose from", func(s told) bool { return s.Screen == "choose" })
	w.frames()
	w.press("The first line")
	w.press("Begin the watch")
	w.untilWatch("the watch", func(s onWatch) bool { return s.Exercise == "first-line" && s.Tick > 0 })
	w.key("Space", " ", 0)
	was := w.untilWatch("time standing still", func(s onWatch) bool { return s.Paused })
	for n := range 3 {
		w.key("PageDown", "PageDown", 0)
		w.untilWatch("a metre paid out", func(s onWatch) bool { return s.CableOrdered == was.CableOrdered+float64(n+1) && s.Pending == 0 })
	}
	if err := w.browser.Process.Kill(); err != nil {
		t.Fatal(err)
	}

	w = newWindow(t, path, profile)
	w.open(at)
	back := w.goOnWith()
	if back.CableOrdered != was.CableOrdered+3 || back.Tick < was.Tick {
		t.Errorf("after the browser was killed: %g m ordered at tick %d, want %g m at %d", back.CableOrdered, back.Tick, was.CableOrdered+3, was.Tick)
	}

	// More orders, and away: whether to leave is answered with yes. The last is
	// handed to the browser in the turn in which the page is left.
	w.key("PageDown", "PageDown", 0)
	w.key("KeyL", "l", 0)
	w.untilWatch("both carried out", func(s onWatch) bool { return s.Logging == "A" && s.Pending == 0 })
	call(w, page.Enable, page.EnableParams{})
	eval[int](w, fmt.Sprintf(`new Promise((done) => {
		// A record as the window writes it: tied to the one before by SHA-256.
		const tied = async (before, record) => {
			const chain = before.match(/"chain":"([0-9a-f]{64})"}\n$/)[1];
			const bytes = [...chain.match(/../g).map((h) => parseInt(h, 16)), ...new TextEncoder().encode(record)];
			const sum = new Uint8Array(await crypto.subtle.digest("SHA-256", new Uint8Array(bytes)));
			return record.slice(0, -1) + ',"chain":"' + [...sum].map((b) => b.toString(16).padStart(2, "0")).join("") + '"}\n';
		};
		const asked = indexedDB.open("dryline");
		asked.onsuccess = () => {
			const store = asked.result.transaction("records").objectStore("records");
			const last = store.openCursor(null, "prev");
			last.onsuccess = async () => {
				const [id, n] = last.result.key;
				const record = await tied(last.result.value, '{"tick":%d,"do":"cable","value":%g}');
				done(0);
				setTimeout(() => {
					drylineSessions.add(id, "first-line-3-watch.jsonl", new Date().toISOString(), n + 1, record, () => {});
					location.reload();
				}, 100);
			};
		};
	})`, back.Tick, was.CableOrdered+5))
	w.away()
	again := w.goOnWith()
	l := w.kept("first-line-3-watch.jsonl")
	var does []order.Do
	for _, c := range l.Commands[1:] {
		does = append(does, c.Do)
	}
	if want := []order.Do{order.Cable, order.Cable, order.Cable, order.Cable, order.LogOn, order.Cable}; !slices.Equal(does, want) {
		t.Errorf("kept: %v, want %v", does, want)
	}
	if again.CableOrdered != was.CableOrdered+5 || again.Logging != "A" {
		t.Errorf("loaded again: %g m ordered, logging %q; want %g m and A", again.CableOrdered, again.Logging, was.CableOrdered+5)
	}
	w.mu.Lock()
	defer w.mu.Unlock()
	for _, f := range w.faults {
		t.Errorf("the browser complains: %s", f)
	}
}
