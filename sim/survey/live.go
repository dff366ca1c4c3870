package survey

import "dryline/sonar/waterfall"

// LivePing is a ping as it comes in, for a screen. It is good until the watcher
// returns: who wants to keep its rows copies them.
type LivePing struct {
	Number     uint64
	Fix        Fix
	Height     float64 // of the fish by the bottom track, metres; 0 before the first bottom
	Locked     bool    // the bottom track found the bottom in this ping
	Lost       bool    // nothing was recorded
	Line       string  // being logged, empty if none
	RangeScale float64 // metres
	Rows       []Row   // per channel, as in a [LineRecord]; empty when lost or before the first bottom
}

// GroundAt is the point on the ground that a slant range of the ping is taken
// for; see [GroundAt].
func (p *LivePing) GroundAt(starboard bool, slant float64) (x, y float64, ok bool) {
	return GroundAt(p.Fix, p.Height, starboard, slant)
}

// live is what showing pings takes: levellers of its own, so that showing them
// changes no product.
type live struct {
	levellers []*waterfall.Leveller
	rows      []Row
	empty     []Row
	levelled  [2][]float32
}

// show tells the watcher of a ping. recorded says that the desk's own rows of
// the ping are at the end of the open line's record.
func (d *Desk) show(p Ping, height float64, locked, lost, recorded bool) {
	v := &d.live
	r := d.Recorder
	if v.levellers == nil {
		for range r.Channels {
			v.levellers = append(v.levellers, waterfall.NewLeveller(r.Nominal))
			v.rows = append(v.rows, Row{make([]uint8, RowBins), make([]uint8, RowBins)})
		}
		v.empty = make([]Row, len(r.Channels))
		v.levelled[0], v.levelled[1] = make([]float32, r.Samples), make([]float32, r.Samples)
	}
	out := LivePing{
		Number: p.Number, Fix: p.Fix, Height: height, Locked: locked, Lost: lost, RangeScale: r.RangeScale, Rows: v.empty,
	}
	if d.line != nil {
		out.Line = d.line.Name
	}
	if !lost && height > 0 {
		out.Rows = v.rows
		n := min(RowBins, r.Samples)
		for c, l := range v.levellers {
			row := &v.rows[c]
			row.Port, row.Starboard = row.Port[:n], row.Starboard[:n]
			if recorded {
				rows := d.line.Rows[c]
				copy(row.Port, rows[len(rows)-1].Port)
				copy(row.Starboard, rows[len(rows)-1].Starboard)
				continue
			}
			l.Follow(d.levellers[c])
			l.Level(v.levelled[0], p.Port[c], r.Bin(), d.steady)
			l.Level(v.levelled[1], p.Starboard[c], r.Bin(), d.steady)
			shrink(row.Port, v.levelled[0])
			shrink(row.Starboard, v.levelled[1])
		}
	}
	d.Watch(out)
}
