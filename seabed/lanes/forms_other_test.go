//go:build !amd64 || purego

package lanes

func forms(each func(name string)) { each("scalar") }
