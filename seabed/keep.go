package seabed

import "math"

// underway is a tile that somebody builds.
type underway struct {
	done chan struct{} // closed when it is
	tile *tile
}

// tileAt returns the tile in column i and row j, building it if it is not there; who
// asks for one that is being built waits for it. Beyond the edge of the world the
// nearest tile stands in.
func (w *World) tileAt(i, j int) *tile {
	i, j = min(max(i, 0), w.nx-1), min(max(j, 0), w.ny-1)
	slot := j*w.nx + i
	if t := w.tiles[slot].Load(); t != nil {
		return t
	}
	w.mu.Lock()
	if t := w.tiles[slot].Load(); t != nil {
		w.mu.Unlock()
		return t
	}
	if u := w.underway[slot]; u != nil {
		w.mu.Unlock()
		<-u.done
		return u.tile
	}
	u := &underway{done: make(chan struct{})}
	w.underway[slot] = u
	w.mu.Unlock()
	u.tile = w.build(float64(i)*tileSize, float64(j)*tileSize)
	close(u.done)

	w.mu.Lock()
	defer w.mu.Unlock()
	delete(w.underway, slot)
	w.keep(slot, u.tile)
	return u.tile
}

// keep keeps a tile, in place of the oldest once there are as many as are kept.
func (w *World) keep(slot int, t *tile) {
	if len(w.order) < w.most {
		w.order = append(w.order, slot)
	} else {
		w.tiles[w.order[w.next]].Store(nil)
		w.order[w.next] = slot
		w.next = (w.next + 1) % w.most
	}
	w.tiles[slot].Store(t)
}

// Keep drops all but so many tiles from now on and builds the others again when
// they are asked for: for those who ask about the floor below one place and not all
// around it. How many are kept changes no answer.
func (w *World) Keep(tiles int) {
	w.mu.Lock()
	defer w.mu.Unlock()
	for _, slot := range w.order {
		w.tiles[slot].Store(nil)
	}
	w.most, w.order, w.next = min(max(tiles, 1), TileLimit), nil, 0
}

// Build builds what of the floor is not there yet along a straight line between two
// points, metres, so that whoever asks next need not. It changes no answer.
func (w *World) Build(ax, ay, bx, by float64) {
	steps := math.Ceil(math.Hypot(bx-ax, by-ay)/(tileSize/4)) + 1
	for k := range int(steps) + 1 {
		f := float64(k) / steps
		w.tileAt(int(math.Floor((ax+f*(bx-ax))/tileSize)), int(math.Floor((ay+f*(by-ay))/tileSize)))
	}
}
