package product

import (
	"encoding/json"
	"io"
	"strconv"
	"strings"

	"dryline/sim/product/folder"
	"dryline/sim/provenance"
)

// Sink takes the files of a survey, each once and whole. A [folder.Folder] is
// one.
type Sink interface {
	Write(name string, write func(io.Writer) error) error
	Files() []folder.Entry // so far, in the order they were written
}

// contents is the list of a folder's files; see [folder.ListFile]. What is said
// here of where they come from stands for the files that cannot say it
// themselves.
type contents struct {
	Engine   int            `json:"dryline_engine"`
	Step     float64        `json:"ground_step_m"` // at which the sonar read the floor
	Exercise string         `json:"exercise"`
	Hash     string         `json:"exercise_sha256,omitempty"`
	Seed     *uint64        `json:"seed,omitempty"` // as the hash, not under assessment
	Licence  string         `json:"license"`
	Caution  string         `json:"caution"`
	Files    []folder.Entry `json:"files"`
}

// Contents writes the list of the files that are in the sink by now.
func (w *Writer) Contents(out io.Writer) error {
	s := w.session
	hash, seed := s.Exercise.Hash, &s.Seeds.One
	if w.Apart != nil {
		hash, seed = "", nil
	}
	enc := json.NewEncoder(out)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	return enc.Encode(contents{
		provenance.Engine, s.Exercise.Sonar.Step.Metres(), s.Exercise.Name, hash, seed, provenance.Licence, caution, w.sink.Files(),
	})
}

// Free returns the name with that ending, or if it was written to the sink already, in
// large or small letters, the first one numbered by run that was not.
func Free(to Sink, stem, ending string) string {
	taken := map[string]bool{}
	for _, e := range to.Files() {
		taken[strings.ToLower(e.Name)] = true
	}
	name := stem
	for run := 2; taken[strings.ToLower(name+ending)]; run++ {
		name = stem + "-run" + strconv.Itoa(run)
	}
	return name + ending
}
