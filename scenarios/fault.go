package scenarios

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// Fault is one thing wrong with an exercise file.
type Fault struct {
	File    string
	Line    int    // from 1; 0 if it belongs to no line
	Path    string // of keys, such as sonar.channels[1].frequency_khz
	Value   string // what stands there, shortened; empty if nothing does
	Problem string
	Want    string // what would be right; may be empty
}

// Error returns the fault on one line:
//
//	my.yaml:14: sea.wind_kn: 90 is out of range (want 0 to 60 kn)
func (f Fault) Error() string {
	var b strings.Builder
	if strings.ContainsFunc(f.File, invisible) {
		b.WriteString(strconv.Quote(f.File))
	} else {
		b.WriteString(f.File)
	}
	if f.Line > 0 {
		fmt.Fprintf(&b, ":%d", f.Line)
	}
	b.WriteString(": ")
	if f.Path != "" {
		b.WriteString(f.Path + ": ")
	}
	if f.Value != "" {
		b.WriteString(f.Value + " ")
	}
	b.WriteString(f.Problem)
	if f.Want != "" {
		fmt.Fprintf(&b, " (want %s)", f.Want)
	}
	return b.String()
}

// Faults are all the things wrong with an exercise file, in the order of its
// lines.
type Faults []Fault

// Error returns the faults, one a line.
func (fs Faults) Error() string {
	lines := make([]string, len(fs))
	for i, f := range fs {
		lines[i] = f.Error()
	}
	return strings.Join(lines, "\n")
}

// Unwrap returns the faults one by one, for those who show each by itself.
func (fs Faults) Unwrap() []error {
	errs := make([]error, len(fs))
	for i, f := range fs {
		errs[i] = f
	}
	return errs
}

// maxFaults bounds what one bad file can make us remember.
const maxFaults = 100

// report gathers faults.
type report struct {
	file   string
	faults Faults
	more   int // not kept
}

func (r *report) add(f Fault) {
	if len(r.faults) >= maxFaults {
		r.more++
		return
	}
	f.File = r.file
	r.faults = append(r.faults, f)
}

// sound reports whether no fault so far touches any of the paths: what lies
// there, around it or within it.
func (r *report) sound(paths ...string) bool {
	if r.more > 0 {
		return false
	}
	for _, f := range r.faults {
		for _, p := range paths {
			if within(f.Path, p) || within(p, f.Path) {
				return false
			}
		}
	}
	return true
}

// within reports whether the path is the outer one or lies in it.
func within(path, outer string) bool {
	rest, ok := strings.CutPrefix(path, outer)
	return ok && (outer == "" || rest == "" || rest[0] == '.' || rest[0] == '[')
}

// err returns the faults in order, or nil.
func (r *report) err() error {
	if len(r.faults) == 0 {
		return nil
	}
	slices.SortStableFunc(r.faults, func(a, b Fault) int { return cmp.Compare(a.Line, b.Line) })
	if r.more > 0 {
		r.faults = append(r.faults, Fault{File: r.file, Problem: fmt.Sprintf("and %d faults more", r.more)})
		r.more = 0
	}
	return r.faults
}

// shorten quotes a text for a fault, cut to a readable length.
func shorten(s string) string {
	const most = 40
	if r := []rune(s[:min(len(s), 4*most+4)]); len(r) > most {
		return fmt.Sprintf("%q", string(r[:most])+"...")
	}
	return fmt.Sprintf("%q", s)
}
