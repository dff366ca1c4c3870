package lanes

// Convolve fills dst with the sums of values times a kernel,
//
//	dst(k) = kernel(0) values(k) + kernel(1) values(k+1) + ...
//
// values are longer than dst by the kernel less one.
func Convolve(dst, values, kernel []float32) {
	n := len(dst)
	values = values[:n+len(kernel)-1]
	whole := n / Width * Width
	if whole > 0 {
		convolve(dst[:whole], values, kernel)
	}
	convolveScalar(dst[whole:], values[whole:], kernel)
}

func convolveScalar(dst, values, kernel []float32) {
	for k := range dst {
		sum := float32(kernel[0] * values[k])
		for j := 1; j < len(kernel); j++ {
			sum += float32(kernel[j] * values[k+j])
		}
		dst[k] = sum
	}
}

// RingBins is how many bins hear alike of one of [AddRings].
const RingBins = 8

// AddRings adds to dst what each RingBins of them hear, times a factor of the bin's own.
func AddRings(dst, factor, rings []float32) {
	n := len(rings)
	dst, factor = dst[:n*RingBins], factor[:n*RingBins]
	if n > 0 {
		addRings(dst, factor, rings)
	}
}

func addRingsScalar(dst, factor, rings []float32) {
	for i, each := range rings {
		out, factor := (*[RingBins]float32)(dst[i*RingBins:]), (*[RingBins]float32)(factor[i*RingBins:])
		for k, f := range factor {
			out[k] += float32(each * f)
		}
	}
}
