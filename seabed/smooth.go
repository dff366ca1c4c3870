package seabed

// Smooth returns the height of the smooth floor at a point, metres, negative below the
// water: depths and relief of a spec with this seed, as a chart has them, without bedforms,
// the roughness of the sediments and what lies there. It takes no time to make, where a
// [World] takes some.
func Smooth(spec Spec, seed uint64) func(x, y float64) float64 {
	r := newRelief(&spec, seed)
	return r.height
}
