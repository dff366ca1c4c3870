package app

import (
	"image"

	"github.com/ebitenui/ebitenui/widget"
	"github.com/hajimehoshi/ebiten/v2"
)

// Pages of the side panel. The settings of the window have no tab: the strip on
// top leads there.
const (
	tabCoach = iota
	tabContacts
	tabDesk
	tabSonar
	tabWindow
	tabCount
)

var tabNames = [...]string{"Watch", "Contacts", "Desk", "Sonar"}

var tabSays = [...]string{
	"How the lines are coming along, what the coach has to say, and what went wrong (Tab).",
	"Mark, measure, name and list contacts (Tab).",
	"Where the desk places the fish, and how (Tab).",
	"How the sonar records, and how well (Tab).",
}

// sidePanel is the panel beside the chart, a page at a time.
type sidePanel struct {
	tab      int
	body     image.Rectangle // left free for what is drawn
	contacts contactsPage
	desk     deskPage
	sonar    sonarPage
	voice    voice
}

func (p *sidePanel) show(g *Game, tab int) {
	if p.tab != tab {
		p.tab = tab
		g.Rebuild()
	}
}

func (p *sidePanel) build(g *Game, w *Watch, r image.Rectangle) *widget.Container {
	l := g.Look
	var tabs []widget.PreferredSizeLocateableWidget
	for i, name := range tabNames {
		tabs = append(tabs, explained(g, l.Button(name, chosenIf(i == p.tab), func() { p.show(g, i) }), tabSays[i]))
	}
	head := l.Row(4, 3, tabs...)
	_, tall := head.PreferredSize()
	p.body = image.Rect(r.Min.X+l.Px(8), r.Min.Y+tall, r.Max.X-l.Px(8), r.Max.Y-l.Px(4))
	var page *widget.Container
	switch p.tab {
	case tabContacts:
		page = p.contacts.build(g, w, p.body)
	case tabDesk:
		page = p.desk.build(g, w, p.body)
	case tabSonar:
		page = p.sonar.build(g, w, p.body)
	case tabWindow:
		page = windowPage(g, w, p.body)
	default:
		page = p.voice.build(g, w, p.body)
		if t := p.voice.tall; t > 0 { // it stands at the foot, under what is drawn
			at := p.body
			at.Min.Y = at.Max.Y - t
			p.body.Max.Y = at.Min.Y - l.Px(4)
			return l.Backed(pinned(func(i int) image.Rectangle {
				if i == 0 {
					return image.Rect(r.Min.X, r.Min.Y, r.Max.X, r.Min.Y+tall)
				}
				return at
			}, head, page), l.Panel)
		}
	}
	return l.Backed(pinned(func(i int) image.Rectangle {
		if i == 0 {
			return image.Rect(r.Min.X, r.Min.Y, r.Max.X, r.Min.Y+tall)
		}
		return p.body
	}, head, page), l.Panel)
}

func (p *sidePanel) update(g *Game, w *Watch) {
	switch p.tab {
	case tabCoach:
		p.voice.update(g, w)
	case tabContacts:
		p.contacts.update(g, w)
	case tabDesk:
		p.desk.update(w)
	case tabSonar:
		p.sonar.update(g, w)
	}
}

// draw draws the page that has no controls.
func (p *sidePanel) draw(g *Game, w *Watch, dst *ebiten.Image) {
	if p.tab == tabCoach {
		drawWatchPage(g, w, dst, p.body)
	}
}
