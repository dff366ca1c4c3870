package lanes

// Fields are the circular Gaussian values that two of which make a sample of noise.
type Fields [FieldSteps]complex64

// FieldSteps is how many there are.
const (
	FieldBits  = 12
	FieldSteps = 1 << FieldBits
)

// Reception is what a channel turns the intensity of its echo into samples with. What is
// a slice is by bin.
type Reception struct {
	Echo, Stray   []float32   // intensities: of the echo, and of what adds to the noise
	Gain          []float32   // from amplitude to counts
	First, Second []complex64 // speckle of the two rows of ground the ping lies between
	A, B          float32     // their shares
	Noise         float32     // intensity
	Draws         []uint32    // two numbers below FieldSteps each: the lower bits, and those above
	Fields        *Fields
	Full          float32 // counts at full scale
}

// Receive fills dst with
//
//	| root(echo) (A first + B second) + root(noise + stray) (field + field) | gain
//
// rounded to whole counts.
func Receive(dst []uint16, r *Reception) {
	n := len(dst)
	if n == 0 {
		return
	}
	_, _, _ = r.Echo[:n], r.Stray[:n], r.Gain[:n] // the kernels check nothing
	_, _, _ = r.First[:n], r.Second[:n], r.Draws[:n]
	whole := n / Width * Width
	if whole > 0 {
		receive(dst[:whole], r)
	}
	receiveScalar(dst, r, whole)
}

// receiveScalar goes on from a bin to the end.
func receiveScalar(dst []uint16, r *Reception, from int) {
	for k := from; k < len(dst); k++ {
		p, q := r.First[k], r.Second[k]
		re, im := float32(r.A*real(p))+float32(r.B*real(q)), float32(r.A*imag(p))+float32(r.B*imag(q))
		d := r.Draws[k]
		f, g := r.Fields[d&(FieldSteps-1)], r.Fields[d>>FieldBits&(FieldSteps-1)]
		echo, hiss := root(r.Echo[k]), root(r.Noise+r.Stray[k])
		re = float32(echo*re) + float32(hiss*(real(f)+real(g)))
		im = float32(echo*im) + float32(hiss*(imag(f)+imag(g)))
		v := float32(root(float32(re*re)+float32(im*im))*r.Gain[k]) + 0.5
		if !(v < r.Full) {
			v = r.Full
		}
		dst[k] = uint16(int32(v))
	}
}

// Gather fills dst with what energies, less than nothing for none, are times a factor of their bin and what is
// left by segment of Width bins.
func Gather(dst, energy, factor, left []float32) {
	n := len(dst)
	energy, factor = energy[:n], factor[:n]
	whole := n / Width * Width
	if whole > 0 {
		_ = left[whole/Width-1]
		gather(dst[:whole], energy, factor, left)
	}
	if whole < n {
		gatherScalar(dst[whole:], energy[whole:], factor[whole:], left[whole/Width:])
	}
}

func gatherScalar(dst, energy, factor, left []float32) {
	for k := range dst {
		dst[k] = float32(max(energy[k], 0)*factor[k]) * left[k/Width]
	}
}
