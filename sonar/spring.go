package sonar

import (
	"math"

	"dryline/seabed/chance"
)

// plume is a Spring ready to be sounded: fresh water that wells up through salt. It
// is a plume of the classical kind (Morton, Taylor and Turner, Proc. R. Soc. London A 234,
// 1-23, 1956; from memory), which takes in water from about it as it rises: at z above
// its virtual origin
//
//	b = 6/5 alpha z ,  alpha = 0.1
//	w ~ z^(-1/3) ,  excess ~ z^(-5/3)
//
// Unlike gas it is smooth, widens like a cone and fades on its way: it scatters by
// the square of what it still is fresher. It leans with the current it drifts in. How
// strongly it scatters at its mouth is the exercise's. Left out: layers that stop it,
// and how it bends the sound that passes.
type plume struct {
	Spring
	currentX, currentY float64
}

const (
	plumeSpread = 6.0 / 5 * 0.1 // of the radius, for each metre up
	plumeStep   = 0.1           // between the discs it is cut into, metres
	plumeParts  = 24            // of a disc
)

func (s *plume) add(a *arrival) {
	height := a.pose.Surface - s.Z
	mouth := max(s.Width/2, 0.05)
	origin := mouth / plumeSpread // so far below the mouth
	// Time to rise from the mouth to z: 3/4 z^(4/3), over the speed of the law at one metre.
	speed := s.Rise * math.Cbrt(origin)
	age := func(h float64) float64 {
		rise := func(z float64) float64 { return 0.75 * z * math.Cbrt(z) / speed }
		return rise(origin+h) - rise(origin)
	}
	dx, dy := s.X-a.pose.X, s.Y-a.pose.Y
	end := float64(len(a.intensity)) * a.engine.bin
	far := age(height)*math.Hypot(s.currentX, s.currentY) + mouth + plumeSpread*height
	if along, across := a.ahead(dx, dy); math.Abs(along) > a.lobeEdge(end)+far || math.Abs(across) > end+far {
		return
	}
	sin, cos := math.Sincos(a.pose.Heading)
	for n := 0; ; n++ {
		h := (float64(n) + 0.5) * plumeStep
		if h > height {
			return
		}
		radius := mouth + plumeSpread*h
		fresher := math.Pow(mouth/radius, 5.0/3)
		sigma := math.Pow(10, s.Strength/10) * fresher * fresher * math.Pi * radius * radius * plumeStep / plumeParts
		z := s.Z + h - a.pose.Z
		drift := age(h)
		for k := range plumeParts {
			// A spiral by the golden angle fills a disc evenly; each is turned its own way.
			out := radius * math.Sqrt((float64(k)+0.5)/plumeParts)
			se, so := math.Sincos(2.39996*float64(k) + 2*math.Pi*fraction(chance.Mix(uint64(n))))
			px, py := dx+s.currentX*drift+out*se, dy+s.currentY*drift+out*so
			along, across := px*sin+py*cos, px*cos-py*sin
			if (across > 0) != (a.side == Starboard) {
				continue
			}
			r := math.Sqrt(px*px + py*py + z*z)
			a.target(sigma, along, r, -z/r)
		}
	}
}
