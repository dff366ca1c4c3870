//go:build !js

package main

import (
	"context"
	"crypto/rand"
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"time"

	"dryline/cmd/dryline-desk/app"
	"dryline/scenarios"
	"dryline/sim/assess"
	"dryline/sim/assess/keep"
	"dryline/sim/exercise"
	"dryline/sim/order"
	product "dryline/sim/product/folder"
	"dryline/sim/record"
)

// underWayEnding ends the name of the folder of an assessment under way.
var underWayEnding = filepath.Base(keep.UnderWay("x"))[1:]

// assessment holds what an assessment is begun with.
type assessment struct{ to, trainee string }

// begin begins an assessment of an exercise, in a folder of its own under another.
func (a *assessment) begin(g *app.Game, ex *exercise.Exercise, out string) (app.Screen, error) {
	if g.Seed != 0 {
		return nil, errors.New("-seed: an assessment draws its seed when it begins")
	}
	if err := order.CheckTrainee(a.trainee); err != nil {
		return nil, fmt.Errorf("-trainee: %w", err)
	}
	instructor, err := keep.Public(a.to)
	if err != nil {
		return nil, fmt.Errorf("-assess: %w", err)
	}
	if err := assess.Ready(ex); err != nil {
		return nil, fmt.Errorf("%s: %w: %w", ex.Name, assess.ErrNotReady, err)
	}
	installation, err := keep.Installation()
	if err != nil {
		return nil, err
	}
	now := time.Now()
	folder := filepath.Join(out, ex.Name+"-assessment-"+now.Format("2006-01-02-150405"))
	box, err := keep.New(folder)
	if err != nil {
		return nil, err
	}
	nth, err := keep.Begun()
	if err != nil {
		return nil, err
	}
	start := assess.Start{
		Exercise: ex, Trainee: a.trainee, Nth: nth, Began: now.UTC().Truncate(time.Second), Instructor: instructor,
		Installation: installation.Recipient(), Chance: rand.Reader, Now: time.Now,
	}
	s, err := start.Begin(box)
	if err != nil {
		return nil, err
	}
	return app.StartAssessed(g, s, keep.UnderWay(folder), handIn(box, folder))
}

// resumeAssessment resumes an assessment under way.
func resumeAssessment(g *app.Game, underWay string) (app.Screen, error) {
	folder := strings.TrimSuffix(filepath.Clean(underWay), underWayEnding)
	installation, err := keep.Installation()
	if err != nil {
		return nil, err
	}
	box, err := keep.Open(folder)
	if err != nil {
		return nil, err
	}
	s, err := assess.Resume(box, installation, scenarios.FromSeal, time.Now)
	if err != nil {
		return nil, err
	}
	return app.StartAssessed(g, s, keep.UnderWay(folder), handIn(box, folder))
}

// isUnderWay reports whether a name is of an assessment under way.
func isUnderWay(name string) bool {
	info, err := os.Stat(name)
	return err == nil && info.IsDir() && strings.HasSuffix(filepath.Clean(name), underWayEnding)
}

// handIn flies an assessment that is over again, for its products, and hands it in.
func handIn(box *keep.Box, folder string) app.HandIn {
	return func() (string, error) {
		installation, err := keep.Installation()
		if err != nil {
			return "", err
		}
		s, err := assess.Resume(box, installation, scenarios.FromSeal, time.Now)
		if err != nil {
			return "", err
		}
		to, err := product.New(folder, false)
		if err != nil {
			return "", err
		}
		defer to.Abandon()
		f := assess.Flight{Assessment: s, Sink: to}
		if f.Backing, err = record.OnDisk(""); err != nil {
			return "", err
		}
		if _, err := f.Fly(context.Background(), nil, math.MaxInt64); err != nil {
			return "", err
		}
		if err := to.Commit(); err != nil {
			return "", err
		}
		return folder, box.Remove()
	}
}
