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
	"os"
	"path/filepath"
	"reflect"

	"github.com/gofrs/flock"

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

// openTrial makes the folder of a new trial, or opens that of one to go on with, whose runs
// it returns. What is in the folder and no trial's is not touched.
func openTrial(path string, resume bool, head trialHead, files map[string][]byte, sources [][]byte, plans []trial.Plan) (*trialFolder, []trial.Outcome, error) {
	at := filepath.Join(path, runsFile)
	_, err := os.Stat(at)
	there := err == nil
	switch {
	case there && !resume:
		return nil, nil, usagef("%s: a trial is there already; --resume goes on with it", path)
	case !there && resume:
		return nil, nil, usagef("%s: there is no trial to go on with", path)
	}
	if err := os.MkdirAll(filepath.Join(path, "plans"), 0o777); err != nil {
		return nil, nil, err
	}
	f := &trialFolder{path: path, lock: flock.New(at + ".lock")}
	if got, err := f.lock.TryLock(); err != nil {
		return nil, nil, err
	} else if !got {
		return nil, nil, fmt.Errorf("%s: a trial is being flown there", path)
	}
	had, err := f.open(at, there, head)
	if err == nil && !there {
		for name, text := range files {
			err = errors.Join(err, putFile(filepath.Join(path, name), text))
		}
		for i, p := range plans {
			err = errors.Join(err, putFile(filepath.Join(path, "plans", p.Name+".yaml"), sources[i]))
			for _, d := range p.Exercise.Files {
				err = errors.Join(err, putFile(filepath.Join(path, "plans", d.Name), d.Data))
			}
		}
	}
	if err != nil {
		f.Close()
		return nil, nil, err
	}
	return f, had, nil
}

// open opens the runs, with what is whole of them.
func (f *trialFolder) open(at string, there bool, head trialHead) (had []trial.Outcome, err error) {
	if f.runs, err = os.OpenFile(at, os.O_RDWR|os.O_CREATE, 0o666); err != nil {
		return nil, err
	}
	if !there {
		line, err := encodeLine(head)
		if err != nil {
			return nil, err
		}
		_, err = f.runs.Write(line)
		return nil, err
	}
	was, had, whole, err := readRuns(f.runs)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", at, err)
	}
	if !reflect.DeepEqual(was, head) {
		return nil, usagef("%s: it is a trial of other plans, targets, seed or engine: %s", f.path, differs(was, head))
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
				return head, nil, 0, fmt.Errorf("line 1 is no head of a trial: %w", err)
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

// bareGround is what was found on bare ground, found once.
func (f *trialFolder) bareGround(ctx context.Context, t *trial.Trial) ([]*trial.Bare, error) {
	at := filepath.Join(f.path, bareFile)
	if text, err := os.ReadFile(at); err == nil {
		var bare []*trial.Bare
		if err := json.Unmarshal(text, &bare); err == nil && len(bare) == len(t.Plans) {
			return bare, nil
		}
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

// putFile writes a file whole or not at all.
func putFile(name string, text []byte) error {
	tmp, err := os.CreateTemp(filepath.Dir(name), "."+filepath.Base(name)+"-*")
	if err != nil {
		return err
	}
	_, err = tmp.Write(text)
	err = errors.Join(err, tmp.Chmod(0o644), tmp.Close())
	if err == nil {
		err = os.Rename(tmp.Name(), name)
	}
	if err != nil {
		os.Remove(tmp.Name())
	}
	return err
}
