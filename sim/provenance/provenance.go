// Package provenance holds what anyone needs to make a session's products again,
// besides the session: the engine that flew it, by number and platform, and the
// licence of what comes out.
package provenance

import "runtime"

// Engine stands for "the same bytes": the same exercise, seed and orders
// give the same products on one platform as long as it stays. Whoever changes
// what a session gives, on purpose or not, raises it; a test holds the committed
// digests against it.
const Engine = 6

// Platform names what this program runs on, as a session log's header has it.
// Between platforms the last bit of a sine may differ, and with it a sample.
func Platform() string { return runtime.GOOS + "/" + runtime.GOARCH }

// Licence is the licence of what sessions give, by its SPDX identifier: the
// data is synthetic and free for any use.
const Licence = "CC0-1.0"
