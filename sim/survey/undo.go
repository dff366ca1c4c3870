package survey

import "errors"

// did notes a change made by hand. What was undone before it is gone for good.
func (d *Desk) did(c change) {
	d.changes, d.undone = append(d.changes, c), nil
}

// Undo takes back the last change made to a contact by hand, and again the one
// before. What the lookout marked in the meantime stays.
func (d *Desk) Undo() error {
	n := len(d.changes)
	if n == 0 {
		return errors.New("there is nothing to undo")
	}
	c := d.changes[n-1]
	d.changes, d.undone = d.changes[:n-1], append(d.undone, c)
	d.turn(c, c.after, c.before)
	return nil
}

// Redo makes the change last undone again.
func (d *Desk) Redo() error {
	n := len(d.undone)
	if n == 0 {
		return errors.New("there is nothing to redo")
	}
	c := d.undone[n-1]
	d.undone, d.changes = d.undone[:n-1], append(d.changes, c)
	d.turn(c, c.before, c.after)
	return nil
}

// CanUndo reports whether there is something to undo.
func (d *Desk) CanUndo() bool { return len(d.changes) > 0 }

// CanRedo reports whether there is something to redo.
func (d *Desk) CanRedo() bool { return len(d.undone) > 0 }

// turn makes of what a change has on one side what it has on the other.
func (d *Desk) turn(c change, from, to Contact) {
	switch {
	case to.Number == 0:
		d.take(from.Number)
		return
	case from.Number == 0:
		d.put(to)
		return
	}
	now := d.contact(to.Number) // it is there: what took it away was undone first
	switch c.what {
	case named:
		now.Name = to.Name
	case classed:
		now.Class = to.Class
	case measured:
		now.Length, now.Width, now.Shadow, now.Height, now.Measured = to.Length, to.Width, to.Shadow, to.Height, to.Measured
		now.Measures = to.Measures
	case sighted:
		now.unsee(from, to)
	case described:
		now.Description = to.Description
	case rated:
		now.Confidence = to.Confidence
	case decided:
		now.Action, now.Reason = to.Action, to.Reason
	case remarked:
		now.Remarks = to.Remarks
	}
}
