package trial

import (
	"math"
	"slices"

	"dryline/sim/provenance"
)

// Result holds what a trial comes to. Shares are 0 to 1.
type Result struct {
	Engine   int      `json:"dryline_engine"`
	Licence  string   `json:"license"`
	Caution  string   `json:"caution"`
	Seed     uint64   `json:"seed"`
	Runs     int      `json:"runs"`
	Partial  bool     `json:"partial"`
	Area     float64  `json:"area_km2"`
	Plans    []Judged `json:"plans"`
	Pairs    []Pair   `json:"pairs"`
	Ranking  []string `json:"ranking"`
	SureOf   string   `json:"ranking_says"`
	Targets  int      `json:"targets_a_run"`
	Observer string   `json:"observer_model"`
}

// Caution stands on everything a trial hands over.
const Caution = "Planning aid with synthetic data, not validated at sea. Never evidence that an area is clear: a share found is no promise of the rest."

// Judged is one plan.
type Judged struct {
	Name     string     `json:"name"`
	Hash     string     `json:"exercise_sha256"`
	Runs     int        `json:"runs"`
	Time     Mean       `json:"time_s"`
	Distance Mean       `json:"distance_m"`
	Coverage Coverage   `json:"coverage"`
	Ground   Interval   `json:"grounding"` // runs in which the fish touched something, exact interval
	Whole    Interval   `json:"finished"`  // runs that came to the end of the plan
	InBand   Mean       `json:"height_in_band"`
	PerMetre Mean       `json:"pings_per_metre"`
	Position Mean       `json:"position_error_m"` // 95th percentile of a run
	All      Interval   `json:"detected"`         // of all targets
	Detected []Detected `json:"detection"`
	Bare     *Bare      `json:"bare_ground"`
	Reckoned *Reckoning `json:"reckoning,omitempty"`
	Windows  *Windows   `json:"fit_windows,omitempty"`
}

// Coverage is the share of the area that was looked at in a way that counts.
type Coverage struct {
	Once      float64 `json:"once"`
	OnceLow   float64 `json:"once_low"`
	OnceHigh  float64 `json:"once_high"`
	Twice     float64 `json:"twice"`
	TwiceLow  float64 `json:"twice_low"`
	TwiceHigh float64 `json:"twice_high"`
}

// Detected is how a kind and size of target was found.
type Detected struct {
	Kind string  `json:"kind"`
	Size float64 `json:"size_m"`
	N    int     `json:"n"`
	Interval
	Observer  Mean         `json:"observer"` // the model of a careful observer
	Looks     Mean         `json:"looks"`    // a target
	Pings     float64      `json:"pings_on_target"`
	Sweep     float64      `json:"sweep_width_m"`
	LookCount int          `json:"look_count"` // that the sweep width rests on
	Cookie    float64      `json:"cookie_cutter"`
	Random    float64      `json:"random_search"`
	Lateral   []LateralBin `json:"lateral_range"`
	Aspects   []LateralBin `json:"aspect"` // by the bearing of its long axis off the track, degrees
}

// LateralBin is the share of looks that found it in a stretch of lateral range.
type LateralBin struct {
	From  float64 `json:"from"`
	To    float64 `json:"to"`
	Looks int     `json:"looks"`
	Interval
}

// Pair is how two plans differ, a less b, on the same runs.
type Pair struct {
	A         string `json:"a"`
	B         string `json:"b"`
	Detection Mean   `json:"detection_difference"`
	Time      Mean   `json:"time_difference_s"`
}

// Judge draws up a result from outcomes. It hangs on nothing else. A trial that was stopped
// may have runs that not all plans were flown in: they are left out, or the plans would be
// judged on different draws.
func (t *Trial) Judge(all []Outcome, bare []*Bare, asked int) (*Result, error) {
	all = t.common(all)
	r := &Result{
		Engine: provenance.Engine, Licence: provenance.Licence, Caution: Caution, Seed: t.Seed, Targets: total(t.Spec.Targets),
		Observer: "seen if the detector raises it and if it covers enough pixels: P = r^E/(1+r^E), E = 2.7 + 0.7 r, r = the fewer of pings and samples over 2",
	}
	c := newCover(t.Area())
	area := float64(max(c.insideOnes, 1)) * coverCell * coverCell / 1e6
	r.Area = math.Round(area*1e3) / 1e3
	runs := len(all) / len(t.Plans)
	if runs < 2 {
		return nil, ErrFew
	}
	r.Runs, r.Partial = runs, runs < asked
	for plan := range t.Plans {
		r.Plans = append(r.Plans, t.judge(all, bare, plan, area))
	}
	for a := range t.Plans {
		for b := a + 1; b < len(t.Plans); b++ {
			r.Pairs = append(r.Pairs, t.pair(all, bare, a, b))
		}
	}
	r.rank()
	return r, nil
}

// common are the outcomes of the runs that every plan was flown in, sorted.
func (t *Trial) common(all []Outcome) (out []Outcome) {
	flown := map[int]int{}
	for i := range all {
		flown[all[i].Run]++
	}
	for i := range all {
		if flown[all[i].Run] == len(t.Plans) {
			out = append(out, all[i])
		}
	}
	sortOutcomes(out)
	return out
}

// of are the outcomes of a plan.
func of(all []Outcome, plan int) (out []*Outcome) {
	for i := range all {
		if all[i].Plan == plan {
			out = append(out, &all[i])
		}
	}
	return out
}

func values(list []*Outcome, f func(*Outcome) float64) []float64 {
	out := make([]float64, len(list))
	for i, o := range list {
		out[i] = f(o)
	}
	return out
}

func count(list []*Outcome, f func(*Outcome) bool) (n int) {
	for _, o := range list {
		if f(o) {
			n++
		}
	}
	return n
}

func (t *Trial) judge(all []Outcome, bare []*Bare, plan int, area float64) Judged {
	mine := of(all, plan)
	p := &t.Plans[plan]
	once := MeanOf(values(mine, func(o *Outcome) float64 { return o.Once }))
	twice := MeanOf(values(mine, func(o *Outcome) float64 { return o.Twice }))
	j := Judged{
		Name: p.Name, Hash: p.Hash, Runs: len(mine), Bare: bare[plan],
		Time:     rounded(MeanOf(values(mine, func(o *Outcome) float64 { return o.Time })), 1),
		Distance: rounded(MeanOf(values(mine, func(o *Outcome) float64 { return o.Distance })), 0),
		Coverage: Coverage{once.Mean, max(once.Low, 0), min(once.High, 1), twice.Mean, max(twice.Low, 0), min(twice.High, 1)},
		Ground:   ClopperPearson(count(mine, func(o *Outcome) bool { return o.Touched }), len(mine)),
		Whole:    ClopperPearson(count(mine, func(o *Outcome) bool { return o.Whole }), len(mine)),
		InBand:   MeanOf(values(mine, func(o *Outcome) float64 { return o.InBand })),
		PerMetre: rounded(MeanOf(values(mine, func(o *Outcome) float64 { return o.PerMetre })), 2),
		Position: rounded(MeanOf(values(mine, func(o *Outcome) float64 { return o.Off })), 2),
	}
	j.All = Clustered(t.found(all, bare, plan, -1))
	for i := range t.Spec.Targets {
		j.Detected = append(j.Detected, t.detected(all, bare, plan, i, area))
	}
	j.Reckoned = t.reckon(&j, mine, area)
	if t.Spec.Fit != nil {
		j.Windows = t.Spec.Fit.windows(j.Reckoned.Hours)
	}
	return j
}

func rounded(m Mean, digits int) Mean {
	k := math.Pow(10, float64(digits))
	return Mean{math.Round(k*m.Mean) / k, math.Round(k*m.Low) / k, math.Round(k*m.High) / k}
}

func (t *Trial) pair(all []Outcome, bare []*Bare, a, b int) Pair {
	fa, na := t.found(all, bare, a, -1)
	fb, nb := t.found(all, bare, b, -1)
	share := func(f, n []float64) []float64 {
		out := make([]float64, len(f))
		for i := range f {
			if n[i] > 0 {
				out[i] = f[i] / n[i]
			}
		}
		return out
	}
	clock := func(o *Outcome) float64 { return o.Time }
	return Pair{
		A: t.Plans[a].Name, B: t.Plans[b].Name,
		Detection: Paired(share(fa, na), share(fb, nb)),
		Time:      rounded(Paired(values(of(all, a), clock), values(of(all, b), clock)), 1),
	}
}

// rank orders the plans by what they detected, and says how sure that is.
func (r *Result) rank() {
	order := make([]int, len(r.Plans))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		pa, pb := &r.Plans[a], &r.Plans[b]
		switch {
		case pa.All.P > pb.All.P:
			return -1
		case pa.All.P < pb.All.P:
			return 1
		case pa.Time.Mean < pb.Time.Mean:
			return -1
		case pa.Time.Mean > pb.Time.Mean:
			return 1
		}
		return 0
	})
	for _, i := range order {
		r.Ranking = append(r.Ranking, r.Plans[i].Name)
	}
	if len(order) > 1 {
		r.SureOf = r.sure(r.Ranking[0], r.Ranking[1])
	}
}

// Between is how a differs from b.
func (r *Result) Between(a, b string) (Pair, bool) {
	for _, p := range r.Pairs {
		if p.A == a && p.B == b {
			return p, true
		}
		if p.A == b && p.B == a {
			return Pair{a, b, turned(p.Detection), turned(p.Time)}, true
		}
	}
	return Pair{}, false
}

func turned(m Mean) Mean { return Mean{-m.Mean, -m.High, -m.Low} }

// Plan is a plan of the result by its name, nil if there is none.
func (r *Result) Plan(name string) *Judged {
	for i := range r.Plans {
		if r.Plans[i].Name == name {
			return &r.Plans[i]
		}
	}
	return nil
}
