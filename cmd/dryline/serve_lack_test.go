package main

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// What a person reads when the window cannot begin.
func TestServeLacks(t *testing.T) {
	path := chromium(t)
	const glue = "class Go { importObject = {}; async run() {} }"
	for _, row := range []struct {
		name   string
		b      bundle
		before string // script that takes something away from the browser
		want   string
	}{
		{"no WebAssembly", bundle{tinyWasm, []byte(glue)}, "delete window.WebAssembly", "no WebAssembly"},
		{"no WebGL", bundle{tinyWasm, []byte(glue)}, "HTMLCanvasElement.prototype.getContext = () => null", "no WebGL 2"},
		{"a phone", bundle{tinyWasm, []byte(glue)}, `Object.defineProperties(window, { screen: { value: { width: 390, height: 844 } }, innerWidth: { value: 390 }, innerHeight: { value: 760 } })`, "This screen is 844 by 390 points, and the window needs 1024 by 600"},
		{"no glue", bundle{tinyWasm, []byte("// nothing")}, "", "wasm_exec.js did not load"},
		{"broken bundle", bundle{tinyWasm[:20], []byte(glue)}, "", "The window did not load: "},
		{"glue of another kind", bundle{tinyWasm, []byte("class Go { importObject = {}; async run(i) { i.exports.run(); } }")}, "", "may be of another Go release"},
		{"window over", bundle{tinyWasm, []byte(glue)}, "", "The window has ended"},
	} {
		t.Run(row.name, func(t *testing.T) {
			s, err := newSite(row.b, true)
			if err != nil {
				t.Fatal(err)
			}
			w := newWindow(t, path)
			if row.before != "" {
				call(w, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: row.before})
			}
			w.do(chromedp.Navigate(fmt.Sprintf("http://%s/", served(t, s))))
			text := ""
			for begun := time.Now(); !strings.Contains(text, row.want); time.Sleep(20 * time.Millisecond) {
				if time.Since(begun) > enough {
					t.Fatalf("got %q, want %q", text, row.want)
				}
				text = eval[string](w, `document.getElementById("says").innerText`)
			}
			if all := eval[string](w, `document.body.innerText`); !strings.Contains(all, "Not for navigation") {
				t.Errorf("got %q, want the cautions", all)
			}
		})
	}
}
