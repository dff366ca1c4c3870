package survey

// Worked is the survey as it was worked up again.
type Worked struct {
	Review  Review        // by which
	Stretch float64       // of slant ranges; see [Desk.Stretch]
	Lines   []*LineRecord // those of the watch, placed anew, run by run
}

// TakeUp has the survey stand as it was worked up again: from now on contacts lie, and
// are marked, where the record is placed now. The lines of the watch stay in
// [Desk.Lines] as they were.
func (d *Desk) TakeUp(w *Worked) {
	before := d.Worked
	move := func(c *Contact) { d.move(c, before, w) }
	for i := range d.Contacts {
		move(&d.Contacts[i])
	}
	for _, list := range [2][]change{d.changes, d.undone} {
		for i := range list {
			move(&list[i].before)
			move(&list[i].after)
		}
	}
	d.Worked = w
}

// move puts a contact where the marks of its passes lie now: it goes as far as they
// do on the average. One that was picked on no record goes with the line that shows it
// nearest abeam.
func (d *Desk) move(c *Contact, from, to *Worked) {
	if c.Number == 0 {
		return
	}
	hand := false
	for _, p := range c.Passes {
		hand = hand || p.ByHand
	}
	east, north, n := 0.0, 0.0, 0.0
	shift := func(m Mark, run int) {
		x0, y0, ok := d.markOn(from, m, run)
		x1, y1, still := d.markOn(to, m, run)
		if ok && still {
			east, north, n = east+x1-x0, north+y1-y0, n+1
		}
	}
	for _, p := range c.Passes {
		if p.ByHand == hand {
			shift(p.Mark, p.Run)
		}
	}
	if n == 0 {
		for _, s := range d.Sightings(c.X, c.Y) {
			m := s.Line.Pings[s.Index].markAt(c.X, c.Y)
			m.Slant /= from.stretch()
			shift(m, d.runOf(s.Line))
			break
		}
	}
	if n > 0 {
		c.X, c.Y = c.X+east/n, c.Y+north/n
	}
}

// markOn is where a mark of a run lies on the ground as the survey is worked up, nil
// being as in the watch.
func (d *Desk) markOn(w *Worked, m Mark, run int) (x, y float64, ok bool) {
	l := d.run(w, run)
	if l == nil {
		return 0, 0, false
	}
	p := l.ping(m.Ping)
	if p == nil || p.Height <= 0 {
		return 0, 0, false
	}
	m.Slant *= w.stretch()
	x, y, _ = m.Ground(p)
	return x, y, true
}

func (w *Worked) stretch() float64 {
	if w == nil {
		return 1
	}
	return w.Stretch
}

// run is a run of a line, as worked up if it was; nil if there is none of that number.
func (d *Desk) run(w *Worked, run int) *LineRecord {
	switch {
	case run < 1:
		return nil
	case w != nil && run <= len(w.Lines):
		return w.Lines[run-1]
	case run <= len(d.Lines):
		return d.Lines[run-1]
	case run == len(d.Lines)+1:
		return d.line
	}
	return nil
}

// ping is the ping of a number, nil if the line has none.
func (l *LineRecord) ping(number uint64) *PingRecord {
	from, to := 0, len(l.Pings)
	for from < to {
		if at := (from + to) / 2; l.Pings[at].Number < number {
			from = at + 1
		} else {
			to = at
		}
	}
	if from < len(l.Pings) && l.Pings[from].Number == number {
		return &l.Pings[from]
	}
	return nil
}

// LatestLines are the finished lines as they stand: worked up again as far as they were.
func (d *Desk) LatestLines() []*LineRecord {
	var lines []*LineRecord
	for run := range d.Lines {
		lines = append(lines, d.run(d.Worked, run+1))
	}
	return lines
}
