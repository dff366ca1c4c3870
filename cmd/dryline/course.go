package main

import (
	"bytes"
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"dryline/scenarios"
	"dryline/sim/course"
	"dryline/sim/record"
)

func newCourseCommand() *cobra.Command {
	return newGroup(&cobra.Command{
		Use:   "course",
		Short: "Courses: exercises in an order, and how far a trainee has come",
	}, newCourseListCommand(), newCourseCheckCommand(), newCourseReportCommand())
}

// findCourse returns the course a command line names: a file or a built-in one.
func findCourse(name string) (*course.Course, error) {
	if looksLikeFile(name) {
		c, err := scenarios.LoadCourse(name)
		if _, faulty := errors.AsType[scenarios.Faults](err); faulty {
			return nil, usageError{err}
		}
		return c, err
	}
	c, err := scenarios.FindCourse(name)
	if err != nil {
		return nil, usagef("%v", err)
	}
	return c, nil
}

func newCourseListCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "list [COURSE]",
		Short: "List the courses, or the steps of one",
		Args:  atMostOne("course"),
		RunE: func(c *cobra.Command, args []string) error {
			var b strings.Builder
			if len(args) == 0 {
				for _, name := range scenarios.Courses() {
					k, err := scenarios.FindCourse(name)
					if err != nil {
						return err
					}
					fmt.Fprintf(&b, "%-16s %s, %s\n", name, k.Title, plural(len(k.Steps), "step", "steps"))
				}
				_, err := io.WriteString(c.OutOrStdout(), b.String())
				return err
			}
			k, err := findCourse(args[0])
			if err != nil {
				return err
			}
			fmt.Fprintf(&b, "%s\n\n%s\n", k.Title, k.Briefing)
			for i, s := range k.Steps {
				fmt.Fprintf(&b, "%2d  %-22s", i+1, s.Exercise)
				if len(s.Needs) > 0 {
					fmt.Fprintf(&b, " after %s;", strings.Join(s.Needs, ", "))
				}
				fmt.Fprintf(&b, " coach %s", strings.ReplaceAll(string(s.Coach), "_", " "))
				if s.Assessed {
					fmt.Fprint(&b, "; as an assessment")
				}
				if s.Pass > 0 {
					fmt.Fprintf(&b, "; %g points", s.Pass)
				}
				if s.Repeat > 0 {
					fmt.Fprintf(&b, "; again after %.0f days", s.Repeat.Hours()/24)
				}
				fmt.Fprintln(&b)
			}
			_, err = io.WriteString(c.OutOrStdout(), b.String())
			return err
		},
	}
}

func newCourseCheckCommand() *cobra.Command {
	var schema bool
	c := &cobra.Command{
		Use:   "check FILE...",
		Short: "Check course files: every fault, a line each",
		RunE: func(c *cobra.Command, args []string) error {
			if schema {
				_, err := c.OutOrStdout().Write(scenarios.CourseSchema())
				return err
			}
			if len(args) == 0 {
				return usagef("want a course file")
			}
			var faults []error
			for _, file := range args {
				k, err := scenarios.LoadCourse(file)
				if err != nil {
					faults = append(faults, err)
					continue
				}
				fmt.Fprintf(c.OutOrStdout(), "%s: good, %s\n", file, plural(len(k.Steps), "step", "steps"))
			}
			if len(faults) > 0 {
				return usageError{errors.Join(faults...)}
			}
			return nil
		},
	}
	c.Flags().BoolVar(&schema, "schema", false, "print the JSON Schema of a course file")
	return c
}

func newCourseReportCommand() *cobra.Command {
	var trainee, format string
	var again bool
	c := &cobra.Command{
		Use:   "report COURSE FOLDER...",
		Short: "How far a trainee is, by the debriefs in folders",
		Long: `How far a trainee is with a course, by the debriefs that runs left in folders
(debrief.json, looked for in each and in the folders in it): what is passed, open,
due again, which causes of lost points recur.

A debrief is a file that anyone can edit. --flown-again does not believe them: it flies
every session.jsonl again and marks it, which takes as long as flying does.

--format html prints a page with room for signatures.`,
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) < 2 {
				return usagef("want a course and a folder or more")
			}
			return nil
		},
		RunE: func(c *cobra.Command, args []string) error {
			if !slices.Contains([]string{"text", "json", "csv", "html"}, format) {
				return usagef("--format: %q is none (want text, json, csv or html)", format)
			}
			k, err := findCourse(args[0])
			if err != nil {
				return err
			}
			ctx, stop := untilEnded()
			defer stop()
			now, err := startOfNow()
			if err != nil {
				return err
			}
			r, err := gatherRecord(ctx, c.ErrOrStderr(), args[1:], trainee, again)
			if err != nil {
				return err
			}
			w := c.OutOrStdout()
			switch format {
			case "json":
				return course.WriteJSON(w, k, r, now)
			case "csv":
				return course.WriteCSV(w, r)
			case "html":
				return course.WriteSheet(w, k, r, now)
			}
			return tellCourse(w, k, r, now)
		},
	}
	c.Flags().StringVar(&trainee, "trainee", "", "whose attempts count (default the only one there is)")
	c.Flags().StringVar(&format, "format", "text", "text, json, csv or html")
	c.Flags().BoolVar(&again, "flown-again", false, "fly every session again and mark it, instead of believing its debrief")
	return c
}

// gatherRecord reads the attempts of one trainee from folders.
func gatherRecord(ctx context.Context, stderr io.Writer, folders []string, trainee string, again bool) (*course.Record, error) {
	want := "debrief.json"
	if again {
		want = "session.jsonl"
	}
	r := &course.Record{Trainee: trainee, Attempts: []course.Attempt{}}
	others := map[string]bool{}
	for _, folder := range folders {
		err := filepath.WalkDir(folder, func(path string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || d.Name() != want {
				return err
			}
			if err := context.Cause(ctx); err != nil {
				return err
			}
			who, a, err := readAttempt(ctx, path, again)
			if err != nil {
				warn(stderr, fmt.Sprintf("%s is left out: %v", path, err))
				return nil
			}
			others[who] = true
			if trainee == "" || who == trainee {
				r.Add(a)
			}
			return nil
		})
		if err != nil {
			return nil, err
		}
	}
	if trainee == "" && len(others) > 1 {
		var names []string
		for n := range others {
			names = append(names, fmt.Sprintf("%q", n))
		}
		slices.Sort(names)
		return nil, usagef("--trainee: there are attempts of %s; say whose count", strings.Join(names, ", "))
	}
	for n := range others {
		if trainee == "" {
			r.Trainee = n
		}
	}
	return r, nil
}

// readAttempt reads a debrief, or flies a session again.
func readAttempt(ctx context.Context, path string, again bool) (trainee string, a course.Attempt, err error) {
	if !again {
		const largest = 64 << 20
		f, err := os.Open(path)
		if err != nil {
			return "", course.Attempt{}, err
		}
		defer f.Close()
		text, err := io.ReadAll(io.LimitReader(f, largest))
		if err != nil {
			return "", course.Attempt{}, err
		}
		return course.Read(text)
	}
	var warned bytes.Buffer
	f, err := openLog(&warned, path)
	if err != nil {
		return "", course.Attempt{}, err
	}
	if f.Backing, err = record.OnDisk(""); err != nil {
		return "", course.Attempt{}, err
	}
	r, err := f.Mark(ctx)
	if err != nil {
		return "", course.Attempt{}, err
	}
	a = course.Of(&r)
	a.Marked = true
	return r.Trainee, a, nil
}

// tellCourse prints how far a trainee is.
func tellCourse(w io.Writer, k *course.Course, r *course.Record, now time.Time) error {
	var b strings.Builder
	standings := k.Standings(r, now)
	fmt.Fprintf(&b, "%s: %s\n\n", k.Title, cmp.Or(r.Trainee, "no name given"))
	for i, s := range standings {
		fmt.Fprintf(&b, "%2d  %-22s %-7s", i+1, s.Exercise, s.State)
		if s.Attempts > 0 {
			fmt.Fprintf(&b, " %s, best %.1f", plural(s.Attempts, "attempt", "attempts"), s.Best)
		}
		fmt.Fprintln(&b)
	}
	if again := r.Recurring(); len(again) > 0 {
		fmt.Fprintln(&b, "\nWhat cost points more than once:")
		for _, c := range again {
			fmt.Fprintf(&b, "  %s, %d attempts\n", strings.ReplaceAll(c.Cause, "_", " "), c.Attempts)
		}
	}
	if reached := k.Reached(standings); len(reached) > 0 {
		fmt.Fprintln(&b, "\nPractice supported towards (it replaces no field time):")
		for _, o := range reached {
			fmt.Fprintf(&b, "  %s\n", o)
		}
	}
	_, err := io.WriteString(w, b.String())
	return err
}
