// Package record keeps the pings of a session as the recorder had them, and the
// readings of the instruments, so that the desk can work them up again and
// writers of data can have them.
//
// It sees observations only: samples, where the desk placed the fish, readings,
// settings. Everything else that the desk gives follows from those and from what
// the surveyor has entered.
//
// An hour of two channels of 2000 samples is 0.86 GB. A [Store] packs it without
// loss to about two thirds (see appendRow), puts it into a [Backing], on a desktop
// a file without a name, and holds no more of it in memory than the block being
// filled and an index of some bytes a ping. What goes in gives the same bytes
// whoever asks and whenever.
//
// A browser has no disk. There a store is made with no backing: it counts pings
// and lines, and whoever asks it for a ping hears [ErrNotKept] and flies the
// session again from its log, which gives the same ping to the byte. A backing in
// the browser's own store, within its quota, would do as well.
package record
