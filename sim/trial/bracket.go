package trial

import "math"

// lateralBins is how many stretches a lateral range curve has out to the range scale.
const lateralBins = 10

// detected is how one entry of the spec was found by a plan, between two brackets: a
// cookie cutter of the same sweep width laid with exact lines, above, and random search by
// as much of it, 1 - exp(-C) (Koopman, Search and Screening), below. The sweep width is the
// integral of the lateral range curve of the same detector on the same looks; with fewer
// than five hundred it is a rough one. C is what the lines sweep of the area, over the
// area: sweep width times length, less what of it lies outside ([Trial.swept]).
func (t *Trial) detected(all []Outcome, bare []*Bare, plan, target int, area float64) Detected {
	what := &t.Spec.Targets[target]
	threshold := bare[plan].Threshold
	found, n := t.found(all, bare, plan, target)
	d := Detected{Kind: what.Kind, Size: what.Length, Interval: Clustered(found, n)}
	scale := t.Plans[plan].Exercise.Sonar.RangeScale
	hits, looks := make([]float64, lateralBins), make([]float64, lateralBins)
	var turnHits, turns [3]float64
	var observed, looked []float64
	pings := 0.0
	for _, o := range of(all, plan) {
		seen, many, entries := 0.0, 0.0, 0.0
		for i := range o.Seen {
			s := &o.Seen[i]
			if s.Target != target {
				continue
			}
			d.N++
			entries++
			seen += s.observed(threshold)
			many += float64(len(s.Looks))
			for k := range s.Looks {
				l := &s.Looks[k]
				d.LookCount++
				pings += float64(l.Pings)
				bin := min(int(math.Abs(l.Lateral)/scale*lateralBins), lateralBins-1)
				turn := min(int(l.Aspect/30), 2)
				looks[bin]++
				turns[turn]++
				if l.Score > threshold {
					hits[bin]++
					turnHits[turn]++
				}
			}
		}
		if entries > 0 {
			observed, looked = append(observed, seen/entries), append(looked, many/entries)
		}
	}
	d.Observer, d.Looks = MeanOf(observed), MeanOf(looked)
	d.Observer.Low, d.Observer.High = max(d.Observer.Low, 0), min(d.Observer.High, 1)
	d.Pings = tenth(pings / math.Max(float64(d.LookCount), 1))
	for i := range looks {
		b := LateralBin{From: scale * float64(i) / lateralBins, To: scale * float64(i+1) / lateralBins, Looks: int(looks[i])}
		if looks[i] > 0 {
			b.Interval = Wilson(hits[i], looks[i])
			d.Sweep += 2 * (b.To - b.From) * b.P
		} else {
			b.Interval = Interval{0, 0, 1}
		}
		d.Lateral = append(d.Lateral, b)
	}
	for i := range turns {
		b := LateralBin{From: 30 * float64(i), To: 30 * float64(i+1), Looks: int(turns[i]), Interval: Interval{0, 0, 1}}
		if turns[i] > 0 {
			b.Interval = Wilson(turnHits[i], turns[i])
		}
		d.Aspects = append(d.Aspects, b)
	}
	d.Sweep = tenth(d.Sweep)
	c := t.swept(plan, d.Lateral) / (area * 1e6)
	d.Cookie, d.Random = CookieCutter(c), RandomSearch(c)
	return d
}

// CookieCutter is the detection of exact lines with a definite range, of a coverage C.
func CookieCutter(c float64) float64 { return min(c, 1) }

// RandomSearch is that of as much effort laid at random (Koopman).
func RandomSearch(c float64) float64 { return 1 - math.Exp(-c) }

// swept is how much of the area the planned lines sweep, as often as they are run, square
// metres: the lateral range curve laid along them, where it lies within the area. Ground
// beyond the limits is no gain, and an edge line that runs outside of them looks in.
func (t *Trial) swept(plan int, lateral []LateralBin) float64 {
	ex, area := t.Plans[plan].Exercise, t.areaFor(plan)
	x0, y0, x1, y1 := box(area)
	step := min(max(math.Sqrt((x1-x0)*(y1-y0))/50, 0.25), 4) // metres
	sum := 0.0
	all := ex.All()
	for _, run := range ex.Plan.Order {
		l := all[run.Line]
		dx, dy := l.B.X-l.A.X, l.B.Y-l.A.Y
		long := math.Hypot(dx, dy)
		steps := max(int(long/step), 1)
		for k := range steps {
			f := (float64(k) + 0.5) / float64(steps)
			x, y := l.A.X+f*dx, l.A.Y+f*dy
			for _, b := range lateral {
				if b.P == 0 {
					continue
				}
				parts := max(int((b.To-b.From)/step), 1)
				cell := (b.To - b.From) / float64(parts)
				for i := range parts {
					off := (b.From + (float64(i)+0.5)*cell) / math.Max(long, 1e-9)
					for _, side := range [2]float64{-off, off} {
						if within(area, x+side*dy, y-side*dx) {
							sum += b.P * cell * long / float64(steps)
						}
					}
				}
			}
		}
	}
	return sum
}
