package app

import (
	"fmt"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"github.com/ebitenui/ebitenui/widget"
)

// seconds is a time of the session as a duration.
func seconds(s float64) time.Duration { return time.Duration(s * float64(time.Second)) }

// sentence makes a sentence of one line of an error or a message: of several
// faults the first, and how many more there are.
func sentence(s string) string {
	s = strings.TrimPrefix(strings.TrimSpace(s), "sim: ")
	if first, rest, more := strings.Cut(s, "\n"); more {
		s = fmt.Sprintf("%s (and %d more)", strings.TrimSpace(first), strings.Count(strings.TrimSpace(rest), "\n")+1)
	}
	first, n := utf8.DecodeRuneInString(s)
	if n == 0 {
		return ""
	}
	s = string(unicode.ToUpper(first)) + s[n:]
	if !strings.ContainsAny(s[len(s)-1:], ".!?") {
		s += "."
	}
	return s
}

// able returns a button that can be pressed or not.
func able(b *widget.Button, can bool) *widget.Button {
	b.GetWidget().Disabled = !can
	return b
}

// centred centres the children of a row on it.
func centred(c *widget.Container) {
	for _, child := range c.Children() {
		child.GetWidget().LayoutData = widget.RowLayoutData{Position: widget.RowLayoutPositionCenter}
	}
}

// centredRow is [centred] that returns its row.
func centredRow(c *widget.Container) *widget.Container {
	centred(c)
	return c
}
