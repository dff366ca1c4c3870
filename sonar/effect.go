package sonar

import "dryline/sim/chance"

// effect spoils a record in one physical way. Its methods may be called by
// several goroutines at once and depend on nothing but their arguments.
type effect interface {
	// add changes the intensity of one channel and side of a ping.
	add(a *arrival)
}

// arrival is what reaches the receiver, before noise, speckle and gain.
type arrival struct {
	engine    *Engine
	channel   *tuned
	index     int // of the channel
	side      Side
	number    uint64
	pose      Pose
	altitude  float64   // of the fish above the floor below it, metres
	intensity []float32 // per bin, linear re 1 uPa^2
	random    source    // the effect's own stream for this ping, side and channel
}

// spoil lets every effect have its way with one channel.
func (e *Engine) spoil(ws *Workspace, channel int, pose Pose, side Side, number uint64) {
	for i, fx := range e.effects {
		a := arrival{
			engine: e, channel: e.channels[channel], index: channel, side: side, number: number,
			pose: pose, altitude: ws.altitude, intensity: ws.energy,
		}
		stream := number<<8 | uint64(side)<<7 | uint64(channel)<<5 | uint64(i)
		a.random.state = chance.Mix(e.seed ^ chance.Mix(stream^0xa5a5_5a5a_0f0f_f0f0))
		fx.add(&a)
	}
}
