package product

import (
	"fmt"
	"strconv"

	"dryline/sim/provenance"
)

// software names us in the files' tags.
const software = "Dryline survey simulator"

// caution goes with everything handed over.
const caution = "synthetic training data, not for navigation"

// fact is one line of where a file comes from.
type fact struct{ name, value string }

// provenance says what a product was made from, the same in every file of a
// folder: with these anyone can make it again.
func (w *Writer) provenance() []fact {
	s := w.session
	return []fact{
		{"dryline_engine", strconv.Itoa(provenance.Engine)},
		{"exercise", s.Exercise.Name},
		{"exercise_sha256", s.Exercise.Hash},
		{"seed", strconv.FormatUint(s.Seeds.One, 10)},
		{"license", provenance.Licence},
	}
}

// origin is the provenance in a sentence.
func (w *Writer) origin() string {
	s := w.session
	return fmt.Sprintf("exercise %s, sha256 %s, seed %d, engine %d", s.Exercise.Name, s.Exercise.Hash, s.Seeds.One, provenance.Engine)
}

// foreign is the provenance as members of a JSON object.
func (w *Writer) foreign() map[string]any {
	s := w.session
	return map[string]any{
		"dryline_engine": provenance.Engine, "exercise": s.Exercise.Name, "exercise_sha256": s.Exercise.Hash,
		"seed": s.Seeds.One, "license": provenance.Licence, "caution": caution,
		"grid_epsg": s.Exercise.Place.Grid.EPSG(),
	}
}

// pngTexts is the provenance under the keywords of the PNG specification
// (W3C, third edition, 11.3.3.1).
func (w *Writer) pngTexts() []Text {
	return []Text{
		{"Software", fmt.Sprintf("%s, engine %d", software, provenance.Engine)},
		{"Source", w.origin()},
		{"Copyright", provenance.Licence},
		{"Disclaimer", caution},
	}
}
