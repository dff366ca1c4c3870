package main

import (
	"io"
	"time"

	"dryline/sim"
	"dryline/sim/debrief"
	"dryline/sim/order"
	"dryline/sim/product/folder"
	"dryline/sim/provenance"
)

// summary is the machine-readable account of a flight.
type summary struct {
	Exercise   string   `json:"exercise"`
	Seed       uint64   `json:"seed"`
	Engine     int      `json:"dryline_engine"`
	Folder     string   `json:"folder"`
	Files      []string `json:"files"`
	Partial    bool     `json:"partial"`
	Ended      string   `json:"ended"`
	SimulatedS float64  `json:"simulated_s"`
	WallS      float64  `json:"wall_s"`
	Lines      int      `json:"lines_logged"`
	Pings      int      `json:"pings_logged"`
	Contacts   int      `json:"contacts"`
	Coverage   float64  `json:"coverage_percent"` // of the mosaic
	Counted    float64  `json:"counted_percent"`  // looked at in a way that counts
	Targets    int      `json:"targets"`
	Found      int      `json:"targets_found"` // reported
	Score      float64  `json:"score"`
	Passed     bool     `json:"passed"`
	Verdict    string   `json:"verdict"`
}

func summarise(w io.Writer, s *sim.Session, path string, files []folder.Entry, r debrief.Report, flown time.Duration) error {
	names := make([]string, len(files))
	for i, f := range files {
		names[i] = f.Name
	}
	return printJSON(w, summary{
		Exercise: s.Exercise.Name, Seed: s.Seeds.One, Engine: provenance.Engine, Folder: path, Files: names,
		Partial: s.Ended() != order.ReasonFinished, Ended: s.Ended(),
		SimulatedS: s.Now(), WallS: flown.Seconds(),
		Lines: len(s.Desk.Lines), Pings: pings(s), Contacts: len(s.Desk.Contacts),
		Coverage: r.Coverage.Once, Counted: r.Coverage.Counted, Targets: len(r.Targets), Found: r.Contacts.True, Score: r.Score.Points, Passed: r.Score.Passed, Verdict: r.Score.Verdict,
	})
}

// pings counts those that were logged.
func pings(s *sim.Session) int {
	n := 0
	for _, l := range s.Desk.Lines {
		n += len(l.Pings)
	}
	return n
}
