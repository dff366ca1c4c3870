package crew

import (
	"slices"
	"strings"

	"dryline/sim/order"
	"dryline/sim/survey"
	"dryline/sonar/mosaic"
)

// show makes a new view of the session.
func (c *Crew) show() {
	s := c.session
	c.note()
	asked, reached := c.clock.paces()
	v := &View{
		Now: s.Now(), Tick: s.Ticks(), Reading: s.Reading(), Fix: s.Passage.Fix(),
		Settings: s.Desk.Settings, Recorder: s.Desk.Recorder, Bridge: s.Bridge(),
		Contacts: slices.Clone(s.Desk.Contacts), CanUndo: s.Desk.CanUndo(), CanRedo: s.Desk.CanRedo(), Track: s.Desk.Track[:len(s.Desk.Track):len(s.Desk.Track)],
		Levels: slices.Clone(c.levels), Height: c.height, Asked: asked, Reached: reached, Done: s.Done(), Ended: s.Ended(),
		Complaint: c.complaint, Complaints: c.complaints, Carried: len(s.Commands), Pending: slices.Clone(c.orders), CutShort: c.cutShort,
	}
	v.Crests = make([]float64, crestsCount)
	s.Passage.Crests(v.Crests, CrestsAhead, CrestsStep)
	v.Restored = 1
	if c.behind() {
		// Not all the way while orders are left that were given at the last tick.
		v.Restored = min(float64(s.Ticks())/float64(max(c.until, 1)), 0.999)
	}
	for _, l := range s.Desk.Lines {
		v.Lines = append(v.Lines, l.Name)
	}
	v.Own, v.Added, v.Order = s.Brief.Own, slices.Clip(s.Brief.Added), s.Brief.Plan.Order
	v.Shares, v.Unseen = c.shares(), c.unseen.look(c)
	if s.Brief.Help.TrueScene {
		scene := s.Scene()
		v.Scene = &scene
	}
	v.Stands = s.Judgement()
	if s.Brief.Help.Coach && !s.Done() {
		v.Hints = s.Hints()
	}
	c.out.Lock()
	c.view = v
	c.out.Unlock()
}

// shares are those of the lines logged, worked out afresh as a line is closed
// and every second.
func (c *Crew) shares() map[string]float64 {
	s := c.session
	records := s.Desk.Lines
	if open := s.Desk.OpenLine(); open != nil {
		records = append(slices.Clip(records), open)
	}
	at := s.Ticks() / 10
	if c.shared != nil && at == c.sharedAt && len(records)+len(s.Brief.Added) == c.sharedOf {
		return c.shared
	}
	c.sharedAt, c.sharedOf = at, len(records)+len(s.Brief.Added)
	c.shared = map[string]float64{}
	for _, l := range s.Brief.All() {
		c.shared[l.Name] = survey.Share(records, l.Name, l.Track(false))
	}
	return c.shared
}

func (c *Crew) keep(t *mosaic.Tile) {
	g := grey(t)
	c.out.Lock()
	c.tiles[[2]int{t.I, t.J}] = g
	c.out.Unlock()
}

// plain is why an order was refused, without the names of the room it comes from
// and of the order.
func plain(err error, do order.Do) string {
	says := strings.TrimPrefix(err.Error(), "sim: ")
	for range 2 { // it may be named where it was given and where it was checked
		says = strings.TrimPrefix(says, string(do)+": ")
	}
	return says
}
