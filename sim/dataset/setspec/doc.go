// Package setspec says what a set of labelled data is made from: its scenes with their seeds
// and values, what is written of them and how they are split. It makes none: whoever reads
// specs need not know how anything is written.
package setspec
