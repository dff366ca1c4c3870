// Package crew works a session off the draw path. The window gives orders and
// time; the crew carries out as many ticks as that time holds, and hands back
// what there is to see: a [View] of the moment, new rows of the waterfall and
// fresh tiles of the mosaic.
//
// On the desktop the crew has a goroutine of its own. In the browser, which has
// one thread, it works within a budget inside each frame. Either way what comes
// out depends only on the exercise and the orders by tick, never on how fast
// the machine is: a machine too slow for the rate asked for runs slower and says
// so.
package crew
