package sim

import "runtime"

// EngineNumber stands for "the same bytes": the same exercise, seed and orders
// give the same products on one platform as long as it stays. Whoever changes
// what a session gives, on purpose or not, raises it; a test holds the committed
// digests against it.
const EngineNumber = 1

// Platform names what this program runs on, as a session log's header has it.
// Between platforms the last bit of a sine may differ, and with it a sample.
func Platform() string { return runtime.GOOS + "/" + runtime.GOARCH }

// DataLicence is the licence of what sessions give, by its SPDX identifier: the
// data is synthetic and free for any use.
const DataLicence = "CC0-1.0"
