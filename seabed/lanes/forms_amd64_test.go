//go:build amd64 && !purego

package lanes

type form = func(z, slope, heights []float32, places []Place, patch *Patch, du, dv float32)

// forms are all that this machine can run.
func forms() map[string]form {
	all := map[string]form{"scalar": floorScalar}
	with := func(two, five bool) form {
		return func(z, slope, heights []float32, places []Place, patch *Patch, du, dv float32) {
			old2, old5 := hasAVX2, hasAVX512
			hasAVX2, hasAVX512 = two, five
			defer func() { hasAVX2, hasAVX512 = old2, old5 }()
			floor(z, slope, heights, places, patch, du, dv)
		}
	}
	if hasAVX2 {
		all["AVX2"] = with(true, false)
	}
	if hasAVX512 {
		all["AVX-512"] = with(false, true)
	}
	return all
}
