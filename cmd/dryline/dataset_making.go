package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"iter"
	"os"
	"path/filepath"
	"sync"
	"time"

	"github.com/schollz/progressbar/v3"
	"golang.org/x/term"

	"dryline/sim/dataset"
	"dryline/sim/dataset/setspec"
	"dryline/sim/order"
	"dryline/sim/product/folder"
	"dryline/sim/record"
)

// setMaking makes the scenes of a set that are not there yet, and then what is said of
// the whole.
type setMaking struct {
	spec     *setspec.Spec
	folder   string
	workers  int
	force    bool
	progress *setProgress
}

func (m *setMaking) path(sc *setspec.Scene) string {
	return filepath.Join(m.folder, dataset.ScenesFolder, sc.Name)
}

// scenes makes the scenes and says how many had to be made. A scene that fails does not
// keep the others from being made.
func (m *setMaking) scenes(ctx context.Context) (made int, err error) {
	var (
		mu    sync.Mutex
		group sync.WaitGroup
		next  int
		done  int
		errs  []error
	)
	take := func() *setspec.Scene {
		mu.Lock()
		defer mu.Unlock()
		if next >= len(m.spec.Scenes) || ctx.Err() != nil {
			return nil
		}
		next++
		return &m.spec.Scenes[next-1]
	}
	for range min(m.workers, len(m.spec.Scenes)) {
		group.Go(func() {
			for sc := take(); sc != nil; sc = take() {
				fresh, err := m.scene(ctx, sc)
				mu.Lock()
				switch {
				case err == nil:
					done++
					if fresh {
						made++
					}
					m.progress.add(fresh)
				case ctx.Err() == nil:
					errs = append(errs, fmt.Errorf("scene %s: %w", sc.Name, err))
				}
				mu.Unlock()
			}
		})
	}
	group.Wait()
	m.progress.end()
	if ctx.Err() != nil {
		return made, interruptedSet(ctx, done, len(m.spec.Scenes))
	}
	if len(errs) > 10 {
		errs = append(errs[:10], fmt.Errorf("and %d scenes more", len(errs)-10))
	}
	return made, errors.Join(errs...)
}

// scene makes a scene unless it is there.
func (m *setMaking) scene(ctx context.Context, sc *setspec.Scene) (fresh bool, err error) {
	path := m.path(sc)
	list, err := os.Open(filepath.Join(path, folder.ListFile))
	switch {
	case err == nil:
		current, _, err := dataset.Current(sc, m.spec, list)
		list.Close()
		if err != nil || current {
			return false, err
		}
		if !m.force {
			return false, errors.New("was made by another engine or version, of another exercise or with other products; --force makes it again")
		}
	case !errors.Is(err, fs.ErrNotExist):
		return false, err
	}
	to, err := folder.New(path, m.force)
	if err != nil {
		return false, err
	}
	defer to.Abandon()
	if err := dataset.Make(ctx, sc, m.spec, to, func() (record.Backing, error) { return record.OnDisk("") }); err != nil {
		return false, err
	}
	return true, to.Commit()
}

// told goes through what the scenes say of themselves.
func (m *setMaking) told() iter.Seq2[*dataset.Told, error] {
	return func(yield func(*dataset.Told, error) bool) {
		for i := range m.spec.Scenes {
			told := new(dataset.Told)
			b, err := os.ReadFile(filepath.Join(m.path(&m.spec.Scenes[i]), folder.ListFile))
			if err == nil {
				err = order.JSONFault(json.Unmarshal(b, told))
			}
			if err != nil {
				err = fmt.Errorf("scene %s: its list cannot be read: %w", m.spec.Scenes[i].Name, err)
			}
			if !yield(told, err) {
				return
			}
		}
	}
}

// finish writes the files of the set itself.
func (m *setMaking) finish() error {
	whole, err := dataset.NewWhole(m.spec, m.told(), func(scene, file string) (io.ReadCloser, error) {
		return os.Open(filepath.Join(m.folder, dataset.ScenesFolder, scene, file))
	})
	if err != nil {
		return err
	}
	var own []folder.Entry
	for _, f := range whole.Files(func() []folder.Entry { return own }) {
		entry, err := replaceFile(m.folder, f.Name, f.Write)
		if err != nil {
			return err
		}
		own = append(own, entry)
	}
	return nil
}

// setProgress shows how far a set is and how long it takes yet: a bar on a terminal, a
// line for every scene made elsewhere.
type setProgress struct {
	out        io.Writer
	bar        *progressbar.ProgressBar // nil elsewhere
	all        int
	done, made int
	started    time.Time
}

func newSetProgress(out io.Writer, all int) *setProgress {
	p := &setProgress{out: out, all: all, started: time.Now()}
	if file, ok := out.(*os.File); ok && term.IsTerminal(int(file.Fd())) {
		p.bar = progressbar.NewOptions(all, progressbar.OptionSetWriter(out), progressbar.OptionSetDescription("scenes"),
			progressbar.OptionSetPredictTime(true), progressbar.OptionShowCount(), progressbar.OptionClearOnFinish())
	}
	return p
}

func (p *setProgress) add(fresh bool) {
	p.done++
	if fresh {
		p.made++
	}
	if p.bar != nil {
		p.bar.Add(1)
		return
	}
	if fresh {
		each := time.Since(p.started) / time.Duration(p.made)
		fmt.Fprintf(p.out, "%d of %d scenes, about %s left\n", p.done, p.all, (each * time.Duration(p.all-p.done)).Round(time.Second))
	}
}

func (p *setProgress) end() {
	if p.bar != nil {
		p.bar.Finish()
	}
}
