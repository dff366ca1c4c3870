package survey

// OpenLine is the line being logged, or nil. It is for looking, not for
// keeping: the desk goes on adding to it.
func (d *Desk) OpenLine() *LineRecord { return d.line }
