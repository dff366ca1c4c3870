// Package report draws up what a trial came to, for people: a page, a table, a few lines
// for a terminal. The first screen has the ranking and how sure it is, then figures.
package report
