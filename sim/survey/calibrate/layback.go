package calibrate

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
)

// What can be told apart.
const (
	// CableApart is how far apart cable lengths must be for factor and offset to come
	// apart, metres; SpeedsApart how far speeds must be for latency to, m/s. Our own
	// choice, as are the next two.
	CableApart  = 15.0
	SpeedsApart = 0.5
	// Opposite is the least turn between two passes that count as opposite, radians.
	Opposite = 150 * math.Pi / 180
	// inseparable is a correlation at which two numbers are one.
	inseparable = 0.999
)

// Estimate is a number with how sure it is.
type Estimate struct {
	Name  string
	Unit  string
	Value float64
	Sigma float64 // one standard deviation
}

// HalfWidth is half of the 95 % interval (1.96 sigma: IHO S-44 6.1.0, 2.7).
func (e *Estimate) HalfWidth() float64 { return 1.96 * e.Sigma }

// Layback holds what passes tell of the layback.
type Layback struct {
	// Total is how much further astern the fish is, in all: the error along the track
	// that opposite passes disagree by twice of.
	Total Estimate
	// Parts are factor, offset and latency, if they come apart; WhyNot says why they do
	// not.
	Parts       []Estimate
	Correlation [][]float64 // of the parts
	WhyNot      string

	ChiSquare  float64 // of what is left over, by the stated accuracy of the marks
	Freedom    int     // it has so many degrees of
	Sightings  int     // used
	Objects    int
	LeftOut    []string // sightings that were, with the reason
	Suspicious string   // why the marks look worse than stated; empty if they do not
}

// Solve fits where the objects are and what the layback is wrong by, by least squares:
//
//	placed_i = q_j + u_i delta_i + noise ,  delta_i = (o - o_i) + d_i(f) - d_i(f_i) - v_i (t - t_i)
//
// with q_j where object j lies, u_i the way of pass i, o the offset from antenna to
// sheave, f the catenary factor and t the latency of fixes; noise is that of the mark
// along and across the track, along it with what a crab may put the object off by. For the total alone delta is one number. The interval is
// that of the marks' stated accuracy; an error that is none of these is in none of it.
//
// Passes the same way tell nothing of delta: all objects shift alike. One cable length
// and one speed tell its total: f, o and t have the same effect.
func Solve(sightings []Sighting) (Layback, error) {
	var r Layback
	used := r.sound(sightings)
	if len(used) == 0 {
		return r, errors.New("no object was seen on two passes that can be used" + r.reasons())
	}
	r.Sightings = len(used)
	if !opposed(used) {
		return r, errors.New("no object was seen on passes in opposite directions: passes the same way all shift alike" + r.reasons())
	}
	m := newModel(used)
	r.Objects = len(m.objects)
	total, err := m.solve(total)
	if err != nil {
		return r, err
	}
	r.Total = Estimate{"total", "m", total.values[0], total.sigma(0)}
	r.ChiSquare, r.Freedom = total.chi, total.freedom
	if r.WhyNot = togetherness(used); r.WhyNot == "" {
		r.takeApart(m)
	}
	// Three standard deviations of a chi-square over its degrees of freedom.
	if n := float64(r.Freedom); n > 0 && r.ChiSquare > n+3*math.Sqrt(2*n) {
		r.Suspicious = fmt.Sprintf("marks disagree more than their stated accuracy allows (chi-square %.1f for %d degrees of freedom)", r.ChiSquare, r.Freedom)
	}
	return r, nil
}

// takeApart tells factor, offset and latency apart, if it can.
func (r *Layback) takeApart(m *model) {
	s, err := m.solve(parts)
	if err != nil {
		r.WhyNot = err.Error()
		return
	}
	var correlation [][]float64
	for i := range s.values {
		row := make([]float64, len(s.values))
		for j := range row {
			row[j] = s.covariance.At(i, j) / (s.sigma(i) * s.sigma(j))
			if i != j && math.Abs(row[j]) > inseparable {
				r.WhyNot = fmt.Sprintf("%s and %s go together (correlation %.4f)", partNames[i], partNames[j], row[j])
				return
			}
		}
		correlation = append(correlation, row)
	}
	for i, v := range s.values {
		r.Parts = append(r.Parts, Estimate{partNames[i], partUnits[i], v, s.sigma(i)})
	}
	r.Correlation, r.ChiSquare, r.Freedom = correlation, s.chi, s.freedom
}

var (
	partNames = []string{"factor", "offset", "latency"}
	partUnits = []string{"", "m", "s"}
)

// sound leaves out what is of no use, and then objects seen but once.
func (r *Layback) sound(sightings []Sighting) []Sighting {
	var used []Sighting
	times := map[int]int{}
	for _, s := range sightings {
		if why := s.fault(); why != "" {
			r.LeftOut = append(r.LeftOut, s.Pass+": "+why)
			continue
		}
		used = append(used, s)
		times[s.Object]++
	}
	return slices.DeleteFunc(used, func(s Sighting) bool {
		if times[s.Object] > 1 {
			return false
		}
		r.LeftOut = append(r.LeftOut, s.Pass+": seen on this pass alone")
		return true
	})
}

func (r *Layback) reasons() string {
	out := ""
	for _, why := range r.LeftOut {
		out += "; " + why
	}
	return out
}

// opposed reports whether some object was seen on passes in opposite directions.
func opposed(used []Sighting) bool {
	for i := range used {
		for j := range i {
			if used[i].Object == used[j].Object && math.Abs(math.Remainder(used[i].Course-used[j].Course, 2*math.Pi)) > Opposite {
				return true
			}
		}
	}
	return false
}

// togetherness says why factor, offset and latency cannot come apart, or nothing.
func togetherness(used []Sighting) string {
	short, long, slow, fast := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
	for i := range used {
		short, long = min(short, used[i].Cable), max(long, used[i].Cable)
		slow, fast = min(slow, used[i].Speed), max(fast, used[i].Speed)
	}
	why := ""
	if long-short < CableApart {
		why = fmt.Sprintf("cable lengths are %.1f m apart (want %g or more)", long-short, CableApart)
	}
	if fast-slow < SpeedsApart {
		if why != "" {
			why += " and "
		}
		why += fmt.Sprintf("speeds %.2f m/s (want %g or more)", fast-slow, SpeedsApart)
	}
	if why != "" {
		why = "factor, offset and latency cannot be told apart: " + why
	}
	return why
}

// kind says what is solved for beside the objects' places.
type kind int

const (
	total kind = iota
	parts
)

// model has the sightings by object.
type model struct {
	sightings []Sighting
	objects   map[int]int // to a place among the unknowns
	x0, y0    float64     // that places are counted from, so that numbers stay small
}

func newModel(used []Sighting) *model {
	m := &model{sightings: used, objects: map[int]int{}, x0: used[0].X, y0: used[0].Y}
	for i := range used {
		if _, there := m.objects[used[i].Object]; !there {
			m.objects[used[i].Object] = len(m.objects)
		}
	}
	return m
}

// solution holds the unknowns solved for, with their covariance, the objects left out.
type solution struct {
	values     []float64
	covariance *mat.SymDense
	chi        float64
	freedom    int
}

func (s *solution) sigma(i int) float64 { return math.Sqrt(s.covariance.At(i, i)) }

// solve iterates by Gauss and Newton: all but the factor is linear.
func (m *model) solve(k kind) (*solution, error) {
	first := &m.sightings[0]
	values := []float64{0}
	if k == parts {
		values = []float64{first.Factor, first.Offset, first.Latency}
	}
	n, places := len(values), make([]float64, 2*len(m.objects))
	rows, columns := 2*len(m.sightings), n+len(places)
	if rows < columns {
		return nil, fmt.Errorf("%d sightings are too few for what is to be told from them", len(m.sightings))
	}
	for range 12 {
		a, b := m.equations(k, values, places)
		var svd mat.SVD
		if !svd.Factorize(a, mat.SVDThin) {
			return nil, errors.New("the equations cannot be solved")
		}
		if sizes := svd.Values(nil); sizes[len(sizes)-1] < 1e-9*sizes[0] {
			return nil, errors.New("the passes do not tell apart what is asked of them")
		}
		var step mat.Dense
		svd.SolveTo(&step, b, columns)
		moved := 0.0
		for i := range values {
			values[i] += step.At(i, 0)
			moved = max(moved, math.Abs(step.At(i, 0)))
		}
		for i := range places {
			places[i] += step.At(n+i, 0)
		}
		if k == parts && !m.hangs(values[0]) {
			return nil, errors.New("the marks ask for a catenary factor that no cable has")
		}
		if moved < 1e-9 {
			break
		}
	}
	a, b := m.equations(k, values, places)
	s := &solution{values: values, freedom: rows - columns}
	for i := range rows {
		s.chi += b.At(i, 0) * b.At(i, 0)
	}
	var qr mat.QR
	qr.Factorize(a)
	var upper, inverse mat.Dense
	qr.RTo(&upper)
	if err := inverse.Inverse(upper.Slice(0, columns, 0, columns)); err != nil {
		return nil, errors.New("the passes do not tell apart what is asked of them")
	}
	var covariance mat.Dense
	covariance.Mul(&inverse, inverse.T())
	s.covariance = mat.NewSymDense(n, nil)
	for i := range n {
		for j := i; j < n; j++ {
			s.covariance.SetSym(i, j, covariance.At(i, j))
		}
	}
	return s, nil
}

// hangs reports whether every fish hangs from its cable by a factor.
func (m *model) hangs(factor float64) bool {
	for i := range m.sightings {
		if d, _ := m.sightings[i].behind(factor); !(factor > 0 && d > 0) {
			return false
		}
	}
	return true
}

// equations are the rows of the least squares at some values, each over the standard
// deviation of its mark: along the track and across it for each sighting.
func (m *model) equations(k kind, values, places []float64) (a *mat.Dense, b *mat.Dense) {
	n := len(values)
	a, b = mat.NewDense(2*len(m.sightings), n+len(places), nil), mat.NewDense(2*len(m.sightings), 1, nil)
	for i := range m.sightings {
		s := &m.sightings[i]
		sin, cos := math.Sincos(s.Course)
		at := 2 * m.objects[s.Object]
		dx, dy := s.X-m.x0-places[at], s.Y-m.y0-places[at+1]
		delta := values[0]
		wa, wc := 1/s.along(), 1/s.SigmaAcross
		a.Set(2*i, 0, wa)
		if k == parts {
			d, perFactor := s.behind(values[0])
			was, _ := s.behind(s.Factor)
			delta = d - was + values[1] - s.Offset - s.Speed*(values[2]-s.Latency)
			a.Set(2*i, 0, wa*perFactor)
			a.Set(2*i, 1, wa)
			a.Set(2*i, 2, -wa*s.Speed)
		}
		a.Set(2*i, n+at, wa*sin)
		a.Set(2*i, n+at+1, wa*cos)
		b.Set(2*i, 0, wa*(dx*sin+dy*cos-delta))
		a.Set(2*i+1, n+at, wc*cos)
		a.Set(2*i+1, n+at+1, -wc*sin)
		b.Set(2*i+1, 0, wc*(dx*cos-dy*sin))
	}
	return a, b
}
