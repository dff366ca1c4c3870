package lanes

// Settle adds the energy of every bin but the last to first and second, times the weights
// of its segment of the range, of Width bins, and clears the bins. A weight may be less than
// nothing, for what is taken away again.
func Settle(first, second []float32, bins []Bin, weights, weights2 []float32) {
	n := len(bins) - 1
	first, second = first[:n], second[:n]
	begun := min(Width, n) // what comes before the first bin is none
	settleScalar(first[:begun], second[:begun], bins, weights, weights2, Bin{})
	if whole := n / Width * Width; whole > begun {
		settle(first[begun:whole], second[begun:whole], bins[begun-1:], weights[1:], weights2[1:])
		begun = whole
	}
	if begun < n {
		settleScalar(first[begun:], second[begun:], bins[begun:], weights[begun/Width:], weights2[begun/Width:], bins[begun-1])
	}
	clear(bins)
}

// settleScalar begins at the beginning of a segment; before is the bin before.
func settleScalar(first, second []float32, bins []Bin, weights, weights2 []float32, before Bin) {
	next, next2 := before.FirstNext, before.SecondNext
	for k := range first {
		b := &bins[k]
		first[k] += float32((b.First + next) * weights[k/Width])
		second[k] += float32((b.Second + next2) * weights2[k/Width])
		next, next2 = b.FirstNext, b.SecondNext
	}
}
