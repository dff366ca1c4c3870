package waterfall

// Follow takes over what another leveller has learnt, so that a record can be
// levelled for show without touching the one that levels for the products.
func (l *Leveller) Follow(other *Leveller) {
	l.mean, l.pings, l.shape = other.mean, other.pings, other.shape
	l.learnt = other.known + other.learnt - l.known
}
