package scenarios

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"path/filepath"
	"slices"
	"time"

	"dryline/sim/exercise"

	"github.com/go-viper/mapstructure/v2"
	"github.com/spf13/viper"
)

// Load reads an exercise file. The error is [Faults] if the file is there but
// not as it should be.
func Load(path string) (*exercise.Exercise, error) {
	source, err := readSource(path)
	if err != nil {
		return nil, err
	}
	if err := Fetch(source, filepath.Dir(path)); err != nil {
		return nil, fmt.Errorf("%s: %w", path, err)
	}
	return Parse(path, source)
}

// Parse reads an exercise from the contents of a file. The name is the file's,
// for the faults; less directory and extension, it becomes the exercise's. The
// error is [Faults].
func Parse(name string, source []byte) (*exercise.Exercise, error) {
	file, r, err := read[exerciseFile](name, source, rules(), "an exercise")
	if err != nil {
		return nil, err
	}
	c := &checker{reader: r, file: file}
	e := assemble(c)
	if err := r.err(); err != nil {
		return nil, err
	}
	sum := sha256.Sum256(source)
	e.Name, e.Source, e.Hash = baseName(name), slices.Clone(source), hex.EncodeToString(sum[:])
	return e, nil
}

// read checks every value of a file of some kind by itself and fills in the defaults. What
// is faulty is left zero and reported in the reader.
func read[F any](name string, source []byte, root *rule, what string) (*F, *reader, error) {
	r := &reader{report: report{file: name}, root: root, what: what, lines: map[string]int{}}
	if len(source) > maxSource {
		r.add(Fault{Problem: "is too large for " + what, Want: "at most 1 MiB"})
		return nil, nil, r.err()
	}
	// Keys hold no NUL, so that none is split.
	v := viper.NewWithOptions(viper.KeyDelimiter("\x00"), viper.WithDecoderRegistry(r))
	v.SetConfigType("yaml")
	if err := v.ReadConfig(bytes.NewReader(source)); err != nil {
		return nil, nil, fmt.Errorf("%s: %w", name, err)
	}
	if len(v.AllKeys()) == 0 { // nothing but a syntax fault
		return nil, nil, r.err()
	}
	file := new(F)
	err := v.UnmarshalExact(file, func(c *mapstructure.DecoderConfig) {
		c.TagName, c.WeaklyTypedInput, c.DecodeHook = "key", false, nil
	})
	if err != nil {
		return nil, nil, fmt.Errorf("%s: %w", name, err)
	}
	return file, r, nil
}

// assemble turns people's units into the engine's and checks the sections
// against each other.
func assemble(c *checker) *exercise.Exercise {
	f := c.file
	start, err := time.Parse(time.RFC3339, f.Start)
	if err != nil && c.sound("start") {
		c.fault("start", shorten(f.Start), "is not a date and time", "RFC 3339, such as 2031-05-14T08:30:00Z")
	}
	place := f.Place.place(c)
	f.Seabed.Depths.lay(c, place.Grid)
	e := &exercise.Exercise{
		Title: f.Title, Briefing: f.Briefing, Goals: f.Goals, Trains: f.Trains, Seed: uint64(f.Seed), Start: start.UTC(),
		Place:       place,
		Files:       c.files,
		Sea:         f.Sea.sea(c, f.Seabed.Depth),
		Seabed:      f.Seabed.spec(c),
		Placed:      f.Seabed.placed(c),
		Elsewhere:   f.Seabed.elsewhere(c),
		Vessel:      f.Vessel.spec(),
		Tow:         f.Tow.spec(c),
		Instruments: f.Instruments.spec(c),
		Lines:       lines(c),
		Desk:        f.Desk.settings(c),
		Score:       f.Score.score(c),
		Help:        f.Help.help(),
		Events:      f.events(c),
		Snags:       f.snags(c),
		Traffic:     f.traffic(c),
	}
	e.Sonar = f.Sonar.spec(c, e.Sea.Water)
	e.Sonar.Effects = f.effects(c, e.Sea)
	e.Plan = f.Plan.plan(c, e.Tow)
	c.checkPictures()
	f.Plan.checkMemory(c, e)
	return e
}
