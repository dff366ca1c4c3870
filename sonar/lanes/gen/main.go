// Command gen writes the kernels of package lanes for amd64. The scalar forms beside
// them are the reference: the same roundings in the same order.
package main

import (
	"dryline/seabed/lanes/gen/isa"

	. "github.com/mmcloughlin/avo/build"
)

func main() {
	ConstraintExpr("amd64,!purego")
	w, d, b, r := newWalk(), newDeposit(), newSettle(), newReceive()
	for _, s := range isa.Sets {
		w.write(s, false)
		w.write(s, true)
		b.write(s)
		d.write(s)
		r.write(s)
		writeConvolve(s)
		writeLowest(s, r.zero)
	}
	writeRings(isa.Sets[0])
	newDraw().write(isa.Sets[1])
	Generate()
}
