package main

import (
	"path/filepath"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
)

// The desk's reports on a telephone and on paper: nothing runs off the side but tables
// that scroll by themselves, no text is cut, and no card is taller than a page.
func TestReportPagesOnAPhoneAndOnPaper(t *testing.T) {
	if testing.Short() {
		t.Skip("flies a survey and starts a browser")
	}
	path := chromium(t)
	folder := filepath.Join(t.TempDir(), "first-line")
	if status, complaint := dryline("desk", sessionsDir+"/first-line.jsonl", "-o", folder); status != exitOK {
		t.Fatal(complaint)
	}
	w := newWindow(t, path)
	for _, page := range []string{"survey-report.html", "contact-report.html"} {
		call(w, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: "screen"})
		w.do(chromedp.EmulateViewport(400, 900), chromedp.Navigate("file://"+filepath.Join(folder, page)))
		if wide := eval[float64](w, `document.documentElement.scrollWidth`); wide > 400 {
			t.Errorf("%s: at 400 px the page is %g px wide", page, wide)
		}
		if words := eval[int](w, `document.body.innerText.length`); words < 500 {
			t.Errorf("%s: %d characters are shown", page, words)
		}

		// A4 with margins of 14 mm, at 96 pixels an inch.
		const wide, tall = 688, 1016
		call(w, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: "print"})
		w.do(chromedp.EmulateViewport(wide, tall))
		if off := eval[[]string](w, `[...document.querySelectorAll("td, th, p, dd, li, img")].filter((e) => e.getBoundingClientRect().right > 688.5).map((e) => e.innerText)`); len(off) > 0 {
			t.Errorf("%s: on paper these run off the side: %q", page, off)
		}
		if high := eval[int](w, `[...document.querySelectorAll(".card, tr, .caution")].filter((e) => e.getBoundingClientRect().height > 1016).length`); high > 0 {
			t.Errorf("%s: on paper %d things are taller than a page", page, high)
		}
	}
	if cards, pictures := eval[int](w, `document.querySelectorAll(".card").length`), eval[int](w, `[...document.querySelectorAll(".card img")].filter((i) => i.naturalWidth >= 200).length`); cards == 0 || pictures != cards {
		t.Errorf("%d cards have %d pictures", cards, pictures)
	}
}
