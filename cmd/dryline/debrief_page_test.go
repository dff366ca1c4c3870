package main

import (
	"path/filepath"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
)

// The debrief's page on a telephone and on paper: nothing runs off the side,
// every figure stands beside its word, and a picture with its heading fits on a
// page.
func TestDebriefPageOnAPhoneAndOnPaper(t *testing.T) {
	if testing.Short() {
		t.Skip("flies a survey and starts a browser")
	}
	path := chromium(t)
	folder := filepath.Join(t.TempDir(), "first-line")
	if status, complaint := dryline("replay", sessionsDir+"/first-line.jsonl", "-o", folder); status != exitOK {
		t.Fatal(complaint)
	}
	w := newWindow(t, path)
	w.do(chromedp.EmulateViewport(400, 900), chromedp.Navigate("file://"+filepath.Join(folder, "debrief.html")))
	if wide := eval[float64](w, `document.documentElement.scrollWidth`); wide > 400 {
		t.Errorf("at 400 px the page is %g px wide", wide)
	}
	beside := eval[int](w, `
		[...document.querySelectorAll("td")].filter((d) => {
			const word = getComputedStyle(d, "::before").content, at = d.getBoundingClientRect();
			return word.length > 2 && word !== "none" && at.left >= 0 && at.right <= 400 && at.width > 100;
		}).length`)
	if all := eval[int](w, `document.querySelectorAll("td").length`); beside != all || all < 60 {
		t.Errorf("at 400 px %d of %d figures stand beside their word", beside, all)
	}

	// A4 with margins of 1 cm, at 96 pixels an inch.
	const wide, tall = 718, 1047
	call(w, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: "print"})
	w.do(chromedp.EmulateViewport(wide, tall))
	heights := eval[[]float64](w, `[...document.querySelectorAll("figure")].map((f) => f.getBoundingClientRect().height)`)
	objects := eval[int](w, `document.querySelectorAll(".evidence figure").length`)
	if len(heights) != 4+objects || objects == 0 {
		t.Errorf("%d figures, %d of objects; want two charts and two waterfalls besides", len(heights), objects)
	}
	for i, h := range heights {
		if h > tall {
			t.Errorf("figure %d is %g px tall on a page of %d", i+1, h, tall)
		}
	}
}
