package survey

import "fmt"

// Entry is a remark in the log, by the surveyor.
type Entry struct {
	Time float64 // seconds
	Line string  // logged then, empty if none was
	Text string
	Sea  *int // state of it, entered with this; nil if it was not
}

// CheckSea refuses what is no state of the sea.
func CheckSea(state int) error {
	if state < 0 || state > 9 {
		return fmt.Errorf("a sea state of %d is out of range (want 0 to 9)", state)
	}
	return nil
}

// EnterSea puts the state of the sea in the log, 0 to 9 (WMO code table 3700).
func (d *Desk) EnterSea(now float64, state int) error {
	if err := CheckSea(state); err != nil {
		return err
	}
	if err := d.Enter(now, fmt.Sprintf("sea state %d", state)); err != nil {
		return err
	}
	d.Remarks[len(d.Remarks)-1].Sea = &state
	return nil
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
