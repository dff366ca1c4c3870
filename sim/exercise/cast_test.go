package exercise_test

import (
	"bufio"
	"math"
	"os"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"testing"

	"dryline/scenarios"
	"dryline/sim/exercise"
)

// mackenzie is the nine-term equation of Mackenzie, JASA 70, 1981, 807-812, with the coefficients as printed.
func mackenzie(t, s, d float64) float64 {
	return 1448.96 + 4.591*t - 5.304e-2*t*t + 2.374e-4*t*t*t + 1.340*(s-35) + 1.630e-2*d + 1.675e-7*d*d - 1.025e-2*t*(s-35) - 7.139e-13*t*d*d*d
}

// layered is the water of layered-water as its file has it, worked out here.
func layered(depth float64) float64 {
	points := [][3]float64{{0, 15.5, 33.6}, {6, 15.2, 33.7}, {10, 10.6, 34.4}, {26, 9.5, 34.6}}
	for i := 1; i < len(points); i++ {
		a, b := points[i-1], points[i]
		if depth <= b[0] {
			u, v := mackenzie(a[1], a[2], a[0]), mackenzie(b[1], b[2], b[0])
			return u + (v-u)*(depth-a[0])/(b[0]-a[0])
		}
	}
	return mackenzie(points[3][1], points[3][2], 26)
}

// Of the readings of many casts 95 of 100 are within the stated accuracy of the true profile, in layers and in
// water that is the same everywhere. Of each cast one reading counts, as those of one share an error.
func TestCastsAreAsGoodAsStated(t *testing.T) {
	const casts = 3000
	same := find(t, "first-line").Sea.Water
	for _, row := range []struct {
		exercise string
		truth    func(depth float64) float64
	}{{"layered-water", layered}, {"first-line", func(float64) float64 {
		return mackenzie(same.Temperature, same.Salinity, same.Depth)
	}}} {
		ex := find(t, row.exercise)
		within, sum, together := 0, 0.0, 0.0
		for seed := range uint64(casts) {
			c := ex.TakeCast(exercise.SeedsOf(seed))
			n := len(c.Speed)
			miss := func(i int) float64 { return c.Speed[i] - row.truth(float64(i)*c.Step) }
			i := int(seed) % n
			if math.Abs(miss(i)) <= 0.3 {
				within++
			}
			sum += miss(i)
			together += miss(0) * miss(n-1)
			if deepest := float64(n-1) * c.Step; deepest > c.Floor || c.Floor-deepest > c.Step || n > 25 || n < 10 {
				t.Fatalf("%s: %d readings every %g m over %.2f m", row.exercise, n, c.Step, c.Floor)
			}
		}
		// Four standard deviations of a share of 0.95 and of a mean of none.
		if share, bound := float64(within)/casts, 4*math.Sqrt(0.95*0.05/casts); math.Abs(share-0.95) > bound {
			t.Errorf("%s: %.4f of the readings are within 0.3 m/s, want 0.95 within %.4f", row.exercise, share, bound)
		}
		if bound := 4 * 0.3 / 1.96 / math.Sqrt(casts); math.Abs(sum/casts) > bound {
			t.Errorf("%s: readings are wrong by %.4f m/s on the whole, want none within %.4f", row.exercise, sum/casts, bound)
		}
		// Half of the variance is common to a cast: (0.3/1.96)^2 / 2.
		if got, want := together/casts, math.Pow(0.3/1.96, 2)/2; math.Abs(got-want) > 0.2*want {
			t.Errorf("%s: readings of one cast have %.5f m2/s2 in common, want %.5f", row.exercise, got, want)
		}
	}
}

// The stated accuracy holds what it is made of: the slopes of Mackenzie's equation, by its printed coefficients,
// times what the instrument reads temperature and salinity to, and the equation's own standard error.
func TestCastErrorHoldsItsBudget(t *testing.T) {
	worst := 0.0
	for temperature := -2.0; temperature <= 30; temperature += 0.5 {
		for salinity := 25.0; salinity <= 40; salinity += 2.5 {
			byT := 4.591 - 2*5.304e-2*temperature + 3*2.374e-4*temperature*temperature - 1.025e-2*(salinity-35)
			byS := 1.340 - 1.025e-2*temperature
			if salinity < 32 && temperature < 0 {
				continue // it is stated for the sea
			}
			worst = max(worst, math.Sqrt(math.Pow(0.05*byT, 2)+math.Pow(0.05*byS, 2)+math.Pow(1.96*0.070, 2)))
		}
	}
	if worst > exercise.CastError || worst < 0.9*exercise.CastError {
		t.Errorf("errors come to %.3f m/s, stated are %g", worst, exercise.CastError)
	}
}

// The mean is the harmonic one over depth: the way over the time, here in steps of a centimetre with the readings
// joined by hand. In these layers the arithmetic mean is another by more than the sums are wrong by.
func TestCastMeanIsByTime(t *testing.T) {
	c := exercise.Cast{Step: 5, Floor: 23.4, Speed: []float64{1530, 1520, 1480, 1450, 1440}}
	at := func(d float64) float64 {
		i := int(d / 5)
		if i >= 4 {
			return 1440
		}
		return c.Speed[i] + (c.Speed[i+1]-c.Speed[i])*(d/5-float64(i))
	}
	for _, row := range [][2]float64{{0, 23.4}, {3.2, 3.9}, {7.5, 20}, {21, 23.4}} {
		time, sum, n := 0.0, 0.0, 0.0
		for d := row[0] + 0.005; d < row[1]; d += 0.01 {
			time += 0.01 / at(d)
			sum += at(d)
			n++
		}
		want := (row[1] - row[0]) / time
		if got := c.Mean(row[0], row[1]); math.Abs(got-want) > 0.005 {
			t.Errorf("from %g to %g m: %.3f m/s, want %.3f", row[0], row[1], got, want)
		}
		if arithmetic := sum / n; row[0] == 0 && arithmetic-want < 0.3 {
			t.Errorf("the arithmetic mean is %.3f m/s and the harmonic %.3f: they cannot be told apart", arithmetic, want)
		}
	}
	if got := c.Mean(8, 8); math.Abs(got-at(8)) > 1e-9 {
		t.Errorf("over no depth the mean is %g", got)
	}
}

// A cast depends on the seeds of weather and ground alone, does not change what else is briefed, and is in a brief
// only where the seeds are known.
func TestCastIsOfItsOwnStream(t *testing.T) {
	for _, info := range scenarios.Embedded() {
		ex := find(t, info.Name)
		seeds := exercise.SeedsOf(ex.Seed)
		b := ex.Briefed(seeds)
		if !slices.Equal(b.Cast.Speed, ex.TakeCast(seeds).Speed) || len(b.Cast.Speed) == 0 {
			t.Errorf("%s: the brief has the cast %v", info.Name, b.Cast)
		}
		if c := ex.Brief().Cast; len(c.Speed) != 0 {
			t.Errorf("%s: with no seeds the brief has a cast %v", info.Name, c)
		}
		other := seeds
		other.Sonar++
		other.Placed++
		if !reflect.DeepEqual(b.Cast, ex.TakeCast(other)) {
			t.Errorf("%s: what lies there or the sonar moves the cast", info.Name)
		}
		other = seeds
		other.Weather++
		if reflect.DeepEqual(b.Cast, ex.TakeCast(other)) {
			t.Errorf("%s: another day has the same cast", info.Name)
		}
	}
}

// The water of the test is what the repository's own table of the equation has.
func TestMackenzieHereIsThatOfTheTable(t *testing.T) {
	f, err := os.Open("../../testdata/acoustics/mackenzie1981.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows := 0
	for lines := bufio.NewScanner(f); lines.Scan(); {
		var v []float64
		for _, cell := range strings.Split(lines.Text(), ",") {
			if x, err := strconv.ParseFloat(strings.TrimSpace(cell), 64); err == nil {
				v = append(v, x)
			}
		}
		if len(v) < 4 {
			continue
		}
		rows++
		if got := mackenzie(v[0], v[1], v[2]); math.Abs(got-v[3]) > 1e-3 {
			t.Errorf("%v: got %.4f", v, got)
		}
	}
	if rows == 0 {
		t.Error("no rows")
	}
}
