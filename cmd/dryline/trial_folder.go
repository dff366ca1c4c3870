package main

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"reflect"
	"slices"

	"github.com/gofrs/flock"

	"dryline/sim/order"
	"dryline/sim/provenance"
	"dryline/sim/trial"
	trialreport "dryline/sim/trial/report"
)

func engineNumber() int { return provenance.Engine }

// trialFolder is where a trial keeps its runs while it is flown, and its answers.
type trialFolder struct {
	path string
	runs *os.File
	lock *flock.Flock
}

const (
	runsFile = "runs.jsonl"
	bareFile = "bare.json"
)

// openTrial makes the folder of a new trial, or opens that of one to be resumed, whose runs
// it returns. What is in the folder and not this trial's is not touched: it is refused.
func openTrial(path string, resume bool, t *trial.Trial, targets []byte) (*trialFolder, []trial.Outcome, error) {
	at := filepath.Join(path, runsFile)
	_, err := os.Stat(at)
	there := err == nil
	switch {
	case there && !resume:
		return nil, nil, usagef("%s: there is a trial already; --resume continues it", path)
	case !there && resume:
		return nil, nil, usagef("%s: there is no trial to resume", path)
	}
	if err := os.MkdirAll(filepath.Join(path, "plans"), 0o755); err != nil {
		return nil, nil, err
	}
	f := &trialFolder{path: path, lock: flock.New(at + ".lock")}
	if got, err := f.lock.TryLock(); err != nil {
		return nil, nil, err
	} else if !got {
		return nil, nil, fmt.Errorf("%s: a trial is being flown there", path)
	}
	if _, err := os.Stat(at); (err == nil) != there { // another trial was quicker
		f.Close()
		return nil, nil, usagef("%s: a trial was begun there meanwhile", path)
	}
	err = sweepAside(path, []string{"targets.yaml", runsFile, bareFile, "trial.json", "trial.csv", "trial.html"})
	for _, p := range t.Plans {
		files := []string{p.Name + ".yaml"}
		for _, d := range p.Exercise.Files {
			files = append(files, d.Name)
		}
		err = errors.Join(err, sweepAside(filepath.Join(path, "plans"), files))
	}
	if err != nil {
		f.Close()
		return nil, nil, err
	}
	var had []trial.Outcome
	if there {
		had, err = f.open(at, t, headOf(t, targets))
	} else {
		err = f.begin(at, t, targets)
	}
	if err != nil {
		f.Close()
		return nil, nil, err
	}
	return f, had, nil
}

// begin writes what a new trial is of, and last the head of its runs.
func (f *trialFolder) begin(at string, t *trial.Trial, targets []byte) error {
	files := map[string][]byte{"targets.yaml": targets}
	for _, p := range t.Plans {
		files[filepath.Join("plans", p.Name+".yaml")] = p.Exercise.Source
		for _, d := range p.Exercise.Files {
			name := filepath.Join("plans", d.Name)
			if was, ok := files[name]; ok && !bytes.Equal(was, d.Data) {
				return usagef("%s: its file %s differs from the one of that name that a plan before has (want plans over the same ground)", p.Name, d.Name)
			}
			files[name] = d.Data
		}
	}
	var faults []error
	refuse := func(name string) {
		faults = append(faults, fmt.Errorf("%s is there already and not of this trial (want another folder)", filepath.Join(f.path, name)))
	}
	names := slices.Sorted(maps.Keys(files))
	for _, name := range names {
		if was, err := os.ReadFile(filepath.Join(f.path, name)); err == nil && !bytes.Equal(was, files[name]) {
			refuse(name)
		}
	}
	for _, name := range []string{bareFile, "trial.json", "trial.csv", "trial.html"} {
		if _, err := os.Lstat(filepath.Join(f.path, name)); err == nil {
			refuse(name)
		}
	}
	if len(faults) > 0 {
		return usageError{errors.Join(faults...)}
	}
	for _, name := range names {
		if err := putFile(filepath.Join(f.path, name), files[name]); err != nil {
			return err
		}
	}
	head, err := encodeLine(headOf(t, targets))
	if err != nil {
		return err
	}
	if err := putFile(at, head); err != nil {
		return err
	}
	f.runs, err = os.OpenFile(at, os.O_WRONLY|os.O_APPEND, 0)
	return err
}

// open opens the runs, with what is whole of them.
func (f *trialFolder) open(at string, t *trial.Trial, head trialHead) (had []trial.Outcome, err error) {
	if f.runs, err = os.OpenFile(at, os.O_RDWR, 0); err != nil {
		return nil, err
	}
	was, had, whole, err := readRuns(f.runs)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", at, err)
	}
	if !reflect.DeepEqual(was, head) {
		return nil, usagef("%s: it is a trial of other plans, targets, seed or engine: %s", f.path, differs(was, head))
	}
	seen := map[trial.Job]bool{}
	for i := range had {
		job := trial.Job{Plan: had[i].Plan, Run: had[i].Run}
		if !t.Fits(&had[i]) || seen[job] {
			return nil, fmt.Errorf("%s: line %d is no run of this trial, or is there twice", at, i+2)
		}
		seen[job] = true
	}
	if err := f.runs.Truncate(whole); err != nil { // a line that was cut
		return nil, err
	}
	_, err = f.runs.Seek(whole, io.SeekStart)
	return had, err
}

func differs(was, is trialHead) string {
	switch {
	case was.Engine != is.Engine:
		return fmt.Sprintf("engine %d, and this is %d", was.Engine, is.Engine)
	case was.Seed != is.Seed:
		return fmt.Sprintf("seed %d, not %d", was.Seed, is.Seed)
	case was.Targets != is.Targets:
		return "other targets"
	}
	return "other plans"
}

// readRuns reads the head and the outcomes, and how many bytes of them are whole.
func readRuns(r io.Reader) (head trialHead, had []trial.Outcome, whole int64, err error) {
	b := bufio.NewReaderSize(r, 1<<20)
	for n := 0; ; n++ {
		line, err := b.ReadBytes('\n')
		if err == io.EOF {
			if n == 0 {
				return head, nil, 0, errors.New("it holds no trial")
			}
			return head, had, whole, nil // what was cut is flown again
		}
		if err != nil {
			return head, nil, 0, err
		}
		if n == 0 {
			d := json.NewDecoder(bytes.NewReader(line))
			d.DisallowUnknownFields()
			if err := d.Decode(&head); err != nil {
				return head, nil, 0, fmt.Errorf("line 1 is no head of a trial: %w", order.JSONFault(err))
			}
		} else {
			var o trial.Outcome
			if err := json.Unmarshal(line, &o); err != nil || o.Plan < 0 || o.Plan >= len(head.Plans) || o.Run < 0 {
				return head, nil, 0, fmt.Errorf("line %d is no run of this trial", n+1)
			}
			had = append(had, o)
		}
		whole += int64(len(line))
	}
}

func readTrialHead(folder string) (trialHead, error) {
	file, err := os.Open(filepath.Join(folder, runsFile))
	if errors.Is(err, fs.ErrNotExist) {
		return trialHead{}, usagef("%s: there is no trial", folder)
	} else if err != nil {
		return trialHead{}, err
	}
	defer file.Close()
	head, _, _, err := readRuns(file)
	return head, err
}

// keep adds an outcome.
func (f *trialFolder) keep(o *trial.Outcome) error {
	line, err := encodeLine(o)
	if err != nil {
		return err
	}
	_, err = f.runs.Write(line)
	return err
}

// bareGround holds the findings on bare ground, found once.
func (f *trialFolder) bareGround(ctx context.Context, t *trial.Trial) ([]*trial.Bare, error) {
	at := filepath.Join(f.path, bareFile)
	if text, err := os.ReadFile(at); err == nil {
		var bare []*trial.Bare
		if err := json.Unmarshal(text, &bare); err == nil && fitsBare(bare, t) {
			return bare, nil
		} // what was spoilt is searched again
	}
	bare, err := t.BareGround(ctx)
	if err != nil {
		return nil, err
	}
	text, err := json.MarshalIndent(bare, "", "  ")
	if err != nil {
		return nil, err
	}
	return bare, putFile(at, append(text, '\n'))
}

func fitsBare(bare []*trial.Bare, t *trial.Trial) bool {
	return len(bare) == len(t.Plans) && !slices.ContainsFunc(bare, func(b *trial.Bare) bool {
		return b == nil || b.Threshold < 0 || b.Wanted != t.Spec.FalseAlarms
	})
}

// hand writes the answers.
func (f *trialFolder) hand(r *trial.Result, t *trial.Trial) error {
	text, err := json.MarshalIndent(r, "", "  ")
	if err != nil {
		return err
	}
	var table, page bytes.Buffer
	if err := errors.Join(trialreport.CSV(&table, r), trialreport.HTML(&page, r, t)); err != nil {
		return err
	}
	return errors.Join(putFile(filepath.Join(f.path, "trial.json"), append(text, '\n')),
		putFile(filepath.Join(f.path, "trial.csv"), table.Bytes()), putFile(filepath.Join(f.path, "trial.html"), page.Bytes()))
}

// Close lets go of the folder.
func (f *trialFolder) Close() {
	if f.runs != nil {
		f.runs.Close()
	}
	os.Remove(f.lock.Path())
	f.lock.Close()
}
