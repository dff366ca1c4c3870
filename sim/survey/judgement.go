package survey

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Action says what is to come of a contact.
type Action string

// The actions; a contact nobody has decided on has none of them.
const (
	Leave       Action = "none" // it needs nothing more
	Investigate Action = "investigate"
	Rerun       Action = "re-run"  // the line was too poor to tell
	Dismiss     Action = "dismiss" // it is nothing, for a reason
)

// Actions lists them.
func Actions() []Action { return []Action{Leave, Investigate, Rerun, Dismiss} }

// LongestText is how many characters a description, a reason or remarks may have.
const LongestText = 400

// CheckText refuses a text that cannot be printed on one line of a report, and one that
// claims that somewhere is clear.
func CheckText(text string) error {
	if !utf8.ValidString(text) {
		return errors.New("the text is not valid UTF-8")
	}
	if n := utf8.RuneCountInString(text); n > LongestText {
		return fmt.Errorf("the text has %d characters (want at most %d)", n, LongestText)
	}
	if strings.ContainsFunc(text, func(r rune) bool { return !unicode.IsPrint(r) }) {
		return errors.New("the text holds characters that cannot be printed")
	}
	if claimsClear(text) {
		return errClear
	}
	return nil
}

// edit changes a contact in one respect, to be undone.
func (d *Desk) edit(number int, what kind, set func(*Contact)) error {
	c := d.contact(number)
	if c == nil {
		return noContact(number)
	}
	before := *c
	set(c)
	d.did(change{what: what, before: before, after: *c})
	return nil
}

// Describe says in words what a contact looks like.
func (d *Desk) Describe(number int, text string) error {
	if err := CheckText(text); err != nil {
		return err
	}
	return d.edit(number, described, func(c *Contact) { c.Description = text })
}

// Rate says how sure the surveyor is of a contact's class, 0 to 1.
func (d *Desk) Rate(number int, confidence float64) error {
	if !(confidence >= 0 && confidence <= 1) {
		return fmt.Errorf("a confidence of %g is out of range (want 0 to 1)", confidence)
	}
	return d.edit(number, rated, func(c *Contact) { c.Confidence = &confidence })
}

// Decide says what is to come of a contact. To dismiss one takes a reason.
func (d *Desk) Decide(number int, a Action, reason string) error {
	if !slices.Contains(Actions(), a) {
		return fmt.Errorf("%q is no action (want one of %v)", a, Actions())
	}
	if err := CheckText(reason); err != nil {
		return err
	}
	if a == Dismiss && strings.TrimSpace(reason) == "" {
		return errors.New("a contact is dismissed for a reason: say which")
	}
	return d.edit(number, decided, func(c *Contact) { c.Action, c.Reason = a, reason })
}

// Remark notes anything else about a contact.
func (d *Desk) Remark(number int, text string) error {
	if err := CheckText(text); err != nil {
		return err
	}
	return d.edit(number, remarked, func(c *Contact) { c.Remarks = text })
}
