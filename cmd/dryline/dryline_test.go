package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
	"github.com/spf13/cobra"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"dryline": main})
}

func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:                 "testdata/script",
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"answer":   answerIs,
			"faultsof": faultsOf,
			"shorten":  shorten,
			"status":   statusIs,
		},
	})
}

// answerIs is "answer KEY WANT TOLERANCE": the flat JSON object last printed
// holds the number WANT under KEY, within TOLERANCE. "answer KEY true" and
// "answer KEY false" are for a truth.
func answerIs(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 || len(args) > 3 {
		ts.Fatalf("usage: answer KEY WANT [TOLERANCE]")
	}
	var object map[string]any
	ts.Check(json.Unmarshal([]byte(ts.ReadFile("stdout")), &object))
	value, ok := object[args[0]]
	if !ok {
		ts.Fatalf("no key %q in %v", args[0], object)
	}
	if len(args) == 2 {
		want, err := strconv.ParseBool(args[1])
		ts.Check(err)
		if value != want {
			ts.Fatalf("%s: got %v, want %v", args[0], value, want)
		}
		return
	}
	want, err := strconv.ParseFloat(args[1], 64)
	ts.Check(err)
	tolerance, err := strconv.ParseFloat(args[2], 64)
	ts.Check(err)
	got, ok := value.(float64)
	if !ok || !(math.Abs(got-want) <= tolerance) {
		ts.Fatalf("%s: got %v, want %v within %v", args[0], value, want, tolerance)
	}
}

// faultsOf is "faultsof COMMAND FILE": the command refuses the exercise file with
// status 2 and complains of just the faults that are in the file faults, a line
// each.
func faultsOf(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: faultsof COMMAND FILE")
	}
	var stdout, stderr bytes.Buffer
	file := ts.MkAbs(args[1])
	status := Main([]string{args[0], file}, &stdout, &stderr)
	got := strings.ReplaceAll(stderr.String(), file, args[1])
	want := strings.ReplaceAll(ts.ReadFile("faults"), "dryline: 1 file is faulty\n", "")
	if status != exitUsage || stdout.Len() > 0 || got != want {
		ts.Fatalf("got status %d, output %q and\n%s\nwant status 2, none, and\n%s", status, stdout.String(), got, want)
	}
}

// statusIs is "status STATUS ARG...": dryline with the arguments ends with the
// status, prints nothing, and complains in a single line, kept in the file complaint.
func statusIs(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 1 {
		ts.Fatalf("usage: status STATUS ARG...")
	}
	var stdout, stderr bytes.Buffer
	got := Main(args[1:], &stdout, &stderr)
	ts.Logf("[stderr]\n%s", stderr.String())
	if strconv.Itoa(got) != args[0] {
		ts.Fatalf("got status %d, want %s", got, args[0])
	}
	if stdout.Len() > 0 {
		ts.Fatalf("got output %q, want none", stdout.String())
	}
	if text := stderr.String(); strings.Count(text, "\n") != 1 || !strings.HasPrefix(text, "dryline: ") {
		ts.Fatalf("got complaint %q, want one line", text)
	}
	ts.Check(os.WriteFile(ts.MkAbs("complaint"), stderr.Bytes(), 0o600))
}

// Faults a command meets on its way, in the statuses and words of execute.
func TestExecute(t *testing.T) {
	for _, tt := range []struct {
		name   string
		run    func() error
		status int
		want   string
	}{
		{"well", func() error { return nil }, exitOK, ""},
		{"failure", func() error { return errors.New("disk full") }, exitFailure, "dryline: disk full\n"},
		{"usage", func() error { return usagef("want %d lines", 2) }, exitUsage, "dryline: want 2 lines\n"},
		{"two lines", func() error { return errors.Join(errors.New("a"), errors.New("b")) }, exitFailure, "dryline: a; b\n"},
		{"panic", func() error { panic("index\nout of range") }, exitFailure, "dryline: internal fault: index; out of range\n"},
		{"nil pointer", func() error { var c *cobra.Command; _ = c.Use; return nil }, exitFailure,
			"dryline: internal fault: runtime error: invalid memory address or nil pointer dereference\n"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			root := newRootCommand()
			root.AddCommand(&cobra.Command{Use: "try", RunE: func(*cobra.Command, []string) error { return tt.run() }})
			root.SetArgs([]string{"try"})
			var stdout, stderr bytes.Buffer
			root.SetOut(&stdout)
			root.SetErr(&stderr)
			status := execute(root)
			if status != tt.status || stderr.String() != tt.want || stdout.Len() > 0 {
				t.Errorf("got status %d, %q and output %q, want %d, %q and none", status, stderr.String(), stdout.String(), tt.status, tt.want)
			}
		})
	}
}

func TestNoNonFiniteResult(t *testing.T) {
	for _, v := range []float64{math.NaN(), math.Inf(1)} {
		c := newCalculator(&cobra.Command{Use: "try"}, func() (answer, error) {
			return answer{results: []result{{"x_m", "Length", "m", v, 2}}}, nil
		})
		var out bytes.Buffer
		c.SetOut(&out)
		c.SetErr(&out)
		c.SetArgs(nil)
		if status := execute(c); status != exitUsage || out.String() != "dryline: length has no finite value for these inputs\n" {
			t.Errorf("%g: got status %d, %q", v, status, out.String())
		}
	}
}

func TestLimits(t *testing.T) {
	for _, tt := range []struct {
		l    limits
		v    float64
		want bool
	}{
		{from(0, 5), 0, true}, {from(0, 5), 5, true}, {from(0, 5), -0.1, false}, {from(0, 5), 5.1, false},
		{above(0, 5), 0, false}, {above(0, 5), 1e-300, true}, {above(0, 5), 5, true},
		{from(0, 5), math.NaN(), false}, {from(0, 5), math.Inf(1), false},
	} {
		if got := tt.l.allows(tt.v); got != tt.want {
			t.Errorf("%v allows %g: got %t, want %t", tt.l, tt.v, got, tt.want)
		}
	}
}

// shorten is "shorten FILE N COPY": COPY is FILE without its last N bytes.
func shorten(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 3 {
		ts.Fatalf("usage: shorten FILE N COPY")
	}
	text := ts.ReadFile(args[0])
	n, err := strconv.Atoi(args[1])
	if err != nil || n < 0 || n > len(text) {
		ts.Fatalf("cannot take %s bytes off %d", args[1], len(text))
	}
	ts.Check(os.WriteFile(ts.MkAbs(args[2]), []byte(text[:len(text)-n]), 0o644))
}
