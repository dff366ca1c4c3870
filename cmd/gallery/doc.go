// Command gallery renders the pictures of docs/gallery: things that look alike
// beside each other, and the same ground seen in two ways, a plate for each
// thing a trainee should be able to explain.
//
//	go generate ./cmd/gallery
//
// Each half of a plate is a short session of its own, from the sea floor to
// the desk's waterfall; nothing is painted by hand.
package main

//go:generate go run . -o ../../docs/gallery
