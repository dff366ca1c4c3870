package main

import (
	"math"
	"testing"

	"dryline/sonar"
)

const stb = sonar.Starboard

func dark(v float64) bool { return v < 0.4 }

// The ray through the middle of a school meets the floor at G = x h/d, with the
// school d below the fish: there its shadow is, apart from the echo. A boulder's
// begins at the boulder (similar triangles). On the second pass there is no school.
func TestSchoolThrowsItsShadowApart(t *testing.T) {
	t.Parallel()
	first, second := left(t, "school"), right(t, "school")
	i0, i1 := first.pings(school.Y-1.5, school.Y+1.5)
	h, x, d := first.height(i0, i1), school.X-first.at(i0, i1).X, school.Depth-first.depth(i0, i1)
	echo := math.Hypot(x, d)
	throws := func(down float64) float64 { return math.Hypot(x*h/down, h) }
	within(t, "echo of the school", first.level(stb, i0, i1, echo-1, echo+1), 1.3, 20)
	within(t, "floor between", first.level(stb, i0, i1, echo+school.Width/2+0.3, throws(d+school.Height/2)-0.3), 0.75, 1.3)
	within(t, "middle of the shadow", first.level(stb, i0, i1, throws(d)-1.5, throws(d)+1.5), 0, 0.5)
	start := first.find(stb, i0, i1, echo+1, 48, 0.6, func(v float64) bool { return v < 0.7 })
	within(t, "start of the shadow", start, throws(d+school.Height/2)-0.3, throws(d))

	within(t, "the school's place on the second pass", second.level(stb, i0, i1, echo-1, echo+1), 0.8, 1.25)
	within(t, "the shadow's place on the second pass", second.level(stb, i0, i1, throws(d)-1.5, throws(d)+1.5), 0.8, 1.25)

	for name, m := range map[string]*measured{"first": first, "second": second} {
		i0, i1 := m.pings(177, 179)
		echo, _ := m.extremes(stb, i0, i1, 19, 24, 0.2)
		shadow := m.find(stb, i0, i1, echo, 30, 0.4, dark)
		within(t, name+" pass: echo of the boulder", m.level(stb, i0, i1, echo-0.2, echo+0.2), 2, 50)
		within(t, name+" pass: shadow behind the boulder's echo", shadow-echo, 0, 3)
		for r := echo; r < shadow; r += 0.3 {
			if v := m.level(stb, i0, i1, r, r+0.3); v > 0.7 && v < 1.1 && r > echo+2.5 {
				t.Errorf("%s pass: floor at %.1f m between boulder and shadow", name, r)
			}
		}
	}
}

// Clearance of a span from the gap between pipe and shadow, H = h g/(R+g) (similar
// triangles as for the height of a target; IHO C-13, chapter 4, 2.3.11.4).
func TestSpanStandsOffItsShadow(t *testing.T) {
	t.Parallel()
	clearance := func(m *measured) float64 {
		i0, i1 := m.pings(185, 187)
		pipe, _ := m.extremes(stb, i0, i1, 16, 20, 0.1)
		shadow := m.find(stb, i0, i1, pipe, 30, 0.15, dark)
		g := shadow - pipe
		return m.height(i0, i1) * g / (pipe + g)
	}
	near(t, "clearance of the span, metres", clearance(right(t, "span")), spanHeight, 0.15)
	near(t, "clearance of the pipe at rest, metres", clearance(left(t, "span")), 0, 0.15)
}

// Either side of its shadow a cable is bright before and the floor is ordinary after;
// a scar is brighter after, where its far side faces the sonar, than on the berm before.
func TestScarIsDarkFirst(t *testing.T) {
	t.Parallel()
	around := func(m *measured, y float64) (before, after float64) {
		i0, i1 := m.pings(y, y+1)
		_, shadow := m.extremes(stb, i0, i1, 15, 32, 0.3)
		peak := func(from, to float64) float64 {
			at, _ := m.extremes(stb, i0, i1, from, to, 0.4)
			return m.level(stb, i0, i1, at-0.2, at+0.2)
		}
		return peak(shadow-2, shadow), peak(shadow, shadow+2)
	}
	later, cuts := 0, 0
	for y := 154.0; y < 224; y += 5 {
		if before, after := around(left(t, "scar"), y); after > before {
			later++
		}
		cuts++
		if before, after := around(right(t, "scar"), y); before < 3*after {
			t.Errorf("cable at %g m: level %.2f before its shadow and %.2f after; want it bright before", y, before, after)
		}
	}
	t.Logf("the scar is brighter behind its dark side in %d of %d cuts", later, cuts)
	if later < cuts*3/4 {
		t.Errorf("the scar is brighter behind its dark side in %d of %d cuts, want most", later, cuts)
	}
}

// A pit: dark, then bright, and floor as usual beyond. A tyre: bright, then dark.
func TestPitIsDarkFirst(t *testing.T) {
	t.Parallel()
	pits, tyres := left(t, "pit"), right(t, "pit")
	world := pits.exercise.Seabed.Bedforms[0]
	found := 0
	for y := 157.0; y < 222; y += 0.25 { // the darkest places
		i0, i1 := pits.pings(y-0.2, y+0.2)
		_, at := pits.extremes(stb, i0, i1, 8, 26, 0.5)
		if pits.level(stb, i0, i1, at-0.25, at+0.25) > 0.15 {
			continue
		}
		found++
		if v := pits.level(stb, i0, i1, at-2*world.Width, at-0.7*world.Width); v < 0.5 || v > 1.3 {
			t.Errorf("before the pit at %.1f, %.1f m: level %.2f, want the floor", y, at, v)
		}
		after, _ := pits.extremes(stb, i0, i1, at, at+world.Width, 0.3)
		if v := pits.level(stb, i0, i1, after-0.15, after+0.15); v < 1.3 {
			t.Errorf("behind the pit at %.1f, %.1f m: level %.2f, want bright", y, at, v)
		}
	}
	if found < 3 {
		t.Errorf("found %d cuts through pits, want 3", found)
	}
	for _, o := range tyres.exercise.Seabed.Objects {
		i0, i1 := tyres.pings(o.At.Y-0.3, o.At.Y+0.3)
		r := math.Hypot(o.At.X-tyres.at(i0, i1).X, tyres.height(i0, i1))
		bright, dark := tyres.extremes(stb, i0, i1, r-1.2, r+2.5, 0.15)
		if bright > dark {
			t.Errorf("tyre %s: bright at %.2f m, dark at %.2f m; want bright first", o.Name, bright, dark)
		}
	}
}

// A car's height comes back from its shadow (IHO C-13, chapter 4, 2.3.11.4) in the
// middle; near nadir there is hardly a shadow, and far out it leaves the record.
func TestCarByRange(t *testing.T) {
	t.Parallel()
	m := left(t, "ranges")
	const roof = 1.45
	tip := func(north, starboard float64) (length, h, g float64) {
		i0, i1 := m.pings(north-0.5, north+0.5)
		h, g = m.height(i0-40, i1-40), starboard-(m.at(i0, i1).X-150)
		r := math.Hypot(g, h)
		start := m.find(stb, i0, i1, r-0.8, 49.5, 0.2, dark)
		end := m.find(stb, i0, i1, start+0.5, 49.8, 0.3, func(v float64) bool { return v > 0.5 })
		if math.IsNaN(end) {
			end = 50
		}
		t.Logf("car %.1f m to starboard: shadow from %.2f to %.2f m", starboard, start, end)
		return math.Sqrt(max(end*end-h*h, 0)) - g, h, g
	}
	s, h, g := tip(188, 24)
	near(t, "height of the car by its shadow, metres", h*s/(g+s), roof, 0.2)
	s, _, _ = tip(168, 2.7)
	within(t, "shadow near nadir, metres", s, 0, 2)
	i0, i1 := m.pings(207, 209)
	within(t, "level to the end of the record behind the far car", m.level(stb, i0, i1, 47.5, 49.9), 0, 0.35)
}

// Broadside on the shadow is as long along the track as the car, end on as the car is
// wide; broadside on it answers loudest.
func TestCarByHeading(t *testing.T) {
	t.Parallel()
	m := right(t, "ranges")
	wide := func(north float64) float64 {
		sum := 0
		i0, i1 := m.pings(north-5, north+5)
		for i := i0; i < i1; i++ {
			if dark(m.level(stb, i, i+1, 27, 28.5)) {
				sum++
			}
		}
		first, last := m.at(i0, i0), m.at(i1-1, i1-1)
		return float64(sum) * (last.Y - first.Y) / float64(i1-1-i0)
	}
	near(t, "shadow broadside on, metres", wide(160), 4.3, 0.5)
	near(t, "shadow end on, metres", wide(198), 1.75, 0.5)
	peak := func(north float64) float64 {
		i0, i1 := m.pings(north-0.5, north+0.5)
		at, _ := m.extremes(stb, i0, i1, 22, 27, 0.2)
		return m.level(stb, i0, i1, at-0.1, at+0.1)
	}
	broad := peak(160)
	for _, north := range []float64{179, 198, 217} {
		within(t, "echo over that broadside on", peak(north)/broad, 0, 0.9)
	}
}

// The tyre behind the container is never lit, and its place is as dark as the shadow
// about it. What the fish flies over hardly differs from the floor.
func TestNotSeenIsRight(t *testing.T) {
	t.Parallel()
	m := left(t, "notseen")
	seen := map[uint16]bool{}
	for i := range m.heard {
		for _, lit := range m.heard[i].lit {
			for _, n := range lit {
				seen[n] = true
			}
		}
	}
	if !seen[1] || !seen[2] || seen[3] {
		t.Errorf("lit: %v; want the container (1) and the tyre in the open (2) alone", seen)
	}
	place := func(north, x float64) float64 {
		i0, i1 := m.pings(north-0.4, north+0.4)
		r := math.Hypot(x-m.at(i0, i1).X, m.height(i0, i1))
		at, _ := m.extremes(stb, i0, i1, r-1, r+0.5, 0.2)
		return m.level(stb, i0, i1, at-0.1, at+0.1)
	}
	within(t, "the tyre in the open", place(172, 178), 1.5, 50)
	within(t, "the tyre in the shadow", place(190, 178), 0, 0.2)

	m = right(t, "notseen")
	contrast := func(x float64) float64 {
		i0, i1 := m.pings(189.6, 190.4)
		h := m.height(i0-40, i1-40)
		most, least := 0.0, math.Inf(1)
		r0 := math.Hypot(x-m.at(i0, i1).X, h)
		for r := max(r0-1, h+0.25); r < r0+2.5; r += 0.1 {
			v := m.level(stb, i0, i1, r-0.2, r+0.2)
			most, least = max(most, v), min(least, v)
		}
		return 20 * math.Log10(most/least)
	}
	abreast := contrast(168)
	within(t, "contrast of the block abreast, dB", abreast, 10, 80)
	within(t, "contrast of the block at nadir, dB", contrast(150.3), 0, abreast/2)
}
