package lanes

// Fields are the circular Gaussian values that two of which make a sample of noise.
type Fields [FieldSteps]complex64

// FieldSteps is how many there are.
const (
	FieldBits  = 12
	FieldSteps = 1 << FieldBits
)

// Reception holds what a channel turns the intensity of its echo into samples with. What is
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

// receiveScalar goes on from a bin to the end. Its time goes to three roots a bin, two where
// nothing adds to the noise.
func receiveScalar(dst []uint16, r *Reception, from int) {
	dst = dst[from:]
	n := len(dst)
	echoes, strays, gains, draws := r.Echo[from:][:n], r.Stray[from:][:n], r.Gain[from:][:n], r.Draws[from:][:n]
	rowA, rowB, fields := r.First[from:][:n], r.Second[from:][:n], r.Fields
	a, b, noise, full := r.A, r.B, r.Noise, r.Full
	quiet := root(noise)
	for k := range dst {
		p, q := rowA[k], rowB[k]
		re, im := float32(a*real(p))+float32(b*real(q)), float32(a*imag(p))+float32(b*imag(q))
		d := draws[k]
		f, g := fields[d%FieldSteps], fields[d>>FieldBits%FieldSteps]
		echo, hiss := root(echoes[k]), quiet
		if stray := strays[k]; stray != 0 {
			hiss = root(noise + stray)
		}
		re = float32(echo*re) + float32(hiss*(real(f)+real(g)))
		im = float32(echo*im) + float32(hiss*(imag(f)+imag(g)))
		v := float32(root(float32(re*re)+float32(im*im))*gains[k]) + 0.5
		if !(v < full) {
			v = full
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
	for len(dst) > 0 { // a segment, of which as much is left
		n, share := min(Width, len(dst)), left[0]
		from, by := energy[:n], factor[:n]
		for k := range dst[:n] {
			dst[k] = float32(max(from[k], 0)*by[k]) * share
		}
		dst, energy, factor, left = dst[n:], energy[n:], factor[n:], left[1:]
	}
}
