package sonar

import (
	"math"

	"dryline/seabed/chance"
)

// Crossing is where the plane across the fish, on one side, cuts the vessel's
// own past track. The zero value is none.
type Crossing struct {
	Range    float64 // to the side, metres; negative on the other side
	Age      float64 // of the wake there, seconds
	Slant    float64 // width of the cut over the width of the wake, at least 1
	Strength float64 // of the wake when fresh, 0..1; 0 for no crossing
	Along    float64 // the track there, metres run since the start
}

// Crossings is how many cuts through its wake a ping is told of.
const Crossings = 4

// wake is the vessel's Wake as sound meets it: a box of bubbles hanging from
// the surface, as wide as the wake has spread, Depth deep, and as thick as its
// bubbles have left it:
//
//	kappa = Attenuation x strength x 2^(-age/HalfLife) x fresh width / width
//
// in patches along the track, a few metres long and up to three times thicker or
// thinner, and thinning out to its sides and downwards in the echo.
// Sound that crosses it is weakened on the way out and back; what it takes out
// comes back in part, as from any cloud of bubbles (see bubbles), as a fuzzy
// echo. Fresh wakes of some decibels to the metre that fade over minutes are in
// the order of wartime measurements (NDRC, Physics of Sound in the Sea, 1946;
// from memory); the shape and the law of fading are our own choice. The water
// that carries the wake away is the session's business; eddies are left out.
type wake Wake

// cloud is one cut through the wake, in the plane of the beam: y from the fish
// outwards, z from the surface downwards.
type cloud struct {
	y0, y1, bottom float64
	kappa          float64 // extinction of intensity, 1/m
}

// cut is the cloud of a crossing.
func (w *wake) cut(c *Crossing) cloud {
	width := w.Width + w.Spread*c.Age
	decibels := w.Attenuation * c.Strength * math.Exp2(-c.Age/w.HalfLife) * w.Width / width
	half := width / 2 * max(c.Slant, 1)
	return cloud{c.Range - half, c.Range + half, w.Depth, decibels * patch(c.Along) * math.Ln10 / 10}
}

// patch is how much thicker than most the wake is at a place along the track.
func patch(along float64) float64 {
	sum := 0.0
	for size, share := 6.0, 1.3; size > 1; size, share = size/2.3, share*0.6 {
		cell := math.Floor(along / size)
		f := along/size - cell
		f *= f * (3 - 2*f)
		a := fraction(chance.Mix(uint64(int64(cell)) + uint64(size*64)))
		b := fraction(chance.Mix(uint64(int64(cell+1)) + uint64(size*64)))
		sum += share * (a + f*(b-a) - 0.5)
	}
	return math.Exp(sum)
}

func (w *wake) add(a *arrival) {
	for i := range a.pose.Wake[a.side] {
		c := &a.pose.Wake[a.side][i]
		if c.Strength <= 0 {
			continue
		}
		if cloud := w.cut(c); cloud.kappa > 1e-3 && cloud.y1 > 0 {
			cloud.shade(a)
			cloud.answer(a)
		}
	}
}

// shade weakens what lies beyond the cloud: each slant range by the straight
// path to a level floor.
func (c *cloud) shade(a *arrival) {
	const stride = 32
	depth := a.pose.Depth()
	for k := 0; k < len(a.intensity); k += stride {
		r := (float64(k) + stride/2) * a.engine.bin
		down := min(a.altitude/r, 1)
		path := c.path(depth, math.Sqrt(1-down*down), down, r)
		if path <= 0 {
			continue
		}
		through := float32(math.Exp(-2 * c.kappa * path))
		for j := k; j < min(k+stride, len(a.intensity)); j++ {
			a.intensity[j] *= through
		}
	}
}

// path is how much of a ray of length r lies in the cloud; it starts at a depth
// and goes out and down by the given cosine and sine.
func (c *cloud) path(depth, out, down, r float64) float64 {
	t0, t1 := 0.0, r
	t0, t1 = clip(t0, t1, 0, out, c.y0, c.y1)
	t0, t1 = clip(t0, t1, depth, down, 0, c.bottom)
	return t1 - t0
}

// clip narrows t0..t1 to where at + t by lies between low and high.
func clip(t0, t1, at, by, low, high float64) (float64, float64) {
	if math.Abs(by) < 1e-9 {
		if at < low || at > high {
			return t0, t0
		}
		return t0, t1
	}
	a, b := (low-at)/by, (high-at)/by
	return max(t0, min(a, b)), min(t1, max(a, b))
}

// answer adds the cloud's own echo: at each slant range the part of the arc
// that lies in it, in some steps of depth.
func (c *cloud) answer(a *arrival) {
	const steps, stride = 6, 8
	depth := a.pose.Depth()
	bin := a.engine.bin
	thick := c.bottom / steps
	back := c.kappa * backOfExtinction * a.channel.width * bin * thick
	first := 0.0
	if c.y0 > 0 {
		first = c.y0
	}
	far := math.Hypot(c.y1, max(depth, c.bottom-depth))
	for k := int(first / bin); k < min(int(far/bin)+1, len(a.intensity)); k += stride {
		r := (float64(k) + stride/2) * bin
		sum := 0.0
		for i := range steps {
			up := depth - (float64(i)+0.5)*thick
			y := math.Sqrt(max(r*r-up*up, 0))
			if y <= 0 || y < c.y0 || y > c.y1 {
				continue
			}
			// Sound that has come so far through the cloud is weaker.
			inside := min(y-max(c.y0, 0), y) * r / y
			x := (2*y - c.y0 - c.y1) / (c.y1 - c.y0)
			fade := 1.5 * (1 - x*x) * 2 * (1 - (float64(i)+0.5)/steps)
			sum += fade * min(r/y, 4) * a.patternAt(-up/r) * math.Exp(-2*c.kappa*inside)
		}
		echo := float32(back * r * sum)
		if echo == 0 {
			continue
		}
		for j := k; j < min(k+stride, len(a.intensity)); j++ {
			a.intensity[j] += echo * a.channel.propagate[j]
		}
	}
}
