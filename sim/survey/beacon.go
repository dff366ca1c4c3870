package survey

import (
	"math"

	"dryline/vessel/nav"
)

// beaconPlace is where the beacon was last heard, carried on with the fish.
type beaconPlace struct {
	x, y, time float64
	heard      bool
}

// beaconPatience is how long a silent beacon is still believed, seconds.
const beaconPatience = 5.0

// answered reports whether the beacon answered at this very reading.
func answered(r *nav.Reading) bool { return r.Fresh.Has(nav.Beacon) && r.Beacon.OK }

func (b *beaconPlace) hear(r *nav.Reading) {
	if answered(r) {
		*b = beaconPlace{r.Beacon.X, r.Beacon.Y, r.Beacon.Time, true}
	}
}

// place puts the fish where it was last heard, carried on along the track made
// good. While there is nothing to go by the layback stands.
func (b *beaconPlace) place(f *Fix, r *nav.Reading) {
	if !b.heard {
		f.Fault = faultNoBeacon
		return
	}
	silent := r.Time - b.time
	if silent > beaconPatience {
		f.Fault = faultSilent
		return
	}
	sin, cos := math.Sincos(f.Course)
	f.X, f.Y = b.x+f.Speed*silent*sin, b.y+f.Speed*silent*cos
}
