// Package house holds the tests that keep the house in order: who may import
// whom, and that every room says what it is. It has no code of its own.
package house
