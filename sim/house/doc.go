// Package house holds the tests that keep the house in order: who may import whom,
// what a trainee's side may reach, and that every room says what it does. The walk by
// which the window is looked at as well is its only code.
package house
