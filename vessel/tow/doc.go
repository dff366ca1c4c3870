// Package tow holds the winch, the cable and the fish behind the vessel.
//
// [Gear] moves them through time; [Spec.Steady] is the shape a straight tow
// settles in, solved another way: it starts the motion and checks it.
//
// Frame: motion is on the local grid, east, north and up, still water at zero.
// For the steady shape s is measured along the cable upward from the fish; phi
// is the angle of the cable to the horizontal. Layback is the horizontal
// distance from the sheave to the fish and depth is below still water, both in
// metres and positive. Forces are in newtons. Cable lengths are unstretched.
package tow
