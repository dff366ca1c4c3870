package placing

import (
	"math"
	"slices"
	"testing"

	"dryline/seabed"
)

// kolmogorov is the critical value of the one-sample Kolmogorov-Smirnov statistic at
// the 1 % level for many draws, 1.63/sqrt(n) (Massey, "The Kolmogorov-Smirnov test
// for goodness of fit", J. Am. Stat. Assoc. 46, 1951, table 1).
func kolmogorov(n int) float64 { return 1.63 / math.Sqrt(float64(n)) }

// farthest is the greatest distance between the draws' distribution and a stated
// one.
func farthest(draws []float64, cdf func(float64) float64) float64 {
	slices.Sort(draws)
	most, n := 0.0, float64(len(draws))
	for i, v := range draws {
		f := cdf(v)
		most = max(most, f-float64(i)/n, float64(i+1)/n-f)
	}
	return most
}

// normal is the cumulative normal distribution by the error function.
func normal(z float64) float64 { return 0.5 * math.Erfc(-z/math.Sqrt2) }

// What is drawn is distributed as stated: measures, burial, scour and heading.
func TestDrawsAreDistributedAsStated(t *testing.T) {
	g := &Group{
		Name: "many", Fewest: 1, Most: 1, Kinds: []Choice{{Kind: "container", Weight: 1}},
		Size: Fixed(1), Length: Distribution{Law: LogUniform, Low: 0.25, High: 4}, Width: Distribution{Low: 0.5, High: 1.5},
		Height: Distribution{Law: Normal, Low: 0.7, High: 2, Mean: 1, Deviation: 0.4}, Burial: Distribution{Low: 0.1, High: 0.9},
		Scour: Distribution{Law: Normal, Low: 0, High: 5, Mean: 0, Deviation: 0.1}, Heading: Heading{Given: true, About: 3, Deviation: 0.3},
	}
	const n = 4000
	var length, width, height, burial, scour, heading, anyway []float64
	place := [2][]float64{}
	kind := seabed.Kinds["container"]
	for seed := range uint64(n) {
		objects, err := Place(g, &seabed.Spec{East: 1000, North: 1000}, flat{}, seed)
		if err != nil {
			t.Fatal(err)
		}
		o := objects[0]
		length, width, height = append(length, o.Length/kind.Length), append(width, o.Width/kind.Width), append(height, o.Height/kind.Height)
		burial, scour, heading = append(burial, o.Burial/o.Height), append(scour, o.Scour), append(heading, o.Heading)
		r := o.Radius()
		place[0] = append(place[0], (o.At.X-r)/(1000-2*r))
		place[1] = append(place[1], (o.At.Y-r)/(1000-2*r))
		every := *g
		every.Heading = Heading{}
		objects, err = Place(&every, &seabed.Spec{East: 1000, North: 1000}, flat{}, seed)
		if err != nil {
			t.Fatal(err)
		}
		anyway = append(anyway, objects[0].Heading)
	}
	cut := func(z, low, high float64) float64 {
		return (normal(z) - normal(low)) / (normal(high) - normal(low))
	}
	for _, row := range []struct {
		name  string
		draws []float64
		cdf   func(v float64) float64
	}{
		{"log-uniform length", length, func(v float64) float64 { return math.Log(v/0.25) / math.Log(16) }},
		{"uniform width", width, func(v float64) float64 { return v - 0.5 }},
		{"cut normal height", height, func(v float64) float64 { return cut((v-1)/0.4, -0.75, 2.5) }},
		{"uniform burial", burial, func(v float64) float64 { return (v - 0.1) / 0.8 }},
		{"half normal scour", scour, func(v float64) float64 { return cut(v/0.1, 0, 50) }},
		{"heading about a bearing", heading, func(v float64) float64 { return normal((v - 3) / 0.3) }},
		{"any heading", anyway, func(v float64) float64 { return v / (2 * math.Pi) }},
		{"place to the east", place[0], func(v float64) float64 { return v }},
		{"place to the north", place[1], func(v float64) float64 { return v }},
	} {
		if d := farthest(row.draws, row.cdf); d > kolmogorov(n) {
			t.Errorf("%s: the draws are %.4f away from what is stated, want at most %.4f", row.name, d, kolmogorov(n))
		}
	}
	// The check itself tells distributions apart that are near to each other.
	if d := farthest(width, func(v float64) float64 { return math.Pow(v-0.5, 1.1) }); d < kolmogorov(n) {
		t.Error("a distribution that is a little skew passes for a uniform one")
	}
}

// How many there are and of which kind: by chi-square, with the critical values of
// the NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.4, at the 1 % level:
// 9.210 for 2 degrees of freedom, 13.277 for 4.
func TestCountsAndKinds(t *testing.T) {
	g := &Group{
		Name: "lot", Fewest: 2, Most: 6,
		Kinds: []Choice{{Kind: "tyre", Weight: 1}, {Kind: "boulder", Weight: 2}, {Kind: "pipe", Weight: 0}, {Kind: "block", Weight: 5}},
	}
	const seeds = 3000
	counts, kinds, all := map[int]float64{}, map[string]float64{}, 0.0
	for seed := range uint64(seeds) {
		objects, err := Place(g, &seabed.Spec{East: 2000, North: 2000}, flat{}, seed)
		if err != nil {
			t.Fatal(err)
		}
		counts[len(objects)]++
		for _, o := range objects {
			kinds[o.Kind]++
			all++
		}
	}
	chi := 0.0
	for n := 2; n <= 6; n++ {
		chi += math.Pow(counts[n]-seeds/5.0, 2) / (seeds / 5.0)
	}
	if len(counts) != 5 || chi > 13.277 {
		t.Errorf("counts %v: chi-square %.2f, want at most 13.277", counts, chi)
	}
	chi = 0
	for kind, share := range map[string]float64{"tyre": 1.0 / 8, "boulder": 2.0 / 8, "block": 5.0 / 8} {
		chi += math.Pow(kinds[kind]-share*all, 2) / (share * all)
	}
	if len(kinds) != 3 || chi > 9.210 {
		t.Errorf("kinds %v: chi-square %.2f, want at most 9.210", kinds, chi)
	}
}

// flat is a floor that suits everything.
type flat struct{}

func (flat) HeightAt(_, _ float64) float64     { return -40 }
func (flat) ClassAt(_, _ float64) seabed.Class { return seabed.MediumSand }

// The quantiles meet the bounds and never leave them, far out in a tail as well.
func TestQuantilesKeepToTheirBounds(t *testing.T) {
	for _, d := range []Distribution{
		{}, Fixed(3), {Low: -1, High: 4}, {Law: LogUniform, Low: 1e-3, High: 50}, {Law: Normal, Low: 0, High: 1e6, Mean: 0, Deviation: 1},
		{Law: Normal, Low: -9, High: 1, Mean: 1, Deviation: 0.01}, {Law: Normal, Low: 2, High: 2, Mean: 2, Deviation: 1},
	} {
		if err := d.check(); err != nil {
			t.Errorf("%+v: %v", d, err)
		}
		last := d.Low
		for i := range 1001 {
			v := d.Quantile(float64(i) / 1000)
			if !(v >= last && v <= d.High) {
				t.Fatalf("%+v at %d thousandths: %v after %v", d, i, v, last)
			}
			last = v
		}
	}
}
