package crew

import (
	"io"

	"dryline/seabed"
	"dryline/sim/debrief"
)

// Report is the debrief of the session as it stands. It tells the truth: nobody on
// watch gets it.
func (c *Crew) Report() debrief.Report {
	c.mu.Lock()
	defer c.mu.Unlock()
	return debrief.Make(c.session, c.witness)
}

// Pipelines are those that truly lie there, by name.
func (c *Crew) Pipelines() map[string][]seabed.Point {
	out := map[string][]seabed.Point{}
	for _, p := range c.session.Exercise.Seabed.Pipelines {
		out[p.Name] = p.Path
	}
	return out
}

// Evidence are pictures of every object on the record, with the plan of what lies there
// and the mark. It takes a second or more.
func (c *Crew) Evidence(r *debrief.Report) ([]debrief.Picture, error) {
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.page.Evidence(r)
}

// WritePage writes the debrief's page.
func (c *Crew) WritePage(w io.Writer) error {
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.page.Write(w)
}
