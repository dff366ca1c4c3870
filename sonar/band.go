package sonar

import "math"

// band is a Layer ready to be sounded: level sheets, strongest in the middle,
//
//	sv(z) = sv exp(-2 ((z - Depth)/Thickness)^2)
//
// that swing up and down with internal waves along the track. Each echoes from
// its own distance outwards. Strengths of -70 to -50 dB are usual in coastal
// water at hundreds of kilohertz (common practice, no source). Left out:
// refraction in the thermocline that the layer hangs on, and patches.
type band Layer

func (b *band) add(a *arrival) {
	middle := b.Depth
	if b.Swell > 0 {
		// Internal waves lie still meanwhile; they run aslant of the track.
		middle += b.Swing * math.Sin(2*math.Pi*(0.8*a.pose.X+0.6*a.pose.Y)/b.Swell)
	}
	const sheets = 5
	step := 2 * b.Thickness / sheets
	sv := math.Pow(10, b.Strength/10) * step
	for i := range sheets {
		off := (float64(i) - (sheets-1)/2.0) * step
		weight := math.Exp(-2 * off * off / (b.Thickness * b.Thickness))
		depth := middle + off
		if up := a.pose.Depth() - depth; depth > 0 && up > -a.altitude {
			a.sheet(up, nil, float32(sv*weight), 0)
		}
	}
}
