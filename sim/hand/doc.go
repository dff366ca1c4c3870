// Package hand has those who give orders on their own: the [Mate], who runs an
// exercise's plan. A hand sees what one sees on deck and gives ordinary orders, so
// that a session replays without it.
package hand
