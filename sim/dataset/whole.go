package dataset

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
	"iter"
	"strconv"
	"strings"

	"dryline/sim/dataset/rasters"
	"dryline/sim/dataset/setspec"
	"dryline/sim/dataset/tiles"
	"dryline/sim/product"
	"dryline/sim/product/folder"
	"dryline/sim/provenance"
)

// ScenesFolder is where the folders of the scenes lie in a set's.
const ScenesFolder = "scenes"

// SpecFile is the copy of the spec in a set's folder.
const SpecFile = "spec.yaml"

// Whole is a set that is made: its spec, and what its scenes say of themselves, in the
// spec's order. They are gone through anew for every file, so that none is kept.
type Whole struct {
	Spec   *setspec.Spec
	Scenes iter.Seq2[*Told, error]
	open   func(scene, file string) (io.ReadCloser, error)
	total  total
	like   *Likeness // once it is worked out
}

// total sums up what all scenes have together.
type total struct {
	scenes  map[setspec.Split]int
	bare    int
	count   Count
	bytes   int64
	files   int
	engines map[string]bool
	floor   []Floor
	texture map[string]*Texture // by sediment
	sizes   map[string]int64    // by ending
}

// NewWhole adds the scenes up. open opens a file of a scene.
func NewWhole(spec *setspec.Spec, scenes iter.Seq2[*Told, error], open func(scene, file string) (io.ReadCloser, error)) (*Whole, error) {
	w := &Whole{Spec: spec, Scenes: scenes, open: open, total: total{
		scenes: map[setspec.Split]int{}, engines: map[string]bool{}, sizes: map[string]int64{}, texture: map[string]*Texture{},
		count: Count{Objects: map[string]int{}, Labels: map[string]int64{}, Floor: map[string]int64{}},
	}}
	t := &w.total
	for told, err := range scenes {
		if err != nil {
			return nil, err
		}
		t.scenes[told.Split]++
		if told.Background {
			t.bare++
		}
		t.count.Lines += told.Count.Lines
		t.count.Pings += told.Count.Pings
		t.count.Metres += told.Count.Metres
		t.floor = mergeFloors(t.floor, told.Floor)
		mergeTextures(t.texture, told.Texture)
		for k, n := range told.Count.Objects {
			t.count.Objects[k] += n
		}
		for k, n := range told.Count.Labels {
			t.count.Labels[k] += n
		}
		for k, n := range told.Count.Floor {
			t.count.Floor[k] += n
		}
		t.engines[fmt.Sprintf("%d on %s", told.Engine, told.Platform)] = true
		for _, f := range told.Files {
			t.bytes += f.Bytes
			t.files++
			t.sizes[f.Name[strings.LastIndexByte(f.Name, '.')+1:]] += f.Bytes
		}
	}
	return w, nil
}

// provenance returns what a picture of the set says of where it comes from, as those of a scene do.
func (w *Whole) provenance() []product.Text {
	return []product.Text{
		{Keyword: "Software", Value: fmt.Sprintf("Dryline survey simulator, engine %d", provenance.Engine)},
		{Keyword: "Source", Value: fmt.Sprintf("%s, spec sha256 %s", w.Spec.Title, w.Spec.Hash)},
		{Keyword: "Copyright", Value: provenance.Licence},
		{Keyword: "Disclaimer", Value: onFigures},
	}
}

// File is a file of the set itself.
type File struct {
	Name  string
	Write func(io.Writer) error
}

// Files are those of the set, in the order they are to be written: the manifest last, which
// lists the others as they were written.
func (w *Whole) Files(written func() []folder.Entry) []File {
	files := []File{
		{"scenes.csv", w.table},
		{"splits.json", w.splits},
		{"DATACARD.md", w.card},
		{"REALISM.md", w.realism},
		{likenessFile, w.likenessJSON},
		{"LICENSE", licence},
		{"CITATION.cff", w.citation},
		{"croissant.json", func(out io.Writer) error { return w.croissant(out, written()) }},
	}
	for _, f := range figures {
		if !f.images || len(w.annotated()) > 0 {
			files = append(files, File{f.name, func(out io.Writer) error {
				like, err := w.likeness()
				if err != nil {
					return err
				}
				var b bytes.Buffer
				if err := f.draw(like, &b); err != nil {
					return err
				}
				_, err = out.Write(product.WithTexts(b.Bytes(), w.provenance()))
				return err
			}})
		}
	}
	for _, list := range w.annotated() {
		for _, s := range setspec.Splits() {
			files = append(files, File{annotationsOf(list, s), w.annotations(list, s)})
		}
	}
	return append(files, File{"manifest.json", func(out io.Writer) error { return w.manifest(out, written()) }})
}

// Names are those of all files that may lie in a set's folder itself.
func Names() []string {
	names := []string{SpecFile, "scenes.csv", "splits.json", "DATACARD.md", "REALISM.md", likenessFile, "LICENSE", "CITATION.cff", "croissant.json", "manifest.json"}
	for _, f := range figures {
		names = append(names, f.name)
	}
	for _, list := range []string{tiles.AnnotationFile, rasters.AnnotationFile} {
		for _, s := range setspec.Splits() {
			names = append(names, annotationsOf(list, s))
		}
	}
	return names
}

func annotationsOf(list string, s setspec.Split) string {
	return strings.TrimSuffix(list, ".json") + "-" + string(s) + ".json"
}

// annotated are the files of annotations that every scene has.
func (w *Whole) annotated() []string {
	var lists []string
	if w.Spec.Products.Images {
		lists = append(lists, tiles.AnnotationFile)
	}
	if w.Spec.Products.Mosaic {
		lists = append(lists, rasters.AnnotationFile)
	}
	return lists
}

// table is a row for every scene.
func (w *Whole) table(out io.Writer) error {
	c := csv.NewWriter(out)
	c.Write([]string{"scene", "split", "exercise", "seed", "background", "lines", "pings", "line_metres", "objects", "values", "exercise_sha256"})
	for t, err := range w.Scenes {
		if err != nil {
			return err
		}
		objects := 0
		for _, n := range t.Count.Objects {
			objects += n
		}
		var values []string
		for _, v := range t.Values {
			values = append(values, v.Key+"="+v.Value)
		}
		c.Write([]string{t.Scene, string(t.Split), t.Exercise, strconv.FormatUint(t.Seed, 10), strconv.FormatBool(t.Background),
			strconv.Itoa(t.Count.Lines), strconv.Itoa(t.Count.Pings), strconv.FormatFloat(t.Count.Metres, 'f', 2, 64), strconv.Itoa(objects),
			strings.Join(values, "; "), t.Hash})
	}
	c.Flush()
	return c.Error()
}

// splits lists the scenes of every split.
func (w *Whole) splits(out io.Writer) error {
	lists := map[setspec.Split][]string{}
	for _, s := range setspec.Splits() {
		lists[s] = []string{}
	}
	for i := range w.Spec.Scenes {
		sc := &w.Spec.Scenes[i]
		lists[sc.Split] = append(lists[sc.Split], sc.Name)
	}
	return writeJSON(out, lists)
}

// manifest lists every file with its size and SHA-256.
func (w *Whole) manifest(out io.Writer, own []folder.Entry) error {
	head, err := json.Marshal(map[string]any{
		"title": w.Spec.Title, "spec_sha256": w.Spec.Hash, "dryline_engine": provenance.Engine, "license": provenance.Licence, "synthetic": true, "caution": Caution,
	})
	if err != nil {
		return err
	}
	if _, err := fmt.Fprintf(out, "%s,\n\"files\": [", head[:len(head)-1]); err != nil {
		return err
	}
	between := "\n"
	entry := func(e folder.Entry) error {
		b, err := json.Marshal(e)
		if err == nil {
			_, err = fmt.Fprintf(out, "%s%s", between, b)
		}
		between = ",\n"
		return err
	}
	for _, e := range own {
		if err := entry(e); err != nil {
			return err
		}
	}
	for t, err := range w.Scenes {
		if err != nil {
			return err
		}
		for _, e := range t.Files {
			e.Name = ScenesFolder + "/" + t.Scene + "/" + e.Name
			if err := entry(e); err != nil {
				return err
			}
		}
	}
	_, err = io.WriteString(out, "\n]}\n")
	return err
}

// licence is the dedication by its name; the text is at the address.
func licence(out io.Writer) error {
	_, err := fmt.Fprintf(out, `SPDX-License-Identifier: %s

This set is synthetic. To the extent possible under law, whoever made it has waived all
copyright and related rights to it: Creative Commons Zero v1.0 Universal,
https://creativecommons.org/publicdomain/zero/1.0/legalcode

It is no evidence of anything at sea. Not for navigation.
`, provenance.Licence)
	return err
}

// citation is by the Citation File Format 1.2.0.
func (w *Whole) citation(out io.Writer) error {
	q := strconv.Quote
	_, err := fmt.Fprintf(out, `cff-version: 1.2.0
message: "If you use this synthetic set, please cite it so."
type: dataset
title: %s
abstract: %s
authors:
  - name: %s
license: %s
version: %s
date-released: %s
keywords: ["side-scan sonar", "synthetic data", "simulation"]
`, q(w.Spec.Title), q(oneLine(w.Spec.Description)), q(w.Spec.Creator), provenance.Licence, q(fmt.Sprintf("engine %d, spec %.12s", provenance.Engine, w.Spec.Hash)), w.Spec.Published)
	return err
}

func oneLine(s string) string { return strings.Join(strings.Fields(s), " ") }
