package dataset

import (
	"encoding/json"
	"fmt"
	"io"

	"dryline/sim/dataset/coco"
	"dryline/sim/dataset/setspec"
	"dryline/sim/dataset/tiles"
	"dryline/sim/order"
	"dryline/sim/provenance"
)

// annotations are those of one name of all scenes of a split in one file, with numbers of their own and
// the names of pictures from the set's folder on. The scenes are gone through twice, so
// that no more than one is in memory.
func (w *Whole) annotations(name string, split setspec.Split) func(io.Writer) error {
	return func(out io.Writer) error {
		head, err := json.Marshal(coco.File{
			Info:       coco.Info{Description: w.Spec.Title + ", " + string(split) + ". " + Caution, Version: w.Spec.Hash, Synthetic: true, Engine: provenance.Engine},
			Licenses:   tiles.Licenses(),
			Categories: tiles.Categories(), Images: []coco.Image{}, Annotations: []coco.Annotation{},
		})
		if err != nil {
			return err
		}
		const tail = `,"images":[],"annotations":[]}`
		if _, err := fmt.Fprintf(out, "%s,\"images\":[", head[:len(head)-len(tail)]); err != nil {
			return err
		}
		between := "\n"
		put := func(v any) error {
			b, err := json.Marshal(v)
			if err == nil {
				_, err = fmt.Fprintf(out, "%s%s", between, b)
			}
			between = ",\n"
			return err
		}
		images := 0
		if err := w.eachAnnotated(name, split, func(f *coco.File, scene string) error {
			for _, img := range f.Images {
				img.ID += images
				img.File, img.Deep = ScenesFolder+"/"+scene+"/"+img.File, ScenesFolder+"/"+scene+"/"+img.Deep
				if err := put(img); err != nil {
					return err
				}
			}
			images += len(f.Images)
			return nil
		}); err != nil {
			return err
		}
		if _, err := io.WriteString(out, "\n],\"annotations\":["); err != nil {
			return err
		}
		between = "\n"
		before := 0
		images = 0
		if err := w.eachAnnotated(name, split, func(f *coco.File, _ string) error {
			for _, a := range f.Annotations {
				a.ID += before
				a.Image += images
				for i := range a.Linked {
					a.Linked[i] += before
				}
				if err := put(a); err != nil {
					return err
				}
			}
			images, before = images+len(f.Images), before+len(f.Annotations)
			return nil
		}); err != nil {
			return err
		}
		_, err = io.WriteString(out, "\n]}\n")
		return err
	}
}

// eachAnnotated hands over the annotations of one name of every scene of a split.
func (w *Whole) eachAnnotated(name string, split setspec.Split, use func(f *coco.File, scene string) error) error {
	for i := range w.Spec.Scenes {
		sc := &w.Spec.Scenes[i]
		if sc.Split != split {
			continue
		}
		in, err := w.open(sc.Name, name)
		if err != nil {
			return err
		}
		f := new(coco.File)
		err = json.NewDecoder(in).Decode(f)
		in.Close()
		if err != nil {
			return fmt.Errorf("%s of %s: %w", name, sc.Name, order.JSONFault(err))
		}
		if err := use(f, sc.Name); err != nil {
			return err
		}
	}
	return nil
}
