package sonar

// Cross-talk: one side hears the other, through the body of the fish, the
// cable and the electronics between the two arrays. An echo on the one side stands on
// the other in the same ping at the same slant range, weaker by a fixed number of
// decibels, and takes nothing from what is there: it has no shadow of its own. That
// strong targets show up so is common practice, no source. Left out: that its field is
// that of the other side's speckle, and what else but the floor that side hears.

// overhear keeps what the other side of a ping hears of the floor.
func (e *Engine) overhear(ws *Workspace, floor Floor, pose Pose, side Side) {
	other := Port
	if side == Port {
		other = Starboard
	}
	ws.labels = nil
	e.sound(ws, nil, floor, &pose, other)
	if ws.overheard == nil {
		for range e.channels {
			ws.overheard = append(ws.overheard, make([]float32, ws.bins))
		}
	}
	for c, t := range e.channels {
		t.beam.turned(ws.left, &pose, other, t.oneWay, e.soundSpeed)
		ws.gather(c, t.propagate)
		copy(ws.overheard[c], ws.energy)
	}
}

// talkAcross adds a share of it to the energy of a channel.
func (ws *Workspace) talkAcross(channel int, share float64) {
	for k, v := range ws.overheard[channel] {
		ws.energy[k] += float32(share) * v
	}
}
