package sonar

import "math"

// scatteringLayer is a Layer ready to be sounded: level sheets, strongest in the
// middle,
//
//	sv(z) = sv exp(-2 ((z - Depth)/Thickness)^2)
//
// that swing up and down with internal waves along the track. Each echoes from
// its own distance outwards. Strengths of -70 to -50 dB are usual in coastal
// water at hundreds of kilohertz (common practice, no source). Left out:
// refraction in the thermocline that the layer hangs on, and patches.
type scatteringLayer Layer

func (l *scatteringLayer) add(a *arrival) {
	middle := l.Depth
	if l.Swell > 0 {
		// Internal waves lie still meanwhile; they run aslant of the track.
		middle += l.Swing * math.Sin(2*math.Pi*(0.8*a.pose.X+0.6*a.pose.Y)/l.Swell)
	}
	const sheets = 5
	step := 2 * l.Thickness / sheets
	sv := math.Pow(10, l.Strength/10) * step
	for i := range sheets {
		off := (float64(i) - (sheets-1)/2.0) * step
		weight := math.Exp(-2 * off * off / (l.Thickness * l.Thickness))
		depth := middle + off
		if up := a.pose.Depth() - depth; depth > 0 && up > -a.altitude {
			a.sheet(up, nil, float32(sv*weight), 0)
		}
	}
}
