// Package order has what a person can do in a session, as one table, and the log
// in which a session is written down.
//
// An order is a [Command]: what is to be done, with its values, and the tick
// before which it was given. The [Table] has a row for each: what it carries,
// what makes it unsound, why it may be refused at a moment, and what it does to a
// [Ship], which a session is.
//
// A session is its exercise and its orders, so a [Log] of these is the session;
// see [ReadLog] and [LogWriter].
package order
