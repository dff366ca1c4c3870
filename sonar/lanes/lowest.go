package lanes

// Lowest is the lowest of heights that are below zero; zero if none is.
func Lowest(z []float32) float32 {
	whole := len(z) / Width * Width
	sunk := float32(0)
	if whole > 0 {
		sunk = lowest(z[:whole])
	}
	return least(lowestScalar(z[whole:]), sunk)
}

func lowestScalar(z []float32) float32 {
	var lowest [4]float32 // of every fourth, so that none waits for the one before
	for ; len(z) >= len(lowest); z = z[len(lowest):] {
		for l := range lowest {
			lowest[l] = least(z[l], lowest[l])
		}
	}
	for _, h := range z {
		lowest[0] = least(h, lowest[0])
	}
	return least(least(lowest[0], lowest[1]), least(lowest[2], lowest[3]))
}
