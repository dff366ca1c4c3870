package product

import (
	"fmt"
	"strconv"

	"dryline/sim"
	"dryline/sim/provenance"
)

// software names us in the files' tags.
const software = "Dryline survey simulator"

// caution goes with everything handed over.
const caution = "synthetic training data, not for navigation"

// ReportCaution is the caution as reports begin with it.
const ReportCaution = "Synthetic training data, not for navigation"

// fact is one line of where a file comes from.
type fact struct{ name, value string }

// provenance says what a product was made from, the same in every file of a
// folder: with these anyone can make it again.
func (w *Writer) provenance() []fact {
	s := w.session
	facts := []fact{
		{"dryline_engine", strconv.Itoa(provenance.Engine)},
		{"ground_step_m", strconv.FormatFloat(s.Exercise.Sonar.Step.Metres(), 'g', -1, 64)},
		{"exercise", s.Exercise.Name},
	}
	if w.Apart == nil {
		facts = append(facts, fact{"exercise_sha256", s.Exercise.Hash}, fact{"seed", strconv.FormatUint(s.Seeds.One, 10)})
	}
	return append(facts, fact{"license", provenance.Licence})
}

// origin is the provenance in a sentence.
func (w *Writer) origin() string {
	s := w.session
	if w.Apart != nil {
		return fmt.Sprintf("exercise %s, under assessment, engine %d, floor read every %s", s.Exercise.Name, provenance.Engine, s.Exercise.Sonar.Step)
	}
	return fmt.Sprintf("exercise %s, sha256 %s, seed %d, engine %d, floor read every %s", s.Exercise.Name, s.Exercise.Hash, s.Seeds.One, provenance.Engine, s.Exercise.Sonar.Step)
}

// foreign is the provenance as members of a JSON object.
func (w *Writer) foreign() map[string]any {
	s := w.session
	said := map[string]any{
		"dryline_engine": provenance.Engine, "ground_step_m": s.Exercise.Sonar.Step.Metres(), "exercise": s.Exercise.Name,
		"license": provenance.Licence, "caution": caution,
		"grid_epsg": s.Exercise.Place.Grid.EPSG(),
	}
	if w.Apart == nil {
		said["exercise_sha256"], said["seed"] = s.Exercise.Hash, s.Seeds.One
	}
	return said
}

// Provenance returns what a picture of a session says of where it comes from.
func Provenance(s *sim.Session) []Text { return (&Writer{session: s}).pngTexts() }

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
