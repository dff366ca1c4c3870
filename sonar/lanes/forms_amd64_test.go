//go:build amd64 && !purego

package lanes

// forms turn on one after another what this machine can run, the scalar form first.
func forms(each func(name string)) {
	old2, old5 := hasAVX2, hasAVX512
	defer func() { hasAVX2, hasAVX512 = old2, old5 }()
	hasAVX2, hasAVX512 = false, false
	each("scalar")
	if hasAVX2 = old2; old2 {
		each("AVX2")
	}
	if hasAVX2, hasAVX512 = false, old5; old5 {
		each("AVX-512")
	}
}
