//go:build !amd64 || purego

package lanes

func floor(z, slope, heights []float32, places []Place, patch *Patch, du, dv float32) {
	floorScalar(z, slope, heights, places, patch, du, dv)
}

func ripple(z []float32, along []Ripple, profile *Profile) { rippleScalar(z, along, profile) }

func seam(z []float32, seams []Seam, a, b *Patch, du, dv float32) {
	seamScalar(z, seams, a, b, du, dv)
}

func raise(z []float32, by []int32, found []Found, nodes []uint16, course *Course) (highest float32) {
	return raiseScalar(z, by, found, nodes, course, 0)
}
