package survey

// Entry is a remark in the log, by the surveyor.
type Entry struct {
	Time float64 // seconds
	Line string  // logged then, empty if none was
	Text string
}

// Enter puts a remark in the log.
func (d *Desk) Enter(now float64, text string) error {
	if err := CheckText(text); err != nil {
		return err
	}
	e := Entry{Time: now, Text: text}
	if d.line != nil {
		e.Line = d.line.Name
	}
	d.Remarks = append(d.Remarks, e)
	return nil
}

// Report asks for reports.
type Report struct {
	Text string // of the surveyor, that goes over them
}
