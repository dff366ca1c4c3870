// Package tow holds the winch, the cable and the fish behind the vessel.
//
// Frame: s is measured along the cable upward from the fish; phi is the angle
// of the cable to the horizontal; layback is the horizontal distance from the
// sheave to the fish and depth is below still water, both in metres and
// positive. Forces are in newtons, on the wetted cable.
package tow
