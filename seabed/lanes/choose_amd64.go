//go:build amd64 && !purego

package lanes

import "golang.org/x/sys/cpu"

// What the machine has. Tests turn them off.
var (
	hasAVX2   = cpu.X86.HasAVX2
	hasAVX512 = cpu.X86.HasAVX512F && cpu.X86.HasAVX512DQ && cpu.X86.HasAVX512BW && cpu.X86.HasAVX512VL
)

func floor(z, slope, heights []float32, places []Place, patch *Patch, du, dv float32) {
	switch {
	case hasAVX512:
		floorAVX512(&z[0], &slope[0], &heights[0], &places[0].U, &patch[0], du, dv, len(places))
	case hasAVX2:
		floorAVX2(&z[0], &slope[0], &heights[0], &places[0].U, &patch[0], du, dv, len(places))
	default:
		floorScalar(z, slope, heights, places, patch, du, dv)
	}
}

func ripple(z []float32, along []Ripple, profile *Profile) {
	switch {
	case hasAVX512:
		rippleAVX512(&z[0], &along[0].Phase, &profile[0], len(along))
	case hasAVX2:
		rippleAVX2(&z[0], &along[0].Phase, &profile[0], len(along))
	default:
		rippleScalar(z, along, profile)
	}
}

func seam(z []float32, seams []Seam, a, b *Patch, du, dv float32) {
	switch {
	case hasAVX512:
		seamAVX512(&z[0], &seams[0].A.U, &a[0], &b[0], du, dv, len(seams))
	case hasAVX2:
		seamAVX2(&z[0], &seams[0].A.U, &a[0], &b[0], du, dv, len(seams))
	default:
		seamScalar(z, seams, a, b, du, dv)
	}
}

func raise(z []float32, by []int32, found []Found, nodes []uint16, course *Course) (highest float32) {
	n := len(z) / Width
	if !hasAVX2 && !hasAVX512 || n == 0 {
		return raiseScalar(z, by, found, nodes, course, 0)
	}
	var best [Width]float32
	for l := range best {
		best[l] = Nothing
	}
	if hasAVX512 {
		raiseAVX512(&z[0], &by[0], &found[0].Higher, &nodes[0], &course.U, &best[0], n)
	} else {
		raiseAVX2(&z[0], &by[0], &found[0].Higher, &nodes[0], &course.U, &best[0], n)
	}
	highest = raiseScalar(z, by, found, nodes, course, n*Width)
	for _, b := range best {
		highest = most(b, highest)
	}
	return highest
}
