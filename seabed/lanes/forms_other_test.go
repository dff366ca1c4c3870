//go:build !amd64 || purego

package lanes

type form = func(z, slope, heights []float32, places []Place, patch *Patch, du, dv float32)

func forms() map[string]form { return map[string]form{"scalar": floorScalar} }
