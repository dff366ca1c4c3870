package survey

import "dryline/sonar/recorder"

// LivePing is a ping as it comes in, for a screen. It is good until the watcher
// returns: whoever wants to keep its rows copies them.
type LivePing struct {
	Number     uint64
	Fix        Fix
	Height     float64 // of the fish by the bottom track, metres; 0 before the first bottom
	Locked     bool    // the bottom track found the bottom in this ping
	Lost       bool    // nothing was recorded
	Line       string  // being logged, empty if none
	RangeScale float64 // metres
	Rows       []Row   // per channel, as in a [LineRecord]; empty when lost or before the first bottom

	Plain  []Row         // the same as it was recorded: not levelled, by the recorder's gain alone; see [CutOff]
	Levels []RecordLevel // per channel, of the last seconds
}

// RecordLevel is how a channel fills the recorder beyond the bottom.
type RecordLevel struct {
	Mean    float64 // of the samples, share of full scale
	Clipped float64 // share of the samples at full scale: what is brighter was cut off
}

// GroundAt is the point on the ground that a slant range of the ping is taken
// for; see [GroundAt].
func (p *LivePing) GroundAt(starboard bool, slant float64) (x, y float64, ok bool) {
	return GroundAt(p.Fix, p.Height, starboard, slant)
}

// live holds what showing pings takes.
type live struct {
	rows     []Row
	plain    []Row
	empty    []Row
	levelled [2][]float32
	levels   []RecordLevel
	pings    float64 // in the levels
}

// levelPings is how many pings the levels are the mean of, about.
const levelPings = 60

// weigh takes a side of a ping into the level of its channel.
func (l *RecordLevel) weigh(samples []uint16, share float64) {
	if len(samples) == 0 {
		return
	}
	sum, full := tally(samples)
	n := float64(len(samples))
	l.Mean += share * (float64(sum)/n/recorder.FullScale - l.Mean)
	l.Clipped += share * (float64(full)/n - l.Clipped)
}

// tally is the sum of samples and how many are at full scale, four at a time in one word.
func tally(samples []uint16) (sum uint64, full int) {
	const odd, ones, tops = 0x0000ffff_0000ffff, 0x0001_0001_0001_0001, 0x8000_8000_8000_8000
	const most = 1 << 15 // words whose halves have room for their sums
	for len(samples) >= 4 {
		halves := uint64(0) // two sums
		for range most {
			if len(samples) < 4 {
				break
			}
			four := samples[:4:4]
			samples = samples[4:]
			word := uint64(four[0]) | uint64(four[1])<<16 | uint64(four[2])<<32 | uint64(four[3])<<48
			halves += word&odd + word>>16&odd
			if rest := ^word; (rest-ones)&word&tops != 0 { // one of them is 0: here a sample at full scale
				full += atFullScale(four)
			}
		}
		sum += halves&(1<<32-1) + halves>>32
	}
	for _, v := range samples {
		sum += uint64(v)
	}
	return sum, full + atFullScale(samples)
}

func atFullScale(samples []uint16) (n int) {
	for _, v := range samples {
		if v == recorder.FullScale {
			n++
		}
	}
	return n
}

// CutOff is the grey of a bin of which a sample was at full scale: how bright it was nobody knows. Nothing else
// of a row as it was recorded is as bright or nearly, so that it can be kept in fewer steps.
const CutOff, brightestHeard = 255, 247

// plainly fills a row with samples as they were recorded: an ordinary echo well
// on the bright side, so that the far ground, some tenths of it, can be seen. What is cut
// off is told from a sample on, the first beyond the bottom: what is sent always is.
func plainly(dst []uint8, scratch []float32, samples []uint16, nominal float64, first int) {
	scratch = scratch[:len(samples)]
	f := float32(4 / nominal)
	for k, v := range samples {
		scratch[k] = f * float32(v)
	}
	shrink(dst, scratch)
	for i := range dst {
		dst[i] = min(dst[i], brightestHeard)
		to := (i + 1) * len(samples) / len(dst)
		for _, v := range samples[min(max(i*len(samples)/len(dst), first), to):to] {
			if v == recorder.FullScale {
				dst[i] = CutOff
				break
			}
		}
	}
}

// PictureRows makes rows of grey values, as in a [LineRecord], of a side that was levelled and of
// its samples as they were recorded, the bottom at a slant range in samples. scratch is as long as the
// samples.
func PictureRows(levelled, plain []uint8, row, scratch []float32, samples []uint16, nominal, bottom float64) {
	shrink(levelled, row)
	plainly(plain, scratch, samples, nominal, int(bottom)+1)
}

// show tells the watcher of a ping. recorded says that the desk's own rows of
// the ping are at the end of the open line's record.
func (d *Desk) show(p Ping, height float64, locked, lost, recorded bool) {
	v := &d.live
	r := d.Recorder
	if v.rows == nil {
		for range r.Channels {
			v.rows = append(v.rows, Row{make([]uint8, RowBins), make([]uint8, RowBins)})
			v.plain = append(v.plain, Row{make([]uint8, RowBins), make([]uint8, RowBins)})
		}
		v.empty, v.levels = make([]Row, len(r.Channels)), make([]RecordLevel, len(r.Channels))
		v.levelled[0], v.levelled[1] = make([]float32, r.Samples), make([]float32, r.Samples)
	}
	out := LivePing{
		Number: p.Number, Fix: p.Fix, Height: height, Locked: locked, Lost: lost, RangeScale: r.RangeScale,
		Rows: v.empty, Plain: v.empty, Levels: v.levels,
	}
	if d.line != nil {
		out.Line = d.line.Name
	}
	first := min(int(height/r.Bin())+1, r.Samples)
	if !lost && height > 0 {
		v.pings = min(v.pings+1, levelPings)
		for c := range r.Channels {
			v.levels[c].weigh(p.Port[c][first:], 1/v.pings)
			v.levels[c].weigh(p.Starboard[c][first:], 1/v.pings)
		}
	}
	for _, f := range d.listeners {
		f(out)
	}
	if len(d.watchers) == 0 {
		return
	}
	if !lost && height > 0 {
		out.Rows, out.Plain = v.rows, v.plain
		n := min(RowBins, r.Samples)
		for c, l := range d.levellers {
			row, plain := &v.rows[c], &v.plain[c]
			row.Port, row.Starboard = row.Port[:n], row.Starboard[:n]
			plain.Port, plain.Starboard = plain.Port[:n], plain.Starboard[:n]
			plainly(plain.Port, v.levelled[0], p.Port[c], r.Nominal, first)
			plainly(plain.Starboard, v.levelled[1], p.Starboard[c], r.Nominal, first)
			if recorded {
				rows := d.line.Rows[c]
				copy(row.Port, rows[len(rows)-1].Port)
				copy(row.Starboard, rows[len(rows)-1].Starboard)
				continue
			}
			l.Level(v.levelled[0], p.Port[c], 0)
			l.Level(v.levelled[1], p.Starboard[c], 1)
			shrink(row.Port, v.levelled[0])
			shrink(row.Starboard, v.levelled[1])
		}
	}
	for _, f := range d.watchers {
		f(out)
	}
}
