package app

import "testing"

// Undo and redo go through what was done to contacts, and no further.
func TestContactsAreUndoneAndRedone(t *testing.T) {
	g := NewGame(&memory{}, false)
	w := watchUnderWay(t, g, "first-line", 5)
	see := func(contacts int, undo, redo bool) {
		t.Helper()
		w.view = w.crew.View()
		if v := w.view; len(v.Contacts) != contacts || v.CanUndo != undo || v.CanRedo != redo || v.Complaints > 0 {
			t.Errorf("%d contacts, undo %t, redo %t, complaint %q; want %d, %t, %t and none",
				len(v.Contacts), v.CanUndo, v.CanRedo, v.Complaint, contacts, undo, redo)
		}
	}
	see(2, true, false)
	w.contacts.undo()
	see(1, true, true)
	w.contacts.undo()
	see(0, false, true)
	w.contacts.undo() // nothing is left: no order is given
	see(0, false, true)
	w.contacts.redo()
	w.contacts.redo()
	see(2, true, false)
	w.contacts.redo()
	see(2, true, false)
}
