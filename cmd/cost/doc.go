// Command cost measures how the cost of a survey grows with area, objects, range scale and
// length of line, each while all else stays. It flies every survey on one core, in
// turn with the others for some rounds, keeps the least time of each, and writes a table and a
// plot:
//
//	go run ./cmd/cost -o docs
package main
