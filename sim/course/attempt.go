package course

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"slices"
	"time"

	"dryline/sim/debrief"
	"dryline/sim/order"
)

// Of is the attempt that a debrief tells of.
func Of(r *debrief.Report) Attempt {
	a := Attempt{
		Exercise: r.Exercise.Name, Seed: r.Exercise.Seed, Points: r.Score.Points, Low: r.Score.Low, High: r.Score.High,
		Assessed: r.Assessed,
		Verdict:  r.Score.Verdict, Gates: []string{}, Causes: []string{},
	}
	if r.Started != nil {
		a.When = r.Started.UTC()
	}
	for _, g := range r.Score.Gates {
		if !g.Met {
			a.Gates = append(a.Gates, g.ID)
		}
	}
	for _, it := range r.Score.Items {
		for _, c := range it.Causes {
			if !slices.Contains(a.Causes, c.Kind) {
				a.Causes = append(a.Causes, c.Kind)
			}
		}
	}
	text, err := json.Marshal(struct {
		Trainee, Exercise, Hash string
		Seed                    uint64
		When                    time.Time
		Simulated               float64
		Commands                int
		Lines                   []debrief.Line
	}{r.Trainee, r.Exercise.Name, r.Exercise.Hash, r.Exercise.Seed, a.When, r.Simulated, r.Commands, r.Lines})
	if err == nil {
		sum := sha256.Sum256(text)
		a.Session = hex.EncodeToString(sum[:8])
	}
	return a
}

// Read takes an attempt from the text of a debrief.json, and whose it is.
func Read(text []byte) (trainee string, a Attempt, err error) {
	var r debrief.Report
	if err := json.Unmarshal(text, &r); err != nil {
		return "", Attempt{}, fmt.Errorf("it is no debrief: %w", order.JSONFault(err))
	}
	if r.Exercise.Name == "" || r.Score.Rubric == 0 {
		return "", Attempt{}, fmt.Errorf("it is no debrief of this rubric or a later one")
	}
	a = Of(&r)
	told := slices.Concat([]string{r.Trainee, a.Exercise, string(a.Verdict)}, a.Gates, a.Causes)
	for _, text := range told { // to people, on a line
		if err := order.CheckTrainee(text); err != nil {
			return "", Attempt{}, err
		}
	}
	return r.Trainee, a, nil
}
