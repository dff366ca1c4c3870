package app

import (
	"fmt"
	"slices"
	"strings"

	"dryline/sim/order"
	"dryline/sim/survey"
)

// newestContact stands for the contact that was just marked, until it is there.
const newestContact = -1

// contacts are marked, measured and chosen.
type contacts struct {
	*post
	marking bool   // the next click marks one
	measure string // length, width or shadow: what a drag measures
	chosen  int    // number of the one chosen, 0 for none, or [newestContact]
}

// contact is the contact chosen.
func (c *contacts) contact() (survey.Contact, bool) {
	i := c.index()
	if i < 0 {
		return survey.Contact{}, false
	}
	return c.view.Contacts[i], true
}

// index is the place of the contact chosen in the list, or -1.
func (c *contacts) index() int {
	return slices.IndexFunc(c.view.Contacts, func(k survey.Contact) bool { return k.Number == c.chosen })
}

// any reports whether one is chosen.
func (c *contacts) any() bool { return c.index() >= 0 }

// next is the contact so many after the one chosen, round and round.
func (c *contacts) next(by int) (survey.Contact, bool) {
	all := c.view.Contacts
	if len(all) == 0 {
		return survey.Contact{}, false
	}
	at := c.index()
	if at < 0 && by < 0 {
		at = 0
	}
	return all[(at+by+len(all))%len(all)], true
}

// settle chooses the contact just marked when it is there.
func (c *contacts) settle() {
	if c.chosen != newestContact || len(c.view.Contacts) == 0 || c.pending(order.Mark) != nil {
		return
	}
	c.chosen = 0
	for _, k := range c.view.Contacts {
		c.chosen = max(c.chosen, k.Number)
	}
}

// mark marks a contact at a place.
func (c *contacts) mark(at picked) {
	c.give(order.Command{Do: order.Mark, X: at.x, Y: at.y, Ping: at.ping})
	c.marking, c.chosen = false, newestContact
}

// drop has the contact chosen be none after all.
func (c *contacts) drop() {
	if c.chosen != 0 {
		c.give(order.Command{Do: order.DeleteContact, Number: c.chosen})
		c.chosen = 0
	}
}

func (c *contacts) undo() {
	if c.view.CanUndo {
		c.give(order.Command{Do: order.UndoContact})
	}
}

func (c *contacts) redo() {
	if c.view.CanRedo {
		c.give(order.Command{Do: order.RedoContact})
	}
}

func contactName(c survey.Contact) string {
	if c.Name != "" {
		return c.Name
	}
	return fmt.Sprintf("C%d", c.Number)
}

func className(c survey.Contact) string {
	if c.Class == "" {
		return string(survey.Classes()[0])
	}
	return strings.ReplaceAll(string(c.Class), "_", " ")
}

func contactSays(c survey.Contact) string {
	size := func(v float64) string {
		if v == 0 {
			return "not measured"
		}
		return fmt.Sprintf("%.1f m", v)
	}
	s := fmt.Sprintf("length %s, width %s, shadow %s", size(c.Length), size(c.Width), size(c.Shadow))
	if c.Height > 0 {
		s += fmt.Sprintf(", so about %.1f m high", c.Height)
	}
	return s
}

// contactPlace says where a contact lies and on which lines it was seen.
func (p *post) contactPlace(c survey.Contact) string {
	s := p.place(c.X, c.Y) + "\n" + p.globe(c.X, c.Y)
	if len(c.Lines) > 0 {
		s += ", line " + strings.Join(c.Lines, ", ")
	}
	return s
}
